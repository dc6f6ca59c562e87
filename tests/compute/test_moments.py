"""Moments: how days, times and hours are written, and what fits into a day's hours."""

from datetime import date, datetime
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.moments import DAY, Hours, moment, parse_hours, parse_moment
from tests.compute.plans import at
from tests.compute.shelf import refused

HOURS = Hours(opens=at("08:00"), closes=at("22:00"))


def test_reads_a_day_and_its_minutes_and_writes_them_back() -> None:
    assert parse_moment("2026-11-28 09:00") == (date(2026, 11, 28), 540)
    assert parse_moment("2028-02-29T23:59") == (date(2028, 2, 29), 1439)
    assert moment(date(2026, 12, 31), at("00:00", 1)) == datetime.fromisoformat("2027-01-01T00:00:00")
    assert moment(date(2026, 1, 1), Fraction(-1)) == datetime.fromisoformat("2025-12-31T23:59:00")
    assert moment(date(2026, 1, 1), Fraction(1, 6)) == datetime.fromisoformat("2026-01-01T00:00:10")
    assert moment(date(2026, 1, 1), DAY - Fraction(1, 1000)) == datetime.fromisoformat("2026-01-02T00:00:00")


@pytest.mark.parametrize(
    "text",
    [
        "28.11.2026 09:00",
        "2026-11-28",
        "2026-11-28 9:00",
        "2026-11-28 24:00",
        "2026-02-30 09:00",
        "2026-11-28 09:00Z",
        "",
    ],
)
def test_refuses_other_ways_of_writing_a_moment(text: str) -> None:
    assert refused(parse_moment, text) == (
        "moment-not-read",
        f"`{text}` is no day and time",
        "write the local time as `2026-11-28 09:00`",
    )


def test_reads_hours_of_one_day() -> None:
    assert parse_hours("08:00-22:00") == HOURS
    for text in ("22:00-08:00", "08:00-08:00", "8-22", ""):
        assert refused(parse_hours, text)[0] == "hours-not-read"


@pytest.mark.parametrize(
    ("begin", "lasting", "start"),
    [
        (at("07:00"), 60, at("08:00")),
        (at("09:00"), 60, at("09:00")),
        (at("21:00"), 60, at("21:00")),
        (at("21:01"), 60, at("08:00", 1)),
        (at("23:30"), 0, at("08:00", 1)),
        (at("09:00"), 900, at("08:00", 1)),  # longer than any day: from opening
        (at("08:00"), 900, at("08:00")),
    ],
)
def test_work_starts_when_it_can_be_done_by_closing(begin: Fraction, lasting: int, start: Fraction) -> None:
    assert HOURS.next_start(begin, Fraction(lasting)) == start


@given(st.integers(-5000, 5000), st.integers(0, 840))
def test_the_last_start_and_the_next_start_agree(end: int, lasting: int) -> None:
    last = HOURS.last_start(Fraction(end), Fraction(lasting))
    assert last + lasting <= end
    assert HOURS.next_start(last, Fraction(lasting)) == last
    assert HOURS.next_start(last + Fraction(1, 60), Fraction(lasting)) + lasting > end
