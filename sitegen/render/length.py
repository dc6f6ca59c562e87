"""Lengths of time as they are said: minutes up to a good hour, then hours, then days. No clock here.

A time that its author wrote in a small unit (`105-360 min`) is said in hours; one that is said as easily
as it was written (`60-90 min`, `12-24 h`, `2 days`) stays as it is.
"""

from fractions import Fraction
from typing import Final

from sitegen.compute.rounding import to_step
from sitegen.model.quantity import Quantity, exact_text

DAY: Final = 1440
"""Minutes."""
_HOURS_UNTIL: Final = 2 * DAY
"""Minutes; what is shorter is said in hours."""
_MOST: Final = Fraction(90)
"""So many minutes or seconds are still easily read as such."""


def length(minutes: Fraction) -> str:
    """A time in days from two days on, hours and minutes; seconds only below ten minutes.

    >>> length(Fraction(1530)), length(Fraction(2970)), length(Fraction(1, 2))
    ('25 h 30 min', '2 days 1 h 30 min', '30 s')
    """
    seconds = int(to_step(minutes * 60, Fraction(60 if minutes >= 10 else 1)))
    days = seconds // (DAY * 60) if seconds >= _HOURS_UNTIL * 60 else 0
    hours, rest = divmod(seconds - days * DAY * 60, 3600)
    counts = ((days, "days"), (hours, "h"), (rest // 60, "min"), (rest % 60, "s"))
    return " ".join(f"{n} {unit}" for n, unit in counts if n) or "0 min"


def lasting(low: Fraction, high: Fraction) -> str:
    """Minutes from shortest to longest: `4–8 min`, `45 min to 3 h`, `1–2 days`.

    >>> lasting(Fraction(4), Fraction(8)), lasting(Fraction(45), Fraction(180)), lasting(Fraction(1440), Fraction(2880))
    ('4–8 min', '45 min to 3 h', '1–2 days')
    """
    if high >= _HOURS_UNTIL and low >= DAY and low % DAY == high % DAY == 0:
        return _joined(f"{low // DAY} days", f"{high // DAY} days")
    return _joined(length(low), length(high))


def _joined(low: str, high: str) -> str:
    if low == high:
        return low
    (first, unit), last = low.split(" ")[:2], high.split(" ")
    if low.count(" ") == 1 and last[1:] == [unit]:
        return f"{first}–{high}"
    return f"{low} to {high}"


def easier(quantity: Quantity) -> str:
    """The time in larger units where that is easier to read and says the same, else ''.

    >>> easier(Quantity(low=Fraction(105), high=Fraction(360), unit="min"))
    '1 h 45 min to 6 h'
    """
    low, high = quantity.base()
    if quantity.dimension != "time" or (low * 60).denominator > 1 or (high * 60).denominator > 1:
        return ""
    small = quantity.unit in ("s", "min") and quantity.high > _MOST
    broken = quantity.unit == "h" and high < _HOURS_UNTIL and not _whole(quantity)
    exact = all(end < 10 or (end % 1 == 0) for end in (low, high))
    return lasting(low, high) if exact and (small or broken) else ""


def _whole(quantity: Quantity) -> bool:
    return "." not in exact_text(quantity.low) + exact_text(quantity.high)
