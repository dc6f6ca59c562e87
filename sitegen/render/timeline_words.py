"""Words for the time that a recipe takes: how much work, over how many days and nights."""

from fractions import Fraction
from typing import Final

from sitegen.compute.timeline import Reach, Timeline
from sitegen.render.length import DAY, lasting

_WAKING: Final = Fraction(14 * 60)
"""Minutes of one day in which work is begun and ended without a night between. No source."""
_SHORT: Final = Fraction(20)
_LONG: Final = Fraction(180)


def at_least(line: Timeline) -> str:
    """`at least ` where a step has no time, so that every sum is a lower bound."""
    return "at least " if line.untimed else ""


def roughly(reach: Reach) -> str:
    """Minutes as nobody would time them closer: to five minutes from 20 min on, to ten from 3 h on.

    >>> roughly(Reach(low=Fraction(27), high=Fraction(53))), roughly(Reach(low=Fraction(172), high=Fraction(408)))
    ('25–55 min', '2 h 50 min to 6 h 50 min')
    """
    return lasting(_rounded(reach.low), _rounded(reach.high))


def _rounded(minutes: Fraction) -> Fraction:
    step = 10 if minutes >= _LONG else 5 if minutes >= _SHORT else 1
    return Fraction((minutes + Fraction(step, 2)) // step * step) if minutes >= 1 else minutes


def in_days(whole: Reach) -> str:
    """` over 1 or 2 days and nights` and the like, from the first thing done to the last, begun in the morning.

    >>> in_days(Reach(low=Fraction(25 * 60), high=Fraction(51 * 60)))
    ' over 1 or 2 days and nights'
    """
    low, high = _nights(whole.low), _nights(whole.high)
    if not low:
        return " within a day" + (f", or over {_span(high)} at the longest" if high else "")
    if low == high:
        return f" over {_span(low)}"
    return f" over {low} {'or' if high == low + 1 else 'to'} {high} days and nights"


def _nights(minutes: Fraction) -> int:
    return max(0, -(-(minutes - _WAKING) // DAY))


def _span(nights: int) -> str:
    return "a day and a night" if nights == 1 else f"{nights} days and nights"
