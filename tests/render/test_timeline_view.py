"""The time of a recipe as it is shown: in plain words, as a strip to scale, from visible stages only."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.timeline import Reach
from sitegen.render.timeline_view import TimelineView, timeline_view
from sitegen.render.timeline_words import in_days, roughly
from tests.compute.plans import recipe, stage

BLUE = recipe(
    stage("Coat", "8-12 min: Coat.", wait="30-120 min"),
    stage("Expose", "7-15 min: Expose."),
    stage("Wash", "12-26 min: Wash.", wait="1-2 days"),
)


def view(made: object = BLUE) -> TimelineView:
    found = timeline_view(made)  # type: ignore[arg-type]  # a recipe
    assert found is not None
    return found


def test_says_the_work_and_the_days_in_plain_words() -> None:
    shown = view()
    assert shown.said == "About 25–55 min of work over 1 or 2 days and nights."
    assert (shown.work, shown.waiting) == ("27–53 min", "24 h 30 min to 2 days 2 h")
    assert shown.whole == "24 h 57 min to 2 days 2 h 53 min"


def test_every_piece_begins_so_long_after_the_start() -> None:
    got = [(p.number, p.title, p.kind, p.begins, p.lasts) for p in view().pieces]
    assert got == [
        (1, "Coat", "work", "0 h", "8–12 min"),
        (1, "Coat", "wait", "+8 min to +12 min", "30 min to 2 h"),
        (2, "Expose", "work", "+38 min to +2 h 12 min", "7–15 min"),
        (3, "Wash", "work", "+45 min to +2 h 27 min", "12–26 min"),
        (3, "Wash", "wait", "+57 min to +2 h 53 min", "1–2 days"),
    ]


def test_the_strip_is_to_scale_at_the_longest_times_but_for_breaks() -> None:
    coat, dry, expose, wash, night = view().pieces
    assert [p.broken for p in view().pieces] == [False, False, False, False, True]
    assert dry.width / expose.width == pytest.approx(120 / 15, rel=0.001)
    assert wash.width / coat.width == pytest.approx(26 / 12, rel=0.001)
    assert night.width == 9


def test_a_wait_of_a_working_day_is_broken_and_a_shorter_one_is_not() -> None:
    for wait, broken in (("1-8 h", True), ("1-7 h", False)):
        assert view(recipe(stage("Dry", "1 h: Hang.", wait=wait))).pieces[1].broken is broken


def test_the_strip_is_told_in_words() -> None:
    alone = recipe(stage("Steep", "3 days: Steep.", "1 h: Strain."))
    assert view(alone).alt == "The work from left to right: 1 Steep, left alone, 3 days; 1 Steep, 1 h."
    assert "; wait, 1–2 days." in view().alt


def test_steps_without_a_time_make_it_at_least() -> None:
    shown = view(recipe(stage("Wash", "30-40 min: Wash.", "Drain.")))
    assert shown.said == "At least 30–40 min of work within a day."
    assert shown.work == "at least 30–40 min"
    assert shown.notes == ("1 step has no time given: everything takes at least this long",)


def test_a_stage_without_any_time_is_shown_as_such() -> None:
    shown = view(recipe(stage("Look", "Look."), stage("Wash", "30 min: Wash.")))
    assert shown.pieces[0].lasts == "no time given"
    assert shown.pieces[0].width == 4


def test_nothing_is_shown_without_stages_or_times() -> None:
    assert timeline_view(recipe()) is None
    assert timeline_view(recipe(stage("Look", "Look."))) is None


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (1, 14, " within a day"),
        (1, 15, " within a day, or over a day and a night at the longest"),
        (1, 60, " within a day, or over 2 days and nights at the longest"),
        (15, 38, " over a day and a night"),
        (50, 52, " over 2 days and nights"),
        (24, 50, " over 1 or 2 days and nights"),
        (50, 130, " over 2 to 5 days and nights"),
    ],
)
def test_days_and_nights(low: int, high: int, words: str) -> None:
    assert in_days(Reach(low=Fraction(low * 60), high=Fraction(high * 60))) == words


def test_nobody_times_closer_than_five_minutes() -> None:
    assert roughly(Reach(low=Fraction(7), high=Fraction(22))) == "7–20 min"
    assert roughly(Reach(low=Fraction(172), high=Fraction(408))) == "2 h 50 min to 6 h 50 min"


TIMES = st.tuples(st.integers(0, 600), st.integers(0, 600), st.integers(0, 3000))


@given(st.lists(TIMES, min_size=1, max_size=30))
def test_pieces_fill_the_strip_without_gap_or_overlap(rows: list[tuple[int, int, int]]) -> None:
    stages = (
        stage(f"S{n}", f"{a}-{a + b} min: Do." if a else "Do.", wait=f"1-{c} min" if c > 1 else "")
        for n, (a, b, c) in enumerate(rows)
    )
    shown = timeline_view(recipe(*stages))
    if shown is None:
        return
    edge = 0.0
    for piece in shown.pieces:
        assert piece.left == pytest.approx(edge, abs=0.1)
        assert piece.width > 0
        edge = piece.left + piece.width
    assert edge == pytest.approx(100, abs=0.1)
