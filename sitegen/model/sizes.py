"""Sizes: papers by name, sheets and trays by their sides, and counts, read from text. Lengths in mm."""

import re
from fractions import Fraction
from typing import Final

from sitegen.model.quantity import parse_number
from sitegen.model.units import dimension_of, to_base, unit_named
from sitegen.problems import Refusal

# ISO 216 trimmed sizes, mm.
PAPER_SIZES: Final = {
    "a0": (841, 1189), "a1": (594, 841), "a2": (420, 594), "a3": (297, 420),
    "a4": (210, 297), "a5": (148, 210), "a6": (105, 148),
}  # fmt: skip


def parse_count(text: str, what: str) -> Fraction:
    """A whole number above zero. `what` names it in the refusal."""
    number = parse_number(text)
    if number <= 0 or number.denominator != 1:
        raise Refusal("count-not-whole", f"`{text}` is not a number of {what}", f"write a whole number of {what}")
    return number


def parse_sheet_size(text: str) -> tuple[Fraction, Fraction]:
    """Length and width of a sheet: `24x30 cm` or `A4`."""
    if paper := PAPER_SIZES.get(text.casefold()):
        return Fraction(paper[1]), Fraction(paper[0])
    length, width = parse_sides(text, 2, "a sheet", "`24x30 cm` or `A4`")
    return length, width


def parse_sides(text: str, count: int, what: str, example: str) -> tuple[Fraction, ...]:
    """So many sides in one unit of length; `Refusal` that shows the example otherwise."""
    match = re.fullmatch(r"\s*([\d.,/ ]+(?:\s*[x×]\s*[\d.,/ ]+)*)\s*([^\d\s].*?)\s*", text, re.S)
    parts = re.split(r"\s*[x×]\s*", match[1].strip()) if match else []
    if not match or len(parts) != count or dimension_of(unit_named(match[2]).symbol) != "length":
        raise Refusal("size-not-read", f"`{text}` is not the size of {what}", f"write {example}")
    sides = tuple(to_base(parse_number(p), unit_named(match[2]).symbol) for p in parts)
    if min(sides) <= 0:
        raise Refusal("quantity-not-positive", f"`{text}` has a side of nothing", f"write {example}")
    return sides
