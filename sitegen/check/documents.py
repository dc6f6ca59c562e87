"""Documents: which fields a recipe has. The format, as models.

The settings are `settings_documents`, cards `card_documents`, leaves are `leaves`; how values hang together is
`rules`. Fields have spaces where the file has: `then_wait` is written `then wait`. The JSON Schema for editors is
made from these classes.
"""

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator, Field, GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema

from sitegen.check import leaves as t
from sitegen.check.dispute_documents import DisputeDoc
from sitegen.check.document import Document, EditionOf
from sitegen.check.layer_documents import LayerDoc
from sitegen.check.origin_documents import ChangeDoc, CreditDocs, ParentDoc
from sitegen.check.patterns import AMOUNT, INGREDIENT
from sitegen.check.picture_documents import MovingPictureDoc, PairDoc, PictureDoc
from sitegen.check.trouble_documents import TroubleDoc
from sitegen.model.capacity import Spent
from sitegen.model.recipe import Intention, Status
from sitegen.model.water import Role


class AmountOrFields:
    """An ingredient's line: the amount alone, or fields with the amount among them."""

    @staticmethod
    def spread(value: object) -> object:
        """The short form as the long one."""
        return {"amount": value} if isinstance(value, str) or value is None else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"type": "string", "pattern": AMOUNT}, handler(core)]}


class NoteOrFields:
    """A mixture's note: the text alone, or the text with who may read it."""

    @staticmethod
    def spread(value: object) -> object:
        """The short form as the long one."""
        return {"text": value} if isinstance(value, str) else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"type": "string"}, handler(core)]}


class NoteDoc(Document):
    """A note of a mixture that not everybody may read."""

    text: t.Markdown = Field(description="The note.")
    edition: EditionOf = None


AnyNoteDoc = Annotated[NoteDoc, BeforeValidator(NoteOrFields.spread), NoteOrFields]


class LineDoc(Document):
    """One ingredient, with more than its amount."""

    amount: t.AmountText
    form: t.Text | None = Field(None, description="Which form of the substance: decahydrate.")
    why: t.Text | None = Field(None, description="Why it is there, or why this form.")
    optional: t.Flag = Field(False, description="Whether it may be left out.")
    add: Literal["last"] | None = Field(None, description="`last` moves the ingredient to the end of the mixing.")


AnyLineDoc = Annotated[LineDoc, BeforeValidator(AmountOrFields.spread), AmountOrFields]
# Not refused here when it is no id: `ingredients` knows what was meant.
IngredientKey = Annotated[str, WithJsonSchema({"type": "string", "pattern": INGREDIENT})]


class MixtureDoc(Document):
    """Something mixed."""

    name: t.Text = Field(description="As it stands on the bottle.")
    makes: t.Made | None = Field(None, description="How much these amounts make: one volume or mass.")
    contains: dict[
        Annotated[str, WithJsonSchema({"type": "string", "pattern": INGREDIENT})],
        Annotated[LineDoc, BeforeValidator(AmountOrFields.spread), AmountOrFields],
    ] = Field(min_length=1, description="Ingredients and amounts, in the order of mixing.")
    keeps: t.Time | None = Field(None, description="How long it keeps: 90 days.")
    store: t.Text | None = Field(None, description="How to keep it.")
    coverage: t.Coverage | None = Field(None, description="Liquid per area and coat: 40 ml/m².")
    density: t.Density | None = Field(None, description="Of the finished mixture: 1.05 g/ml.")
    dilute: tuple[t.Ratio, ...] = Field((), description="Usual dilutions of this stock: [1+9].")
    per_person: t.Made | None = Field(None, description="What each person gets in a workshop.")
    capacity: t.CapacityText | None = Field(None, description="What it does before it is spent: 1.3 m² per l.")
    when_spent: Spent | None = Field(None, description="Whether a spent bath is replaced whole or replenished.")
    mixing: tuple[t.Markdown, ...] = Field((), description="How to mix, one sentence or more an entry.")
    note: AnyNoteDoc | None = Field(None, description="Anything else about it.")


class HazardsDoc(Document):
    """The hazard block: never left out."""

    wear: t.Warnings = Field((), description="What protects skin, eyes and lungs.")
    air: t.Warnings = Field((), description="Dust, vapour, ventilation.")
    never: t.Warnings = Field((), description="What must never be done.")
    first_aid: t.Warnings = Field((), description="What to do at once.")
    disposal: t.Warnings = Field((), description="Where it goes; local rules decide.")
    note: t.Warnings = Field((), description="Anything else.")


