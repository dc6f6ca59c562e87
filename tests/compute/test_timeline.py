"""Timelines: earliest and latest, across midnight, backwards from a finish, several prints at one bench."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.moments import Hours
from sitegen.compute.timeline import SUMMER_TIME, Timeline, pieces_of, timeline_from, timeline_until
from sitegen.model.recipe import Recipe
from tests.compute.plans import at, reach, recipe, stage
from tests.compute.shelf import refused

HOURS = Hours(opens=at("08:00"), closes=at("22:00"))
BLUE = recipe(
    stage("Coat", "10-20 min: Coat.", wait="30-120 min"),
    stage("Expose", "5-10 min: Expose."),
    stage("Wash", "10-20 min: Wash.", wait="12-24 h"),
)


def test_every_stage_has_an_earliest_and_a_latest_time() -> None:
    line = timeline_from(BLUE, at("09:00"))
    got = [(p.piece.title, p.piece.kind, p.start, p.end) for p in line.placed]
    assert got == [
        ("Coat", "work", reach(540, 540), reach(550, 560)),
        ("Coat", "wait", reach(550, 560), reach(580, 680)),
        ("Expose", "work", reach(580, 680), reach(585, 690)),
        ("Wash", "work", reach(585, 690), reach(595, 710)),
        ("Wash", "wait", reach(595, 710), reach(595 + 720, 710 + 1440)),
    ]
    assert (line.hands_on, line.waiting) == (reach(25, 50), reach(750, 1560))
    assert line.finish == reach(595 + 720, 710 + 1440)


def test_a_wait_over_midnight_is_overnight_or_perhaps() -> None:
    line = timeline_from(BLUE, at("09:00"))
    assert [p.overnight for p in line.placed] == ["no", "no", "no", "no", "perhaps"]
    late = timeline_from(BLUE, at("23:00"))
    assert [p.overnight for p in late.placed] == ["no", "perhaps", "perhaps", "perhaps", "perhaps"]
    assert timeline_from(BLUE, at("14:00")).placed[-1].overnight == "yes"
    assert SUMMER_TIME in line.warnings


def test_midnight_itself_belongs_to_the_next_day() -> None:
    line = timeline_from(recipe(stage("Soak", "1 h: Soak.")), at("23:00"))
    assert (line.placed[0].overnight, line.finish) == ("no", reach(1440, 1440))


def test_a_finish_is_met_at_the_longest_and_the_last_start_at_the_shortest() -> None:
    line = timeline_until(BLUE, at("18:00", 1))
    longest, shortest = 50 + 1560, 25 + 750
    assert line.start == at("18:00", 1) - longest
    assert line.last_start == at("18:00", 1) - shortest
    assert line.finish == reach(line.start + shortest, at("18:00", 1))


def test_steps_without_a_time_make_the_totals_lower_bounds() -> None:
    line = timeline_from(recipe(stage("Wash", "Rinse.", "5 min: Wash.", "Dry."), stage("Keep", "Look.")), at("09:00"))
    assert line.untimed == (("Wash", 1), ("Wash", 3), ("Keep", 1))
    assert [p.piece.untimed for p in line.placed] == [2, 1]
    assert line.warnings == ("3 steps have no time given: everything takes at least this long",)
    assert line.finish == reach(545, 545)


def test_a_step_of_a_working_day_goes_on_by_itself() -> None:
    pieces = pieces_of(recipe(stage("Dye", "1 h: Heat.", "8-14 h: Steep.", "30 min: Rinse.", wait="1 h")))
    assert [(p.kind, len(p.steps), p.lasts) for p in pieces] == [
        ("work", 1, reach(60, 60)),
        ("wait", 1, reach(480, 840)),
        ("work", 1, reach(30, 30)),
        ("wait", 0, reach(60, 60)),
    ]


def test_the_second_print_starts_when_the_bench_is_free_for_it() -> None:
    line = timeline_from(BLUE, at("09:00"), prints=2)
    second = [p for p in line.placed if p.print == 2]
    # By hand: print 1 coats to 9:20 at the latest, and at the longest times exposes and washes from 11:20 to 11:50.
    # Print 2 does so 140 min after its start, so it starts at 9:30; at the shortest times it then coats until 9:40,
    # just when print 1 is exposed.
    assert second[0].start == reach(570, 570)
    assert second[-1].end == reach(570 + 55 + 720, 570 + 170 + 1440)


def work(line: Timeline, low: bool) -> list[tuple[Fraction, Fraction]]:
    spans = [(p.start, p.end) for p in line.placed if p.piece.kind == "work"]
    ends = [(a.low, b.low) if low else (a.high, b.high) for a, b in spans]
    return sorted(span for span in ends if span[0] < span[1])


TIMES = st.tuples(st.integers(0, 90), st.integers(0, 90), st.integers(0, 200), st.integers(0, 200))
PLANS = st.lists(TIMES, min_size=1, max_size=4).map(
    lambda rows: recipe(
        *(
            stage(f"S{n}", f"{a + 1}-{a + b + 1} min: Do.", wait=f"{c}-{c + d} min" if c else "")
            for n, (a, b, c, d) in enumerate(rows)
        )
    )
)


@given(PLANS, st.integers(1, 4), st.sampled_from([None, HOURS]))
def test_the_bench_is_never_taken_twice_at_the_shortest_or_the_longest(
    plan: Recipe, prints: int, hours: Hours | None
) -> None:
    line = timeline_from(plan, at("10:00"), prints=prints, hours=hours)
    for low in (True, False):
        spans = work(line, low)
        assert all(a[1] <= b[0] for a, b in pairwise(spans))
    for placed in line.placed:
        assert placed.start.low <= placed.start.high
        assert placed.end.low <= placed.end.high


@given(PLANS, st.integers(1, 3), st.sampled_from([None, HOURS]))
def test_a_finish_is_never_missed(plan: Recipe, prints: int, hours: Hours | None) -> None:
    finish = at("18:00", 3)
    line = timeline_until(plan, finish, prints=prints, hours=hours)
    assert line.finish.high <= finish
    if hours:
        assert line.last_start is None
        return
    assert line.finish.high == finish
    assert line.last_start is not None
    assert line.start <= line.last_start
    assert timeline_from(plan, line.last_start, prints=prints).finish.low == finish


@given(PLANS)
def test_one_print_starts_as_late_as_its_finish_allows(plan: Recipe) -> None:
    finish = at("18:00", 3)
    start = timeline_until(plan, finish, hours=HOURS).start
    assert timeline_from(plan, start + 1, hours=HOURS).finish.high > finish


def test_work_waits_until_the_bench_opens_and_its_wait_is_drawn_out() -> None:
    line = timeline_from(BLUE, at("21:00"), hours=HOURS)
    wait, expose = line.placed[1], line.placed[2]
    # dry at 21:40 at the earliest, but exposing and washing may take half an hour
    assert expose.start == reach(at("08:00", 1), at("08:00", 1))
    assert wait.end == expose.start
    assert wait.held.high == at("08:00", 1) - at("23:20")
    assert any("drawn out until the bench opens" in warning for warning in line.warnings)


def test_work_that_might_not_be_done_by_closing_is_not_begun() -> None:
    line = timeline_from(recipe(stage("Wash", "30-90 min: Wash.")), at("21:00"), hours=HOURS)
    assert line.start == at("08:00", 1)


def test_work_longer_than_the_hours_starts_at_opening_and_is_said() -> None:
    line = timeline_from(recipe(stage("Etch", *["7 h: Bite."] * 3)), at("09:00"), hours=HOURS)
    assert line.start == at("08:00", 1)
    assert "Etch: may take longer than the bench is open in a day" in line.warnings


@pytest.mark.parametrize("prints", [0, -1, 21])
def test_refuses_no_prints_and_too_many(prints: int) -> None:
    assert refused(timeline_from, BLUE, at("09:00"), prints=prints)[2] == "ask for 1 to 20 prints"


def test_refuses_a_recipe_without_stages() -> None:
    assert refused(timeline_from, recipe(), at("09:00")) == (
        "no-stages",
        "`r` has no stages to put in time",
        "write its `stages`",
    )
