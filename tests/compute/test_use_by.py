"""The last day of a bottle: the calendar's months, the shorter end of a range, and hours that have no day."""

from datetime import date

import pytest

from sitegen.compute.use_by import UseBy, use_by
from sitegen.model.quantity import parse_quantity

MIXED = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("keeps", "soonest", "latest"),
    [
        ("90 days", date(2027, 2, 23), date(2027, 2, 23)),
        ("2 weeks", date(2026, 12, 9), date(2026, 12, 9)),
        ("1-3 months", date(2026, 12, 25), date(2027, 2, 25)),
        ("1 year", date(2027, 11, 25), date(2027, 11, 25)),
        ("1.5 weeks", date(2026, 12, 5), date(2026, 12, 5)),
        ("6 h", None, None),
    ],
)
def test_the_day_follows_from_the_keeping_time(keeps: str, soonest: date | None, latest: date | None) -> None:
    assert use_by(MIXED, parse_quantity(keeps, "time")) == UseBy(soonest=soonest, latest=latest)


def test_a_month_ends_where_the_calendar_ends_it() -> None:
    month = parse_quantity("1 month", "time")
    assert use_by(date(2027, 1, 31), month).soonest == date(2027, 2, 28)
    assert use_by(date(2028, 1, 31), month).soonest == date(2028, 2, 29)


def test_a_day_that_no_calendar_has_is_not_invented() -> None:
    assert use_by(date(9999, 6, 1), parse_quantity("20 years", "time")).soonest is None
