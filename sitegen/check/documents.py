"""Documents: which fields a recipe and the settings have. The format, as models.

Cards are `card_documents`, leaves are `leaves`; how values hang together is `rules`. Fields have spaces where
the file has: `then_wait` is written `then wait`. The JSON Schema for editors is made from these classes.
"""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, GetJsonSchemaHandler, WithJsonSchema
from pydantic_core import CoreSchema

from sitegen.check import leaves as t
from sitegen.check.patterns import AMOUNT, INGREDIENT
from sitegen.model.amount import Basis
from sitegen.model.recipe import Relation, Status


class Document(BaseModel):
    """Any group of fields: unknown names are refused."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        alias_generator=lambda name: name.rstrip("_").replace("_", " "),
    )


class AmountOrFields:
    """An ingredient's line: the amount alone, or fields with the amount among them."""

    @staticmethod
    def spread(value: object) -> object:
        """The short form as the long one."""
        return {"amount": value} if isinstance(value, str) or value is None else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"type": "string", "pattern": AMOUNT}, handler(core)]}


class PictureDoc(Document):
    """A picture."""

    file: t.Text = Field(description="File name below images/.")
    alt: t.Text = Field(description="What the picture shows, in words, for those who cannot see it.")


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
    mixing: tuple[t.Markdown, ...] = Field((), description="How to mix, one sentence or more an entry.")
    note: t.Markdown | None = Field(None, description="Anything else about it.")


class HazardsDoc(Document):
    """The hazard block: never left out."""

    wear: t.Texts = Field((), description="What protects skin, eyes and lungs.")
    air: t.Texts = Field((), description="Dust, vapour, ventilation.")
    never: t.Texts = Field((), description="What must never be done.")
    first_aid: t.Texts = Field((), description="What to do at once.")
    disposal: t.Texts = Field((), description="Where it goes; local rules decide.")
    note: t.Texts = Field((), description="Anything else.")


class StepDoc(Document):
    """One thing to do."""

    do: t.Markdown = Field(description="What to do.")
    for_: t.Time | None = Field(None, description="How long: 2-3 min.")
    at: t.Temperature | None = Field(None, description="At which temperature: 18-22 °C.")
    light: t.Text | None = Field(None, description="In which light.")
    look_for: t.Text | None = Field(None, description="How to see that it is done.")
    look_in: t.Text | None = Field(None, description="In which light that is judged.")
    caution: t.Text | None = Field(None, description="What can go wrong or hurt here.")
    image: PictureDoc | None = Field(None, description="A picture of it.")


class StageDoc(Document):
    """A part of the work."""

    title: t.Text = Field(description="One or two words: Coat, Expose, Wash.")
    light: t.Text | None = Field(None, description="The light of all its steps.")
    steps: tuple[StepDoc, ...] = Field(min_length=1, description="What to do, in order.")
    then_wait: t.Time | None = Field(None, description="A wait before the next stage: 45 min.")
    checks: tuple[t.Text, ...] = Field((), description="What must hold before going on.")


class NegativeDoc(Document):
    """The negative of a layer and how it lies."""

    label: t.Text | None = Field(None, description="What is written on it.")
    faces: t.Text | None = Field(None, description="Which side faces the paper.")
    top_edge: t.Text | None = Field(None, description="How the top edge is told.")
    mirrored: t.Text | None = Field(None, description="Whether the picture is mirrored.")


class ExposeDoc(Document):
    """The exposure of a layer."""

    to: t.Text | None = Field(None, description="The light: sun, UV lamp.")
    for_: t.Time | None = Field(None, description="How long: 8 min.")
    at: t.Length | None = Field(None, description="From how far: 20 cm.")


class LayerDoc(Document):
    """One printed layer."""

    name: t.Text = Field(description="What the layer is called.")
    negative: NegativeDoc | None = Field(None, description="Its negative.")
    expose: ExposeDoc | None = Field(None, description="Its exposure.")


class CauseDoc(Document):
    """A likely cause of a trouble."""

    cause: t.Text = Field(description="What happened.")
    remedy: t.Text = Field(description="What to do next time.")
    check: t.Text | None = Field(None, description="The first thing to look at.")
    save: t.Text | None = Field(None, description="What can save this print.")


