"""Trials, worked out: ages and keeping times by the calendar, changes in percent, what old stock explains."""

from datetime import date
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.trial import ages, blamed, change_in_percent, moved_on
from sitegen.model.amount import parse_amount
from sitegen.model.archive import Archive
from sitegen.model.quantity import parse_quantity
from tests.golden_cases import run, sound

ENTRY = """
title: Warmer
recipe: recipe
revision: 3
date: 2026-11-03
batches: [IB-07 bath {mixed}]
outcome: Nothing.
verdict: failed
trouble: nothing-happens
"""


def tried(mixed: str, keeps: str = "6-12 months", cause: str = "") -> Archive:
    texts = sound()
    recipe = texts["recipes/recipe.yaml"].replace("6-12 months", keeps)
    texts["recipes/recipe.yaml"] = recipe.replace("remedy: Mix it anew", f"remedy: Mix it anew{cause}")
    texts["journal/2026-11-03-warmer.yaml"] = ENTRY.format(mixed=mixed)
    archive, problems = run(texts)
    assert problems == ()
    assert archive is not None
    return archive


@pytest.mark.parametrize(
    ("mixed", "keeps", "days", "past"),
    [
        ("2026-05-03", "6-12 months", 184, False),  # to 3 November, that very day
        ("2026-05-02", "6-12 months", 185, True),
        ("2026-11-01", "2 days", 2, False),
        ("2026-10-31", "2 days", 3, True),
        ("2026-11-03", "6 h", 0, None),
        ("2026-11-02", "6 h", 1, None),  # mixed at eleven at night, used at one
        ("2026-11-01", "6 h", 2, True),
        ("2026-11-02", "48 h", 1, False),
    ],
)
def test_the_shorter_end_of_a_keeping_time_counts(mixed: str, keeps: str, days: int, past: bool | None) -> None:
    archive = tried(mixed, keeps)
    (age,) = ages(archive.trials[0], archive)
    assert (age.days, age.past) == (days, past)


@pytest.mark.parametrize(
    ("cause", "names"), [(", old stock: bath", ["Soda bath"]), (", old stock: yes", ["Soda bath"]), ("", [])]
)
def test_old_stock_is_blamed_where_the_trouble_can_come_from_it(cause: str, names: list[str]) -> None:
    archive = tried("2026-01-01", cause=cause)
    assert [age.name for age in blamed(archive.trials[0], archive)] == names
    fresh = tried("2026-11-01", cause=cause)
    assert blamed(fresh.trials[0], fresh) == ()


@given(st.integers(1, 10**6), st.integers(1, 10**6))
def test_the_change_leads_from_the_one_figure_to_the_other(was: int, then: int) -> None:
    low, high = change_in_percent(parse_amount(f"{was} g"), parse_amount(f"{then} g")) or (None, None)
    assert low == high
    assert low is not None
    assert was * (1 + low / 100) == then


def test_units_do_not_matter_and_temperatures_have_no_percent() -> None:
    assert change_in_percent(parse_amount("1 l"), parse_amount("1100 ml")) == (Fraction(10), Fraction(10))
    assert change_in_percent(parse_quantity("20 °C"), parse_quantity("22 °C")) is None
    assert change_in_percent(None, parse_amount("2 g")) is None


def test_an_entry_of_an_earlier_revision_is_left_behind_unless_it_became_one() -> None:
    texts = sound() | {"journal/2026-11-03-warmer.yaml": ENTRY.format(mixed=date(2026, 1, 1))}
    texts["journal/2026-11-03-warmer.yaml"] = texts["journal/2026-11-03-warmer.yaml"].replace(
        "revision: 3", "revision: 2"
    )
    archive, problems = run(texts)
    assert (archive and [t.slug for t in moved_on(archive)], problems) == (["2026-11-03-warmer"], ())
    texts["journal/2026-11-03-warmer.yaml"] += "became: 3\n"
    archive, _ = run(texts)
    assert archive
    assert list(moved_on(archive)) == []
