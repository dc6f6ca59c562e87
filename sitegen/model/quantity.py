"""Quantities: a number or a range with a unit, exact, read from text and written back.

Numbers are exact fractions: `0.1` is a tenth, `1/3` a third. Rounding is `compute.rounding`, at display.
"""

import re
import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.model.units import Dimension, dimension_of, from_base, phrase, to_base, unit_named
from sitegen.problems import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantity:
    """`low` to `high` of `unit`, in that unit; low = high for a single figure."""

    low: Fraction
    high: Fraction
    unit: str

    @property
    def dimension(self) -> Dimension:
        """What it measures."""
        return dimension_of(self.unit)

    @property
    def is_range(self) -> bool:
        """Whether it gives two figures."""
        return self.low != self.high

    def base(self) -> tuple[Fraction, Fraction]:
        """Low and high in the base unit of the dimension (g, ml, mm, min, °C …)."""
        return to_base(self.low, self.unit), to_base(self.high, self.unit)

    def in_unit(self, symbol: str) -> "Quantity":
        """The same quantity in another unit of the same dimension; `Refusal` for another dimension."""
        want = unit_named(symbol)
        if want.dimension != self.dimension:
            raise wrong_dimension(format_quantity(self), self.dimension, want.dimension)
        low, high = (from_base(v, want.symbol) for v in self.base())
        return Quantity(low=low, high=high, unit=want.symbol)


def wrong_dimension(text: str, got: Dimension, want: Dimension | str) -> Refusal:
    """The refusal of a quantity that measures something else than asked."""
    need = f"{phrase(want)} was expected"
    return Refusal(
        "wrong-dimension", f"`{text}` is {phrase(got)}; {need}", f"write {phrase(want)}{_EXAMPLE.get(want, '')}"
    )


_EXAMPLE: Final = {
    "mass": ", such as `35 g`",
    "volume": ", such as `350 ml`",
    "length": ", such as `30 cm`",
    "time": ", such as `8 min` or `2-3 h`",
    "temperature": ", such as `20 °C`",
    "coverage": ", such as `40 ml/m²`",
    "density": ", such as `1.05 g/ml`",
}

_LONGEST: Final = 200  # characters of a number; Python itself refuses to read some thousands of digits
_DECIMAL = r"\d+(?:\.\d+)?"
_NUMBER = rf"(?:\d+ \d+/\d+|\d+/\d+|{_DECIMAL})"
_RANGE = re.compile(
    rf"(?P<low>-?{_NUMBER})(?:\s*(?:-|–|to )\s*(?P<high>-?{_NUMBER}))?(?P<rest>(?:\s|[^\d.,/:+ ]).*)?", re.S
)


def parse_number(text: str) -> Fraction:
    """An exact number: `12`, `1.5`, `1/2`, `1 1/2`; `Refusal` for every other way of writing one.

    >>> parse_number("1 1/2")
    Fraction(3, 2)
    """
    text = text.strip()
    if len(text) > _LONGEST or not re.fullmatch(rf"-?{_NUMBER}", text) or not text.isascii():
        raise _not_a_number(text)
    if re.match(r"-?0\d", text):
        plain = re.sub(r"^(-?)0+(?=\d)", r"\1", text)
        raise Refusal("number-leading-zero", f"`{text}` starts with a zero", f"write `{plain}`")
    sign = -1 if text.startswith("-") else 1
    total = Fraction(0)
    for part in text.lstrip("-").split():
        if part.endswith("/0") or re.search(r"/0+$", part):
            raise Refusal("number-not-read", f"`{text}` divides by zero", "write a number such as `1/2`")
        total += Fraction(part)
    return sign * total


def _not_a_number(text: str) -> Refusal:
    if len(text) > _LONGEST:
        return Refusal(
            "number-not-read",
            f"`{text[:20]}…` is too long for a number",
            "write a number such as `12`, `1.5` or `1/2`",
        )
    if re.fullmatch(r"\d{1,3}(,\d{3})+(\.\d+)?", text):
        plain, decimal = text.replace(",", ""), text.replace(",", ".", 1)
        either = text.count(",") == 1 and "." not in text  # beside a full stop the comma can only be thousands
        remedy = f"write `{plain}` or `{decimal}`" if either else f"write `{plain}`"
        return Refusal("number-two-readings", f"the comma in `{text}` can be read in two ways", remedy)
    if re.fullmatch(r"\d+,\d+", text):
        return Refusal("number-comma", f"`{text}` has a comma", f"write `{text.replace(',', '.')}`")
    if re.fullmatch(r"-?\d+(\.\d+)?[eE][+-]?\d{1,2}", text):
        return Refusal(
            "number-exponent",
            f"`{text}` is written with an exponent",
            f"write `{exact_text(Fraction(text))}`",
        )
    if re.fullmatch(r"\d+:\d+(:\d+)?", text):
        first, second = text.split(":")[:2]
        less_one = f" or `{first}+{int(second) - int(first)}`" if int(second) > int(first) else ""
        return Refusal(
            "ratio-two-readings",
            f"`{text}` can be read in two ways",
            f"write `{first}+{second}`{less_one}",
            (f"{first} part to {second} parts, or {first} part in {second}",),
        )
    if re.fullmatch(r"\.\d+", text):
        return Refusal("number-not-read", f"`{text}` has nothing before its point", f"write `0{text}`")
    return Refusal(
        "number-not-read",
        f"`{text}` is not a number" if text else "the number is missing",
        "write a number such as `12`, `1.5` or `1/2`",
    )


