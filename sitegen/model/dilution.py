"""Dilutions in parts: `1+9` is one part and nine; `1:10` is refused with both its readings."""

import re
from dataclasses import dataclass
from fractions import Fraction

from sitegen.model.quantity import parse_number
from sitegen.problems import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Dilution:
    """`stock` parts and `diluent` parts."""

    stock: Fraction
    diluent: Fraction


def parse_dilution(text: str) -> Dilution:
    """Parts of stock and of diluent; `Refusal` for anything but `a+b`.

    >>> parse_dilution("1+9").diluent
    Fraction(9, 1)
    """
    match = re.fullmatch(r"\s*([^+]+?)\s*\+\s*([^+]+?)\s*", text)
    if not match:
        if ":" in text:
            parse_number(text)  # its refusal names both readings
        raise Refusal(
            "bad-dilution",
            f"`{text}` is not a dilution",
            "write parts of stock and parts of water, such as `1+9`",
        )
    stock, diluent = parse_number(match[1]), parse_number(match[2])
    if stock <= 0 or diluent <= 0:
        raise Refusal("bad-dilution", f"`{text}` has a part of nothing", "write parts such as `1+9`")
    return Dilution(stock=stock, diluent=diluent)
