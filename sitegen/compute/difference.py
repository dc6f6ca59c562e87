"""Difference: what one figure became of another, as a ratio; what both say must be comparable before they come here.

A difference turns round when the two change places: twice becomes half. Nothing is rounded but in `text`.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.compute.rounding import to_step
from sitegen.compute.strength import three_figures
from sitegen.model.amount import Absolute, Amount, FillUp, OfBase, Parts, Percent
from sitegen.model.quantity import Quantity, exact_text

Pair = tuple[Fraction, Fraction]
Verdict = Literal["same", "changed", "added", "left out", "not compared"]
SAME: Final = "the same"
_TWICE: Final = Fraction(2)


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """`ratio` is the later figure over the earlier, at the lower and the upper end; None where there is none."""

    verdict: Verdict
    ratio: Pair | None = None
    degrees: Pair | None = None
    """Of temperatures, how many °C warmer; they have no ratio."""
    why: str = ""
    """Why two figures are not compared."""

    def text(self) -> str:
        """The difference in a few words: `× 2`, `÷ 6`, `+25 %`; '' where nothing can be said."""
        if self.verdict == "same":
            return SAME
        if self.verdict in ("added", "left out"):
            return "not there before" if self.verdict == "added" else "left out"
        ends = self.ratio or self.degrees
        if ends is None:
            return ""
        say = ratio_text if self.ratio else _degrees
        low, high = say(ends[0]), say(ends[1])
        return low if low == high else f"{low} at the lower end, {high} at the upper"


def ratio_text(ratio: Fraction) -> str:
    """A ratio above 0 as a factor, or in percent where it is less than twofold either way.

    >>> [ratio_text(Fraction(*r)) for r in ((2, 1), (1, 6), (5, 4), (4, 5), (1, 1))]
    ['× 2', '÷ 6', '+25 %', '−20 %', 'the same']
    """
    if ratio == 1:
        return SAME
    if ratio >= _TWICE:
        return f"× {three_figures(ratio)}"
    if ratio <= 1 / _TWICE:
        return f"÷ {three_figures(1 / ratio)}"
    percent = to_step(abs(ratio - 1) * 100, Fraction(1, 10))
    return f"{'+' if ratio > 1 else '−'}{exact_text(percent)} %" if percent else "nearly the same"


def _degrees(warmer: Fraction) -> str:
    if not warmer:
        return SAME
    return f"{'+' if warmer > 0 else '−'}{exact_text(to_step(abs(warmer), Fraction(1, 10)))} °C"


def not_compared(why: str) -> Difference:
    """Two figures that stand beside each other, with the reason why nothing more is said of them."""
    return Difference(verdict="not compared", why=why)


def of_pairs(was: Pair | None, then: Pair | None) -> Difference:
    """The difference of two figures in one unit, neither below 0; None where there is none."""
    if was is None or then is None:
        return Difference(verdict="same" if was == then else "added" if was is None else "left out")
    if was == then:
        return Difference(verdict="same", ratio=(Fraction(1), Fraction(1)))
    if not (was[0] and was[1] and then[0] and then[1]):
        return not_compared("one of the figures may be nothing")
    return Difference(verdict="changed", ratio=(then[0] / was[0], then[1] / was[1]))


def of_quantities(was: Quantity | None, then: Quantity | None) -> Difference:
    """The difference of two times, coverages, temperatures or other quantities."""
    if was is None or then is None or was.dimension != "temperature" or was.dimension != then.dimension:
        if was and then and was.dimension != then.dimension:
            return not_compared(f"one is {_measured(was)}, the other {_measured(then)}")
        return of_pairs(was.base() if was else None, then.base() if then else None)
    (low, high), (later_low, later_high) = was.base(), then.base()
    warmer = (later_low - low, later_high - high)
    return Difference(verdict="changed" if any(warmer) else "same", degrees=warmer)


def of_amounts(was: Amount | None, then: Amount | None) -> Difference:
    """The difference of two amounts of one ingredient as they are written; None where it is not in."""
    match was, then:
        case (None, _) | (_, None):
            return Difference(verdict="same" if was == then else "added" if was is None else "left out")
        case (Absolute(quantity=one), Absolute(quantity=other)) | (FillUp(quantity=one), FillUp(quantity=other)):
            return of_quantities(one, other)
        case Parts(), Parts() if was.by == then.by:
            return of_pairs((was.count, was.count), (then.count, then.count))
        case Percent(), Percent() if was.basis == then.basis:
            return of_pairs((was.low, was.high), (then.low, then.high))
        case OfBase(), OfBase() if was.base == then.base:
            return of_pairs((was.low, was.high), (then.low, then.high))
    return Difference(verdict="same") if was == then else not_compared("they are given in two ways")


def _measured(quantity: Quantity) -> str:
    return {"mass": "weighed", "volume": "measured by volume"}.get(quantity.dimension, "counted")
