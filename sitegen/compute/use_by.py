"""Use by: the last day of a mixture from the day it was mixed and how long it keeps.

Of a range the shorter end counts, with the longer one named. Months and years are those of the calendar;
what keeps for less than a day has no day, only hours.
"""

from calendar import monthrange
from dataclasses import dataclass
from datetime import date, timedelta
from fractions import Fraction
from typing import Final

from sitegen.model.quantity import Quantity

_DAYS: Final = {"days": 1, "weeks": 7}
_MONTHS: Final = {"months": 1, "years": 12}


@dataclass(frozen=True, slots=True, kw_only=True)
class UseBy:
    """First and last day of the end; both None where it is a matter of hours."""

    soonest: date | None
    latest: date | None


def use_by(mixed: date, keeps: Quantity) -> UseBy:
    """The days on which the shorter and the longer keeping time end; halves are cut, never rounded up."""
    return UseBy(soonest=_after(mixed, keeps.low, keeps.unit), latest=_after(mixed, keeps.high, keeps.unit))


def _after(mixed: date, count: Fraction, unit: str) -> date | None:
    """The day so much later, or None where the unit is shorter than a day, or no calendar goes so far.

    >>> _after(date(2027, 1, 31), Fraction(1), "months")
    datetime.date(2027, 2, 28)
    """
    try:
        if unit in _DAYS:
            return mixed + timedelta(days=int(count * _DAYS[unit]))
        if unit in _MONTHS:
            months = int(count * _MONTHS[unit])
            year, month = divmod(mixed.year * 12 + mixed.month - 1 + months, 12)
            return date(year, month + 1, min(mixed.day, monthrange(year, month + 1)[1]))
    except (OverflowError, ValueError):
        return None
    return None