class StepDoc(Document):
    """One thing to do."""

    do: t.Markdown = Field(description="What to do.")
    for_: t.Time | None = Field(None, description="How long: 2-3 min.")
    at: t.Temperature | None = Field(None, description="At which temperature: 18-22 °C.")
    light: t.Text | None = Field(None, description="In which light.")
    look_for: t.Text | None = Field(None, description="How to see that it is done.")
    look_in: t.Text | None = Field(None, description="In which light that is judged.")
    caution: t.Text | None = Field(None, description="What can go wrong or hurt here.")
    water: Role | None = Field(None, description="What its water is for: wash, acid bath, last rinse, mixing.")
    image: PictureDoc | None = Field(None, description="A picture of it.")
    compare: PairDoc | None = Field(None, description="Two pictures, before and after.")
    moving_picture: MovingPictureDoc | None = Field(None, description="A moving picture of it, elsewhere.")


class StageDoc(Document):
    """A part of the work."""

    title: t.Text = Field(description="One or two words: Coat, Expose, Wash.")
    layer: t.Text | None = Field(None, description="The layer it works on, by its name.")
    light: t.Text | None = Field(None, description="The light of all its steps.")
    steps: tuple[StepDoc, ...] = Field(min_length=1, description="What to do, in order.")
    then_wait: t.Time | None = Field(None, description="A wait before the next stage: 45 min.")
    checks: tuple[t.Text, ...] = Field((), description="What must hold before going on.")
    edition: EditionOf = None


class AnswerDoc(Document):
    """The author's answer to a warning about a dangerous pair."""

    pair: t.Text = Field(description="The rule that the warning names: X34.")
    reason: t.Text = Field(description="Why it is safe here, in a sentence; it is printed.")


class RecipeDoc(Document):
    """A recipe file."""

    title: t.Text = Field(description="What the recipe is called.")
    code: t.Code = Field(description="Stable short code for labels: IB-07.")
    summary: t.Text = Field(description="One or two plain sentences.")
    about: t.Markdown | None = Field(None, description="A longer text.")
    process: t.Id = Field(description="Its group, one of `processes` in archive.yaml.")
    keywords: t.Texts = Field((), description="Other words to find it by.")
    edition: t.Id | None = Field(None, description="Who may read it, one of `editions` in archive.yaml.")
    teaser: t.Text | None = Field(None, description="One sentence that lower editions may show beside the title.")
    sealed_title: t.Flag = Field(False, description="Whether not even the title may be shown in lower editions.")
    publish_from: t.Date | None = Field(None, description="The day from which the widest edition holds it, too.")
    status: Status = Field("settled", description="trial, settled or retired.")
    revision: t.Revision = Field(description="A whole number, raised with every change.")
    revised: t.Date = Field(description="Day of the revision: 2026-03-02.")
    credits: CreditDocs = Field((), description="Where it comes from: own, or a list of works.")
    derived_from: ParentDoc | None = Field(None, description="The recipe this one varies.")
    changes: tuple[ChangeDoc, ...] = Field((), description="What revisions changed.")
    takes: t.Time | None = Field(None, description="The whole time; checked against the steps.")
    image: PictureDoc | None = Field(None, description="A picture of it.")
    mixtures: dict[t.Key, MixtureDoc] = Field(min_length=1, description="What is mixed, by short name.")
    needs: tuple[t.Text, ...] = Field((), description="Tools and vessels.")
    hazards: HazardsDoc = Field(description="What harms, and what to do; never left out.")
    intends: tuple[Intention, ...] = Field((), description="Processes that need a dangerous pair: [acid etch].")
    answers: tuple[AnswerDoc, ...] = Field((), description="Answers to warnings about dangerous pairs.")
    layers: tuple[LayerDoc, ...] = Field((), description="The layers of a print of several layers.")
    stages: tuple[StageDoc, ...] = Field((), description="The work, in order.")
    troubles: tuple[TroubleDoc, ...] = Field((), description="Symptoms, causes, remedies.")
    disputes: tuple[DisputeDoc, ...] = Field((), description="Where sources disagree: claims and your own result.")
