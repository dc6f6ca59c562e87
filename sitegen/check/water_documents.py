"""Documents of waters: which fields a place's water has in archive.yaml. How figures are read is `model.water`."""

from functools import partial
from typing import Annotated, Any, Final

from pydantic import Field, WithJsonSchema

from sitegen.check import leaves as t
from sitegen.check import patterns
from sitegen.check.document import Document, EditionOf
from sitegen.model.water import MEASURES, UNITS_OF, Measure, Reading, Water, parse_reading


def _schema(measure: Measure) -> WithJsonSchema:
    """Of units the parser knows many ways of writing; the schema only wants one to be there."""
    if measure == "pH":
        text: dict[str, Any] = {"type": "string", "pattern": rf"^(pH\s*)?{patterns.RANGE}$"}
        return WithJsonSchema({"anyOf": [text, {"type": "number"}], "description": "From 0 to 14."})
    units = ", ".join(unit.symbol for unit in UNITS_OF[measure])
    says = f"One figure or a range, in {units}."
    return WithJsonSchema({"type": "string", "pattern": rf"^{patterns.RANGE}\s*[^\s\d].*$", "description": says})


PH = Annotated[Reading, t.leaf(partial(parse_reading, "pH")), _schema("pH")]
Hardness = Annotated[Reading, t.leaf(partial(parse_reading, "hardness")), _schema("hardness")]
Alkalinity = Annotated[Reading, t.leaf(partial(parse_reading, "alkalinity")), _schema("alkalinity")]
Milligrams = Annotated[Reading, t.leaf(partial(parse_reading, "chlorine")), _schema("chlorine")]


class WaterDoc(Document):
    """The water of a place, as far as it is known."""

    name: t.Text = Field(description="The place: Town tap, mill.")
    ph: PH | None = Field(None, alias="pH", description="7.2-7.6")
    hardness: Hardness | None = Field(None, description="Calcium and magnesium together: 15 °dH.")
    alkalinity: Alkalinity | None = Field(None, description="Carbonate hardness, what takes up acid: 11 °dH.")
    chlorine: Milligrams | None = Field(None, description="Free chlorine: 0.1-0.3 mg/l.")
    chloride: Milligrams | None = Field(None, description="Chloride, which throws silver down: 25 mg/l.")
    iron: Milligrams | None = Field(None, description="Iron, which darkens tannin: 0.02 mg/l.")
    measured: t.Date | None = Field(None, description="When: 2026-09-14.")
    source: t.Text | None = Field(None, description="The supplier's analysis, or by what it was measured.")
    note: t.Text | None = Field(None, description="Anything else.")
    edition: EditionOf = None


_FIELDS: Final[dict[Measure, str]] = {measure: measure.casefold() for measure in MEASURES}


def water_of(id_: str, doc: WaterDoc) -> Water:
    """The water of a document whose figures are read."""
    found = {measure: getattr(doc, field) for measure, field in _FIELDS.items()}
    return Water(
        id=id_,
        name=doc.name,
        readings={measure: reading for measure, reading in found.items() if reading is not None},
        measured=doc.measured,
        source=doc.source or "",
        note=doc.note or "",
        edition=doc.edition or "",
    )