class TroubleDoc(Document):
    """What went wrong, and why."""

    symptom: t.Text = Field(description="What is seen: Blues wash away.")
    causes: tuple[CauseDoc, ...] = Field(min_length=1, description="Likeliest first.")


class CreditDoc(Document):
    """Where a recipe comes from."""

    work: t.Text = Field(description="Author, work, year.")
    relation: Relation = Field(description="How close this recipe is to it.")
    licence: t.Text | None = Field(None, description="Under which licence it is used.")
    address: t.Address | None = Field(None, description="Where it can be read.")


class ParentDoc(Document):
    """The recipe this one varies."""

    recipe: t.Text = Field(description="File name of that recipe, without .yaml.")
    changes: t.Text = Field(description="What was changed, in a sentence.")


class RecipeDoc(Document):
    """A recipe file."""

    title: t.Text = Field(description="What the recipe is called.")
    code: t.Code = Field(description="Stable short code for labels: IB-07.")
    summary: t.Text = Field(description="One or two plain sentences.")
    about: t.Markdown | None = Field(None, description="A longer text.")
    process: t.Id = Field(description="Its group, one of `processes` in archive.yaml.")
    keywords: t.Texts = Field((), description="Other words to find it by.")
    edition: t.Id | None = Field(None, description="Who may read it, one of `editions` in archive.yaml.")
    teaser: t.Text | None = Field(None, description="One sentence that other editions may show.")
    status: Status = Field("settled", description="trial, settled or retired.")
    revision: t.Revision = Field(description="A whole number, raised with every change.")
    revised: t.Date = Field(description="Day of the revision: 2026-03-02.")
    credits: tuple[CreditDoc, ...] = Field((), description="Where it comes from.")
    derived_from: ParentDoc | None = Field(None, description="The recipe this one varies.")
    takes: t.Time | None = Field(None, description="The whole time; checked against the steps.")
    image: PictureDoc | None = Field(None, description="A picture of it.")
    mixtures: dict[t.Key, MixtureDoc] = Field(min_length=1, description="What is mixed, by short name.")
    needs: tuple[t.Text, ...] = Field((), description="Tools and vessels.")
    hazards: HazardsDoc = Field(description="What harms, and what to do; never left out.")
    layers: tuple[LayerDoc, ...] = Field((), description="The layers of a print of several layers.")
    stages: tuple[StageDoc, ...] = Field((), description="The work, in order.")
    troubles: tuple[TroubleDoc, ...] = Field((), description="Symptoms, causes, remedies.")


class MeasuringDoc(Document):
    """What the author weighs and measures with."""

    balance: t.Grams | None = Field(None, description="The step of the balance: 0.1 g.")
    vessels: tuple[t.VesselText, ...] = Field((), description="Measuring vessels: [100 ml in 1 ml].")
    drops_per_ml: t.Number | None = Field(None, description="Drops of the author's pipette to a millilitre.")


class ProcessDoc(Document):
    """A group of recipes."""

    name: t.Text = Field(description="As it is shown.")
    summary: t.Text | None = Field(None, description="One sentence.")


class ArchiveDoc(Document):
    """The settings, archive.yaml."""

    title: t.Text = Field(description="What the archive is called.")
    studio: t.Text | None = Field(None, description="Who made it.")
    summary: t.Text | None = Field(None, description="One sentence.")
    address: t.Address | None = Field(None, description="Where it is published.")
    language: t.Language = Field("en", description="The language it is written in.")
    editions: tuple[t.Id, ...] = Field(("public",), min_length=1, description="Audiences, the widest first.")
    default_edition: t.Id | None = Field(None, description="Of recipes that name none.")
    licence: t.Text | None = Field(None, description="Under which licence it may be used.")
    percent_means: Basis | None = Field(None, description="What a bare percent means.")
    measuring: MeasuringDoc | None = Field(None, description="Balance, vessels, drops.")
    allowance: t.Allowance | None = Field(None, description="Extra mixed for sheets: 15 %.")
    processes: dict[t.Key, ProcessDoc] = Field(default_factory=dict, description="The groups of recipes.")
    welcome: t.Markdown | None = Field(None, description="Text of the first page.")
