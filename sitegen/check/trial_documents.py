"""Trial documents: which fields an entry of the journal has. How they agree with its recipe is `trials`."""

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, GetJsonSchemaHandler
from pydantic_core import CoreSchema

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.check.picture_documents import PictureDoc
from sitegen.model.trial import Verdict


class ThenOrBoth:
    """A changed figure: what it was in the trial, or both figures as fields."""

    @staticmethod
    def spread(value: object) -> object:
        """The short form as the long one."""
        return {"to": value} if isinstance(value, str) or value is None else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        both = handler(core)
        fields = handler.resolve_ref_schema(both)["properties"]
        return {"anyOf": [fields["to"], both]}


class AmountChangeDoc(Document):
    """An amount that was other than the recipe's."""

    from_: t.AmountText | None = Field(None, description="What the recipe said; needed once it says something else.")
    to: t.AmountText = Field(description="What was taken instead.")


class TimeChangeDoc(Document):
    """A time that was other than the recipe's."""

    from_: t.Time | None = Field(None, description="What the recipe said; needed once it says something else.")
    to: t.Time = Field(description="How long it was instead.")


class CoverageChangeDoc(Document):
    """A coverage that was other than the recipe's."""

    from_: t.Coverage | None = Field(None, description="What the recipe said; needed once it says something else.")
    to: t.Coverage = Field(description="What it was instead.")


class ChangedDoc(Document):
    """What was done otherwise than the recipe says."""

    amounts: dict[str, Annotated[AmountChangeDoc, BeforeValidator(ThenOrBoth.spread), ThenOrBoth]] = Field(
        {}, description="Amounts by ingredient, as links name them: part-a/ferric-ammonium-citrate-green."
    )
    times: dict[str, Annotated[TimeChangeDoc, BeforeValidator(ThenOrBoth.spread), ThenOrBoth]] = Field(
        {}, description="Times by step: Expose/1 is the first step of the stage Expose."
    )
    coverage: dict[str, Annotated[CoverageChangeDoc, BeforeValidator(ThenOrBoth.spread), ThenOrBoth]] = Field(
        {}, description="Liquid per area and coat, by mixture."
    )
    other: t.Texts = Field((), description="Anything else, in words.")


class ConditionsDoc(Document):
    """What the trial was made with and in."""

    paper: t.Text | None = Field(None, description="Which paper.")
    lamp: t.Text | None = Field(None, description="Which lamp, or the sun, and how far off.")
    temperature: t.Temperature | None = Field(None, description="Of the room: 18 °C.")
    humidity: t.Humidity | None = Field(None, description="Of the air: 55 %.")
    water: t.Text | None = Field(None, description="Which water: the id of one of the archive's waters, or in words.")
    other: t.Texts = Field((), description="Anything else.")


class TrialDoc(Document):
    """An entry of the journal."""

    title: t.Text = Field(description="What the entry is called.")
    recipe: t.Text = Field(description="The recipe's file name, without .yaml.")
    revision: t.Revision = Field(description="The revision that was tried.")
    date: t.Date = Field(description="The day, as in the file's name.")
    edition: t.Id | None = Field(None, description="Who may read it, if not all readers of the recipe.")
    aim: t.Markdown | None = Field(None, description="What was to be found out.")
    changed: ChangedDoc | None = Field(None, description="What was done otherwise than the recipe says.")
    conditions: ConditionsDoc | None = Field(None, description="What it was made with and in.")
    batches: tuple[t.BatchText, ...] = Field((), description="The bottles used, by the codes on their labels.")
    image: PictureDoc | None = Field(None, description="A picture of how it came out.")
    outcome: t.Markdown = Field(description="How it came out.")
    verdict: Verdict = Field(description="worked, failed or open.")
    suspected: t.Text | None = Field(None, description="What is thought to be the cause, of a failure.")
    trouble: t.Text | None = Field(None, description="A trouble of the recipe that it shows: blues-wash-away.")
    solved_by: t.Text | None = Field(None, description="The entry in which it was got right, by its file's name.")
    became: t.Revision | None = Field(None, description="The revision of the recipe that took it over.")
