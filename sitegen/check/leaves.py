"""Leaves: the values of fields, each a text that becomes a type once, strictly.

Every leaf is a validator for the document models (`documents`), and carries the JSON Schema of the texts
it takes, so that the schema cannot drift from the check. Refusals of the domain pass through with their
own code, message and help.
"""

from collections.abc import Callable
from datetime import date
from fractions import Fraction
from typing import Annotated, Any, Final, TypeVar

from pydantic import BeforeValidator, GetJsonSchemaHandler, PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import CoreSchema, PydanticCustomError

from sitegen.check import patterns
from sitegen.check import values as v
from sitegen.model import layers
from sitegen.model.amount import Amount, Percent, parse_amount, parse_percent
from sitegen.model.archive import Vessel
from sitegen.model.batch_code import EXAMPLE, PATTERN, BatchCode, parse_batch_code
from sitegen.model.capacity import Capacity, parse_capacity
from sitegen.model.dilution import Dilution, parse_dilution
from sitegen.model.quantity import Quantity, parse_quantity, wrong_dimension
from sitegen.model.units import Dimension
from sitegen.problems import Refusal

T = TypeVar("T")
NONE: Final = "none"
"""What was not there, where figures of an earlier revision are given."""


def fault(refusal: Refusal) -> PydanticCustomError:
    """The refusal as the schema library's own error; `faults` turns it back."""
    context = {"refusal": refusal}
    return PydanticCustomError(refusal.code, "refused", context)


def _text(value: object) -> str:
    """A text with something in it; what stands in its place is named otherwise."""
    if value is None or (isinstance(value, str) and not value.strip()):
        raise fault(
            Refusal(
                "nothing-here",
                "nothing stands here; a text was expected",
                "write a value or delete the field",
            )
        )
    if not isinstance(value, str):
        kind = "a list" if isinstance(value, list) else "a group of fields"
        remedy = "write one text; a text with brackets or `: ` goes in quotes"
        raise fault(Refusal("text-expected", f"a text was expected, this is {kind}", remedy))
    return value.strip()


def leaf(parse: Callable[[str], T]) -> PlainValidator:
    """A validator that parses a text; a `Refusal` becomes the schema library's error."""

    def validate(value: object) -> T:
        try:
            return parse(_text(value))
        except Refusal as refusal:
            raise fault(refusal) from refusal

    return PlainValidator(validate)


def _schema(pattern: str | None, says: str, *, number: bool = False) -> WithJsonSchema:
    """Texts of a pattern; `number` also takes what plain YAML tools read as one."""
    text: dict[str, Any] = {"type": "string", "minLength": 1, "pattern": pattern or r"\S"}
    described = {"description": says}
    if pattern is None:
        return WithJsonSchema({"type": ["string", "number", "boolean"], "minLength": 1, "pattern": r"\S", **described})
    return WithJsonSchema({"anyOf": [text, {"type": "number"}], **described} if number else text | described)


def _amount(value: object, info: ValidationInfo) -> Amount:
    try:
        return parse_amount(_text(value), percent_means=(info.context or {}).get("percent means"))
    except Refusal as refusal:
        raise fault(refusal) from refusal


def _amount_or_none(value: object, info: ValidationInfo) -> Amount | None:
    return None if value == NONE else _amount(value, info)


def _quantity(*want: Dimension, single: bool = False) -> Callable[[str], Quantity]:
    def parse(text: str) -> Quantity:
        quantity = parse_quantity(text, want[0] if len(want) == 1 else None, single=single)
        if quantity.dimension not in want:
            raise wrong_dimension(text, quantity.dimension, " or ".join(want))
        return quantity

    return parse


class OneOrMore:
    """Takes one text where a list may stand, in the check and in the schema."""

    @staticmethod
    def listed(value: object) -> object:
        """A lone text as a list of it."""
        return [value] if isinstance(value, str) or value is None else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        many = handler(core)
        return {"anyOf": [many["items"], many]}


