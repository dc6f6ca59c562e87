"""Dated times in words: moments of a timeline, and what to mix later than at its start.

`assets/timing.js` is the browser's twin: the same words. The clock is the reader's own; names of days and
months are English, whatever the machine.
"""

from datetime import date
from fractions import Fraction
from typing import Final

from sitegen.compute.bath_life import BathBatch, BathLife
from sitegen.compute.moments import moment
from sitegen.compute.timeline import Reach

BATH_WORDS: Final = {
    "mix later": "is too old by its last use if it is mixed at the start",
    "mix again": "does not keep from its first use to its last",
    "too short": "may not keep through one single use",
}
_DAYS: Final = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
_MONTHS: Final = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def clock(day: date, minutes: Fraction) -> str:
    """The moment so many minutes after that day's midnight.

    >>> clock(date(2026, 11, 28), Fraction(1500))
    'Sun 29 Nov 01:00'
    """
    at = moment(day, minutes)
    return f"{_DAYS[at.weekday()]} {at.day:02} {_MONTHS[at.month - 1]} {at.hour:02}:{at.minute:02}"


def span(reach: Reach, day: date) -> str:
    """From earliest to latest; the day is named once where it is one."""
    early, late = clock(day, reach.low), clock(day, reach.high)
    if early == late:
        return early
    same_day = moment(day, reach.low).date() == moment(day, reach.high).date()
    return f"{early} to {late[-5:] if same_day else late}"


def bath_warnings(baths: tuple[BathLife, ...], day: date) -> list[str]:
    """What does not keep if it is mixed at the start, and when to mix it instead."""
    return [
        f"{life.mixture.name} {BATH_WORDS[life.verdict]}: " + "; ".join(_mix_at(batch, day) for batch in life.batches)
        for life in baths
        if life.verdict in BATH_WORDS
    ]


def _mix_at(batch: BathBatch, day: date) -> str:
    stages = ", ".join(dict.fromkeys(use.stage for use in batch.uses))
    needed = clock(day, batch.needed.low)
    if batch.not_before is None or batch.not_before > batch.needed.low:
        return f"mix it when it is needed, {needed} at the earliest, for {stages}"
    return f"mix between {clock(day, batch.not_before)} and {needed} for {stages}"
