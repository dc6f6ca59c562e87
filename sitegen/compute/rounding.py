"""Rounding to what can be weighed and measured; the one place where digits are dropped.

A ladder says for each amount which unit it is shown in and to which step. Python and the browser
evaluate the same ladder, so that a page and a command never differ.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.model.archive import Measuring
from sitegen.model.quantity import exact_text
from sitegen.model.units import per_unit

Kind = Literal["mass", "volume", "drops", "pieces"]
System = Literal["metric", "US", "imp"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """Amounts up to `upto` base units are shown in `unit` (`per` base units each), to `step` of it."""

    upto: Fraction | None
    unit: str
    per: Fraction
    step: Fraction


Ladder = tuple[Rung, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A rounded amount as it is read: decimal text, or two of them, and the unit."""

    low: str
    high: str
    unit: str

    def text(self) -> str:
        """The amount in words: `35 g`, `2–3 g`."""
        return f"{self.low if self.low == self.high else f'{self.low}–{self.high}'} {self.unit}"


def to_step(value: Fraction, step: Fraction) -> Fraction:
    """The nearest multiple of `step`, halves up; value >= 0, step > 0.

    >>> to_step(Fraction(8749, 1000), Fraction(1, 10)), to_step(Fraction(35, 100), Fraction(1, 10))
    (Fraction(87, 10), Fraction(2, 5))
    """
    n = value / step
    return (2 * n.numerator + n.denominator) // (2 * n.denominator) * step


def to_figures(value: Fraction, count: int) -> Fraction:
    """So many significant figures, halves up; value > 0.

    >>> to_figures(Fraction(1234, 100000), 2), to_figures(Fraction(10745, 100), 3)
    (Fraction(3, 250), Fraction(107, 1))
    """
    assert value > 0, "nothing has no significant figures"
    step = Fraction(1)
    while value >= 10**count * step:
        step *= 10
    while value < 10 ** (count - 1) * step:
        step /= 10
    return to_step(value, step)


def show(low: Fraction, high: Fraction, ladder: Ladder) -> Shown:
    """Round an amount (base units) by its ladder. The upper end decides the rung, so a range has one unit.

    An amount below one step keeps two figures instead of becoming zero: a wrong amount is worse than
    one that cannot be weighed, and `notes` says that it cannot.
    """
    rung = next(r for r in ladder if r.upto is None or high <= r.upto)
    texts = []
    for value in (low, high):
        n = value / rung.per
        texts.append(exact_text(to_step(n, rung.step) if n >= rung.step else to_figures(n, 2)))
    return Shown(low=texts[0], high=texts[1], unit=rung.unit)


_KILO: Final = Fraction(1000)
_GRAIN, _OUNCE = per_unit("grain"), per_unit("oz av")


def ladders(measuring: Measuring) -> dict[System, dict[Kind, Ladder]]:
    """The ladders of an archive: metric by its own balance and vessels, the others by common practice.

    US and imperial steps (half a grain, a hundredth of an ounce, a twentieth of a fluid ounce) are
    fine enough for a kitchen balance and a graduate; they are common practice, no source.
    """
    counted: dict[Kind, Ladder] = {
        "drops": (Rung(upto=None, unit="drops", per=Fraction(1), step=Fraction(1)),),
        "pieces": (Rung(upto=None, unit="pieces", per=Fraction(1), step=Fraction(1, 10)),),
    }
    return {
        "metric": {"mass": _metric_mass(measuring), "volume": _metric_volume(measuring), **counted},
        "US": {"mass": _OUNCES, "volume": _fluid_ounces("fl oz US"), **counted},
        "imp": {"mass": _OUNCES, "volume": _fluid_ounces("fl oz imp"), **counted},
    }


def _metric_mass(measuring: Measuring) -> Ladder:
    step = measuring.balance
    return (
        Rung(upto=10 * _KILO, unit="g", per=Fraction(1), step=step),
        Rung(upto=None, unit="kg", per=_KILO, step=max(step / _KILO, Fraction(1, 1000))),
    )


FILLS: Final = 5
"""How often a vessel is filled before a larger, coarser one is taken: rounding stays within one percent
where each vessel holds ten times the last and is read to a hundredth."""


def _metric_volume(measuring: Measuring) -> Ladder:
    vessels = sorted(measuring.vessels, key=lambda v: v.holds)
    rungs = [Rung(upto=FILLS * v.holds, unit="ml", per=Fraction(1), step=v.step) for v in vessels]
    last = vessels[-1].step
    rungs.append(Rung(upto=10 * _KILO, unit="ml", per=Fraction(1), step=last))
    rungs.append(Rung(upto=None, unit="l", per=_KILO, step=max(last / _KILO, Fraction(1, 100))))
    return tuple(rungs)


_OUNCES: Final = (
    Rung(upto=_OUNCE / 4, unit="grain", per=_GRAIN, step=Fraction(1, 2)),
    Rung(upto=10 * _OUNCE, unit="oz av", per=_OUNCE, step=Fraction(1, 100)),
    Rung(upto=None, unit="oz av", per=_OUNCE, step=Fraction(1, 10)),
)


def _fluid_ounces(unit: str) -> Ladder:
    per = per_unit(unit)
    return (
        Rung(upto=10 * per, unit=unit, per=per, step=Fraction(1, 20)),
        Rung(upto=None, unit=unit, per=per, step=Fraction(1, 2)),
    )
