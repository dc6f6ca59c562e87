"""Shrink: what paper loses between two measurements, and the size to which the next film is then printed.

Lengths are exact mm until they are shown to a tenth. Each direction is measured for itself: across and
along the grain paper moves differently. Not here: what a paper will do. It is measured, sheet by sheet.
"""

from dataclasses import dataclass
from fractions import Fraction

from sitegen.compute.rounding import to_step
from sitegen.model.layers import MOST_SHRINK, Shrink, Size
from sitegen.model.quantity import exact_text
from sitegen.problems import Refusal

TENTH = Fraction(1, 10)
"""Millimetres to which a film can be printed and measured."""
HUNDREDTH = Fraction(1, 100)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """The sides of the next film in mm, and by how much one of the first size would miss."""

    width: Fraction
    height: Fraction
    miss_across: Fraction
    miss_along: Fraction


def measured_shrink(before: Fraction, after: Fraction) -> Fraction:
    """How much a length has lost, as a share of what it was; both in one unit.

    `Refusal` where it has grown, and over a tenth: then one of the figures was misread.

    >>> measured_shrink(Fraction(300), Fraction(299))
    Fraction(1, 300)
    """
    share = (before - after) / before
    if share < 0:
        raise Refusal(
            "paper-grew",
            "the paper has grown, not shrunk: it is still damp, or the figures are in each other's place",
            "dry the sheet, measure again, and write what it was before what it is now",
        )
    if share > MOST_SHRINK:
        percent = exact_text(to_step(share * 100, TENTH))
        raise Refusal("shrink-too-much", f"no paper shrinks by {percent} %", "measure again, in one unit")
    return share


def fitted(size: Size, shrink: Shrink) -> Fitted:
    """The film that falls on a picture of this size after the paper has shrunk."""
    width, height = size.width * (1 - shrink.across), size.height * (1 - shrink.along)
    return Fitted(width=width, height=height, miss_across=size.width - width, miss_along=size.height - height)


def millimetres(length: Fraction) -> str:
    """A length to a tenth of a millimetre, halves up: `179.5`. Twin of assets/shrink.js."""
    return exact_text(to_step(length, TENTH))


def percent(share: Fraction) -> str:
    """A share in percent, to a hundredth of it: `0.33`."""
    return exact_text(to_step(share * 100, HUNDREDTH))
