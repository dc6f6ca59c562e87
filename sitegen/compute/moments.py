"""Moments: days and minutes of the local clock, as the asker writes them, and the hours a bench is open.

A moment is a day and exact minutes since its midnight; minutes run on over later days, and below
nothing into earlier ones. There is no time zone here, no clock, and no change to summer time.
"""

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from typing import Final

from sitegen.compute.rounding import to_step
from sitegen.problems import Refusal

DAY: Final = 1440
"""Minutes."""

_CLOCK: Final = r"([01]\d|2[0-3]):([0-5]\d)"


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """When work may go on, each day: from `opens` to `closes`, minutes since midnight."""

    opens: Fraction
    closes: Fraction

    def next_start(self, at: Fraction, lasting: Fraction) -> Fraction:
        """The first start from `at` on that leaves `lasting` minutes before closing.

        What is longer than a day's hours starts at opening.
        """
        midnight = at // DAY * DAY
        opening = midnight + self.opens
        begin = max(at, opening)
        fits = begin + lasting <= midnight + self.closes
        never = lasting > self.closes - self.opens
        return begin if fits or (never and begin == opening) else opening + DAY

    def hold(self, start: Fraction, end: Fraction) -> bool:
        """Whether all of a stretch lies within one day's hours."""
        midnight = start // DAY * DAY
        return midnight + self.opens <= start and end <= midnight + self.closes

    def last_start(self, end: Fraction, lasting: Fraction) -> Fraction:
        """The last start that is done by `end` and within hours; from opening, if it is longer than they are."""
        if lasting > self.closes - self.opens:
            return (end - lasting - self.opens) // DAY * DAY + self.opens
        midnight = end // DAY * DAY
        begin = min(end, midnight + self.closes) - lasting
        return begin if begin >= midnight + self.opens else midnight - DAY + self.closes - lasting


def parse_moment(text: str) -> tuple[date, Fraction]:
    """`2026-11-28 09:00` as the day and its minutes; `Refusal` for every other way of writing it.

    >>> parse_moment("2026-11-28 09:30")
    (datetime.date(2026, 11, 28), Fraction(570, 1))
    """
    match = re.fullmatch(rf"(20\d\d-\d\d-\d\d)[ T]{_CLOCK}", text.strip(), re.ASCII)
    try:
        day = date.fromisoformat(match[1]) if match else None
    except ValueError:
        day = None
    if match is None or day is None:
        raise Refusal(
            "moment-not-read",
            f"`{text}` is no day and time",
            "write the local time as `2026-11-28 09:00`",
        )
    return day, Fraction(int(match[2]) * 60 + int(match[3]))


def parse_hours(text: str) -> Hours:
    """`08:00-22:00`: opening and closing on the same day."""
    match = re.fullmatch(rf"\s*{_CLOCK}\s*[-–]\s*{_CLOCK}\s*", text, re.ASCII)
    opens, closes = (int(match[1]) * 60 + int(match[2]), int(match[3]) * 60 + int(match[4])) if match else (0, 0)
    if opens >= closes:
        raise Refusal(
            "hours-not-read", f"`{text}` are no hours of one day", "write opening and closing, such as `08:00-22:00`"
        )
    return Hours(opens=Fraction(opens), closes=Fraction(closes))


def moment(day: date, minutes: Fraction) -> datetime:
    """The local time so many minutes after that day's midnight, to the nearest second."""
    whole, part = divmod(minutes, DAY)
    seconds = to_step(part * 60, Fraction(1))
    return datetime.combine(day, time()) + timedelta(days=int(whole), seconds=int(seconds))
