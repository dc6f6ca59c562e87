"""Documents of the settings: which fields archive.yaml has."""

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, GetJsonSchemaHandler
from pydantic_core import CoreSchema

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.check.patterns import ID
from sitegen.check.water_documents import WaterDoc
from sitegen.model.amount import Basis


class MeasuringDoc(Document):
    """What the author weighs and measures with."""

    balance: t.Grams | None = Field(None, description="The step of the balance: 0.1 g.")
    vessels: tuple[t.VesselText, ...] = Field((), description="Measuring vessels: [100 ml in 1 ml].")
    drops_per_ml: t.Number | None = Field(None, description="Drops of the author's pipette to a millilitre.")


class ProcessDoc(Document):
    """A group of recipes."""

    name: t.Text = Field(description="As it is shown.")
    summary: t.Text | None = Field(None, description="One sentence.")


class EditionOrFields:
    """An edition: its short name alone, or fields with it among them."""

    @staticmethod
    def spread(value: object) -> object:
        """The short form as the long one."""
        return {"id": value} if isinstance(value, str) or value is None else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"type": ["string", "number"], "pattern": f"^{ID}$"}, handler(core)]}


class EditionDoc(Document):
    """An edition with more than its short name."""

    id: t.Id = Field(description="Its short name, by which recipes name it.")
    name: t.Text | None = Field(None, description="As readers see it: For supporters.")
    sealed: t.Flag = Field(False, description="Whether it is compiled sealed, to be opened with a passphrase.")
    address: t.Address | None = Field(None, description="Where it is published, if not where the archive is.")


AnyEditionDoc = Annotated[EditionDoc, BeforeValidator(EditionOrFields.spread), EditionOrFields]


class ArchiveDoc(Document):
    """The settings, archive.yaml."""

    title: t.Text = Field(description="What the archive is called.")
    studio: t.Text | None = Field(None, description="Who made it.")
    summary: t.Text | None = Field(None, description="One sentence.")
    address: t.Address | None = Field(None, description="Where it is published.")
    language: t.Language = Field("en", description="The language it is written in.")
    editions: tuple[AnyEditionDoc, ...] = Field((), min_length=1, description="Audiences, the widest first.")
    default_edition: t.Id | None = Field(None, description="Of recipes that name none.")
    licence: t.Text | None = Field(None, description="Under which licence it may be used.")
    percent_means: Basis | None = Field(None, description="What a bare percent means.")
    measuring: MeasuringDoc | None = Field(None, description="Balance, vessels, drops.")
    allowance: t.Allowance | None = Field(None, description="Extra mixed for sheets: 15 %.")
    processes: dict[t.Key, ProcessDoc] = Field(default_factory=dict, description="The groups of recipes.")
    welcome: t.Markdown | None = Field(None, description="Text of the first page.")
    water: dict[t.Key, WaterDoc] = Field(default_factory=dict, description="The waters of the places, by short name.")
