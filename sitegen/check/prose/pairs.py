"""Pairs: one measure given in two units, `5 in (127 mm)`, must be the same measure.

A published coating guide gives one margin as 5 in and as 100 mm; a handbook's table holds like slips.
"""

import re
from fractions import Fraction
from itertools import pairwise
from typing import Final

from sitegen.check.prose.figures import Ends, Figure, figures, shown
from sitegen.check.prose.passages import Passage
from sitegen.check.prose.setting import Setting
from sitegen.problems import Level, Problem

# How far apart may the two be? The trade rounds by 2 %; up to 6 % it may have meant to.
ROUNDED: Final = Fraction(2, 100)
LOOSE: Final = Fraction(6, 100)
DEGREE: Final = Fraction(1)
"""Of temperatures, in °C."""

_OPENS: Final = re.compile(r"\s*[(\[]\s*(?:(?:about|approx\.?|approximately|ca\.?|roughly|or|that is)\s+|[≈=~]\s*)?")
_CLOSES: Final = re.compile(r"\s*[)\]]")
_EQUALS: Final = re.compile(r"\s*[=≈]\s*")


def pairs_agree(passage: Passage, setting: Setting) -> None:
    """Two figures of one dimension in two units, the second in brackets or after `=`."""
    found = figures(passage.bare)
    for first, second in pairwise(found):
        if _is_pair(passage.bare, first, second) and (level := disagreement(first, second)):
            right = _as_second(first, second)
            setting.problems.add(
                Problem(
                    code="unit-pair-disagrees",
                    at=setting.span(passage, (first.start, min(second.end + 1, len(passage.text)))),
                    message=f"`{first.text}` and `{second.text}` are not the same",
                    help=f"write `{right}` for the second, or correct the first",
                    notes=(f"{first.text} is {right}",),
                    level=level,
                )
            )


def _is_pair(text: str, first: Figure, second: Figure) -> bool:
    between = text[first.end : second.start]
    enclosed = _OPENS.fullmatch(between) and _CLOSES.match(text, second.end)
    return (
        bool(enclosed or _EQUALS.fullmatch(between))
        and first.unit != second.unit
        and first.dimension == second.dimension
        and len(first.parts) == len(second.parts)
    )


def disagreement(first: Figure, second: Figure) -> Level | None:
    """How badly the second figure misses the first; None when it does not.

    A second figure that is the first, rounded to as many places as it is written with, may be 6 % off.
    """
    if first.dimension == "temperature":
        off = max(_distance(a, b) for a, b in zip(first.base(), second.base(), strict=True))
        return "error" if off > DEGREE else None
    wanted = list(zip(first.converted(second.unit), second.parts, strict=True))
    off = max(_distance(a, b) / a[1] if a[1] else Fraction(0) for a, b in wanted)
    if off <= ROUNDED:
        return None
    half = Fraction(1, 2 * 10**second.decimals)
    if off <= LOOSE:
        return None if all(_distance(a, b) <= half for a, b in wanted) else "warning"
    return "error"


def _distance(one: Ends, other: Ends) -> Fraction:
    """How far two figures or ranges lie apart; a single figure inside a range is not apart from it."""
    if (one[0] == one[1]) != (other[0] == other[1]):
        return max(one[0] - other[1], other[0] - one[1], Fraction(0))
    return max(abs(one[0] - other[0]), abs(one[1] - other[1]))


def _as_second(first: Figure, second: Figure) -> str:
    """The first figure, computed in the unit of the second and written in its way."""
    parts = first.converted(second.unit)
    sides = (shown(low) if low == high else f"{shown(low)}-{shown(high)}" for low, high in parts)
    return f"{'x'.join(sides)} {second.unit}"
