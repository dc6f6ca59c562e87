"""Lengths of time: exact to the second, never in a unit that reads worse than what was written."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model.quantity import parse_quantity
from sitegen.render.length import easier, lasting, length
from sitegen.render.wording import NO_BREAK, spoken

MINUTES = {"days": 1440, "h": 60, "min": 1}


def said(text: str) -> str:
    return spoken(parse_quantity(text, "time"))


@pytest.mark.parametrize(
    ("written", "read"),
    [
        ("105-360 min", "1 h 45 min to 6 h"),
        ("30-120 min", "30 min to 2 h"),
        ("17-29.5 h", "17 h to 29 h 30 min"),
        ("2-2.5 h", "2 h to 2 h 30 min"),
        ("150 s", "2 min 30 s"),
        ("120 min", "2 h"),
        ("120-180 min", "2–3 h"),
        # as easily read as it was written
        ("60-90 min", "60–90 min"),
        ("10-60 s", "10–60 s"),
        ("12-24 h", "12–24 h"),
        ("72 h", "72 h"),
        ("1-2 days", "1–2 days"),
        # nothing is rounded away
        ("120.001 min", "120.001 min"),
        ("90-600.5 s", "90–600.5 s"),
        ("10.5-120 min", "10.5–120 min"),
    ],
)
def test_a_long_time_is_said_in_hours_and_minutes(written: str, read: str) -> None:
    assert said(written).replace(NO_BREAK, " ") == read


def test_a_length_breaks_only_before_its_upper_end() -> None:
    assert said("105-360 min").split(" ") == [f"1{NO_BREAK}h{NO_BREAK}45{NO_BREAK}min", f"to{NO_BREAK}6{NO_BREAK}h"]


def test_what_is_no_time_is_not_touched() -> None:
    assert easier(parse_quantity("1200 ml")) == ""


@given(st.integers(0, 10**6))
def test_a_length_adds_up_to_its_minutes(minutes: int) -> None:
    words = length(Fraction(minutes)).split(" ")
    assert sum(int(n) * MINUTES[unit] for n, unit in zip(words[::2], words[1::2], strict=True)) == minutes


@given(st.integers(0, 5000), st.integers(0, 5000))
def test_a_range_says_both_ends(low: int, more: int) -> None:
    text = lasting(Fraction(low), Fraction(low + more))
    whole = length(Fraction(low + more))
    assert text == whole if not more else (text.endswith(whole) or text.endswith("days"))
    assert ("–" in text or " to " in text) == bool(more)
