"""Capacity: how much a bath does before it is spent, as an author or a maker gives it.

A figure holds for the paper and the process it was found with, and is never carried over here.
"""

import re
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from sitegen.model.quantity import parse_number, parse_quantity
from sitegen.model.sizes import parse_count, parse_sheet_size
from sitegen.problems import Refusal

Spent = Literal["replace", "replenish"]
"""What is done with a bath that is spent: thrown out whole, or topped up as it is used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Capacity:
    """What a bath does before it is spent: so many mm² of print a ml."""

    area: Fraction
    written: str = field(compare=False, default="")


def parse_capacity(text: str) -> Capacity:
    """`20 sheets of 20x25 cm per l` (or `of A4`), or `1.29 m² per l`; `Refusal` otherwise."""
    match = re.fullmatch(r"\s*(.+?)\s+(?:per|a)\s+(\S.*?)\s*", text)
    if not match:
        raise _unread(text)
    bulk = match[2] if re.match(r"[\d.]", match[2]) else f"1 {match[2]}"
    volume = parse_quantity(bulk, "volume", single=True).base()[0]
    if square := re.fullmatch(r"(\S+)\s*(?:m²|m2)", match[1]):
        area = parse_number(square[1]) * 1_000_000
    elif named := re.fullmatch(r"(\S+)\s+(?:sheets?|prints?)\s+of\s+(.+)", match[1]):
        length, width = parse_sheet_size(named[2])
        area = parse_count(named[1], "sheets") * length * width
    else:
        raise _unread(text)
    if area <= 0:
        raise _unread(text)
    return Capacity(area=area / volume, written=" ".join(text.split()))


def _unread(text: str) -> Refusal:
    return Refusal(
        "capacity-not-read",
        f"`{text}` is not what a bath can do",
        "write `20 sheets of 20x25 cm per l` or `1.3 m² per l`",
    )