Text = Annotated[str, leaf(str), _schema(None, "A text.")]
Markdown = Annotated[
    str, leaf(str), _schema(None, "Markdown without HTML; links such as [the salt](amount:salt) are live.")
]
Id = Annotated[
    str,
    leaf(v.parse_id),
    _schema(f"^{patterns.ID}$", "A short name: small letters, digits, single hyphens.", number=True),
]
Key = Annotated[str, leaf(v.parse_id), _schema(f"^{patterns.ID}$", "A short name.")]
Code = Annotated[str, leaf(v.parse_code), _schema(f"^{patterns.CODE}$", "Stable short code, such as IB-07.")]
Date = Annotated[date, leaf(v.parse_date), _schema(f"^{patterns.DATE}$", "A day: year, month, day.")]
Revision = Annotated[
    int,
    leaf(v.parse_revision),
    WithJsonSchema(
        {"anyOf": [{"type": "string", "pattern": f"^{patterns.WHOLE}$"}, {"type": "integer", "minimum": 1}]}
    ),
]
Address = Annotated[str, leaf(v.parse_address), _schema(f"^{patterns.ADDRESS}$", "A web address.")]
Language = Annotated[str, leaf(v.parse_language), _schema(f"^{patterns.LANGUAGE}$", "A language tag.")]
Ratio = Annotated[Dilution, leaf(parse_dilution), _schema(patterns.RATIO, "Parts of stock and parts of water: 1+9.")]
VesselText = Annotated[
    Vessel,
    leaf(v.parse_vessel),
    _schema(patterns.VESSEL, "A vessel and its marks: 100 ml in 1 ml."),
]
Grams = Annotated[
    Fraction, leaf(v.parse_balance), _schema(patterns.quantity("mass"), "The step of the balance: 0.1 g.")
]
Number = Annotated[
    Fraction, leaf(v.parse_positive), _schema(f"^{patterns.NUMBER}$", "A number above zero.", number=True)
]
Allowance = Annotated[Fraction, leaf(v.parse_allowance), _schema(patterns.PERCENT, "A percent: 15 %.")]
Content = Annotated[Percent, leaf(v.parse_content), _schema(patterns.PERCENT, "Percent by mass: 14-18 %.")]
Assay = Annotated[Percent, leaf(parse_percent), _schema(patterns.BASED_PERCENT, "How much is the substance: 28 % w/w.")]
Humidity = Annotated[
    tuple[Fraction, Fraction], leaf(v.parse_humidity), _schema(rf"^{patterns.RANGE}\s*%$", "Humidity: 55-60 %.")
]
BatchText = Annotated[
    BatchCode, leaf(parse_batch_code), _schema(f"^{PATTERN}$", f"Recipe, mixture, day mixed: {EXAMPLE}.")
]
FormulaText = Annotated[str, leaf(v.parse_formula), _schema(r"^[A-Za-z0-9()\[\].+-]+$", "A formula.")]
Cas = Annotated[str, leaf(v.parse_cas), _schema(f"^{patterns.CAS}$", "A CAS number.")]
Flag = Annotated[
    bool,
    leaf(v.parse_flag),
    WithJsonSchema({"enum": ["yes", "no", "true", "false", True, False], "description": "Yes or no."}),
]
AmountText = Annotated[
    Amount,
    PlainValidator(_amount),
    _schema(patterns.AMOUNT, "How much: 35 g, to make 1 l, 2 parts, 2 % w/v, as needed."),
]
Time = Annotated[Quantity, leaf(_quantity("time")), _schema(patterns.quantity("time"), "A time or a range: 2-3 min.")]
AmountOrNone = Annotated[
    Amount | None,
    PlainValidator(_amount_or_none),
    _schema(rf"^none$|{patterns.AMOUNT}", "How much: 35 g; or none."),
]
TimeOrNone = Annotated[
    Quantity | None,
    leaf(lambda text: None if text == NONE else _quantity("time")(text)),
    _schema(rf"^none$|{patterns.quantity('time')}", "A time or a range: 2-3 min; or none."),
]
Temperature = Annotated[
    Quantity,
    leaf(_quantity("temperature")),
    _schema(patterns.quantity("temperature"), "A temperature or a range: 18-22 °C."),
]
Length = Annotated[Quantity, leaf(_quantity("length")), _schema(patterns.quantity("length"), "A length: 20 cm.")]
Facing = Annotated[
    layers.Facing,
    leaf(layers.parse_facing),
    _schema(r"(?i)^(ink|emulsion)( side)? ", "Which side lies on the coating: ink side to the coating."),
]
Size = Annotated[
    layers.Size, leaf(layers.parse_size), _schema(patterns.SIZE, "Width along the top edge, and height: 180 x 240 mm.")
]
ShrinkText = Annotated[
    Fraction, leaf(layers.parse_shrink), _schema(patterns.PERCENT, "A measured shrink, in percent: 0.33 %.")
]
Mark = Annotated[int, leaf(v.parse_mark), _schema(f"^({patterns.MARK})$", "Minutes and seconds: 1:23.")]
Coverage = Annotated[
    Quantity,
    leaf(_quantity("coverage")),
    _schema(patterns.quantity("coverage"), "Liquid per area and coat: 40 ml/m²."),
]
CapacityText = Annotated[
    Capacity,
    leaf(parse_capacity),
    _schema(patterns.CAPACITY, "What a bath does before it is spent: 20 sheets of 20x25 cm per l, or 1.3 m² per l."),
]
Density = Annotated[
    Quantity,
    leaf(_quantity("density", single=True)),
    _schema(patterns.quantity("density"), "A density at 20 °C: 1.05 g/ml."),
]
Made = Annotated[
    Quantity,
    leaf(_quantity("volume", "mass", single=True)),
    _schema(patterns.quantity("volume", "mass"), "One volume or mass: 200 ml."),
]
Mass = Annotated[Quantity, leaf(_quantity("mass")), _schema(patterns.quantity("mass"), "A mass: 21.5 g.")]
Texts = Annotated[tuple[Text, ...], BeforeValidator(OneOrMore.listed), OneOrMore]
Warnings = Annotated[
    tuple[Annotated[str, leaf(v.parse_warning), _schema(None, "A warning in words.")], ...],
    BeforeValidator(OneOrMore.listed),
    OneOrMore,
]