def parse_range(text: str) -> tuple[Fraction, Fraction, str]:
    """A number or range and the text that follows it: low, high, rest; `Refusal` when neither is read.

    >>> parse_range("2-3 min")
    (Fraction(2, 1), Fraction(3, 1), 'min')
    """
    text = " ".join(text.split())
    if spaced := re.match(r"\d{1,3}(?: \d{3})+(?![\d/])", text):
        raise Refusal("number-not-read", f"a space stands in `{spaced[0]}`", f"write `{spaced[0].replace(' ', '')}`")
    if sign := re.match(r"(\d*) ?([¼-¾⅐-⅞])", text):
        plain = f"{sign[1]} {unicodedata.normalize('NFKC', sign[2]).replace('⁄', '/')}".strip()
        raise Refusal("number-not-read", f"`{sign[0]}` is one sign for a fraction", f"write `{plain}`")
    match = _RANGE.fullmatch(text)
    if not match or re.match(r"-?[\d.]+[eE][+-]?\d", text) or re.match(r"\s*,\d", match["rest"] or ""):
        first = re.match(r"[^\s%]*", text)
        raise _not_a_number(first.group() if first else text)
    low = parse_number(match["low"])
    high = parse_number(match["high"]) if match["high"] else low
    if low > high:
        a, b = match["low"], match["high"]
        raise Refusal("range-backwards", f"the range `{a}-{b}` runs backwards", f"write `{b}-{a}`")
    return low, high, (match["rest"] or "").strip()


def parse_quantity(text: str, want: Dimension | None = None, *, single: bool = False) -> Quantity:
    """A quantity such as `35 g` or `2-3 min`; more than zero unless it is a temperature.

    `want` names the dimension that is needed; `single` refuses ranges. `Refusal` otherwise.
    """
    if want == "time" and (clock := re.fullmatch(r"(\d+):([0-5]\d)", text.strip())) and re.search("[1-9]", text):
        raise _clock(text.strip(), int(clock[1]), int(clock[2]))
    low, high, rest = parse_range(text)
    unit = unit_named(rest)
    if want and unit.dimension != want:
        raise wrong_dimension(" ".join(text.split()), unit.dimension, want)
    if unit.dimension != "temperature" and low <= 0:
        raise Refusal("quantity-not-positive", f"`{text}` is not more than nothing", "write an amount above zero")
    if single and low != high:
        raise Refusal(
            "range-not-here",
            f"`{text}` is a range; one figure is needed here",
            "write the one figure the amounts were weighed for",
        )
    return Quantity(low=low, high=high, unit=unit.symbol)


def _clock(text: str, first: int, second: int) -> Refusal:
    """The refusal of `8:30`: minutes and seconds to some, hours and minutes to others."""
    number = " ".join(str(figure) for figure in (Fraction(first), Fraction(second, 60)) if figure)
    return Refusal(
        "time-two-readings",
        f"`{text}` can be read in two ways",
        f"write `{number} min` or `{number} h`",
        (f"{first} min {second} s, or {first} h {second} min",),
    )


_PLACES: Final = 12  # decimals shown of a number that never ends, far below any balance


def exact_text(value: Fraction) -> str:
    """A decimal, exact where it ends within twelve places, else cut there by rounding half up.

    >>> exact_text(Fraction(7, 2)), exact_text(Fraction(1, 3)), exact_text(Fraction(400))
    ('3.5', '0.333333333333', '400')
    """
    scaled = abs(value) * 10**_PLACES
    whole = (2 * scaled.numerator + scaled.denominator) // (2 * scaled.denominator)
    digits = f"{whole:0{_PLACES + 1}d}"
    text = f"{digits[:-_PLACES]}.{digits[-_PLACES:]}".rstrip("0").rstrip(".")
    return f"-{text}" if value < 0 and text != "0" else text


def exact_number(value: Fraction) -> str:
    """Text that `parse_number` reads back to the very same value: a decimal, else a fraction."""
    text = exact_text(value)
    return text if Fraction(text) == value else f"{value.numerator}/{value.denominator}"


def format_quantity(quantity: Quantity) -> str:
    """Text that `parse_quantity` reads back to an equal quantity."""
    low, high = exact_number(quantity.low), exact_number(quantity.high)
    number = f"{low} to {high}" if "/" in low + high or low.startswith("-") else f"{low}-{high}"
    return f"{number if quantity.is_range else low} {quantity.unit}"
