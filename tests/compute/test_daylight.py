"""Which stages ask for daylight: by their own words, and never for words that keep it away."""

from dataclasses import replace

import pytest

from sitegen.compute.daylight import asks_for_daylight
from sitegen.compute.timeline import DARK, Timeline, timeline_from, timeline_until
from sitegen.model.layers import Exposure, Layer
from tests.compute.plans import at, recipe, stage

SUNNY = recipe(
    stage("Coat", "10-20 min: Coat.", wait="1 h", light="No daylight."),
    stage("Expose", "5-10 min: Expose in full sun."),
)


@pytest.mark.parametrize(
    ("light", "asked"),
    [
        ("Sun.", True),
        ("Subdued daylight.", True),
        ("Daylight, not direct sun.", True),
        ("Open shade.", True),
        ("No daylight, no fluorescent tubes.", False),
        ("Room light, out of the sun.", False),
        ("Lamplight, not direct sun.", False),
        ("Sunken lamp, two metres off.", False),
        ("", False),
    ],
)
def test_by_the_words_for_its_light(light: str, asked: bool) -> None:
    made = stage("Tone", "1 min: Tone.", light=light)
    assert asks_for_daylight(recipe(made), made) is asked


def test_by_what_exposes_it_and_what_is_judged() -> None:
    exposing = replace(stage("Print", "2 min: Lay it in and expose."), layer="blue")
    layers = (Layer(name="blue", expose=Exposure(to="full sun")), Layer(name="brown", expose=Exposure(to="lamp")))
    made = replace(recipe(exposing), layers=layers)
    assert asks_for_daylight(made, exposing)
    assert not asks_for_daylight(made, replace(exposing, layer="brown"))
    assert not asks_for_daylight(made, replace(stage("Coat", "2 min: Coat."), layer="blue"))
    [step] = stage("Wash", "5 min: Wash.").steps
    judged = replace(stage("Wash"), steps=(replace(step, look_in="Daylight."),))
    assert asks_for_daylight(recipe(judged), judged)


def dark(line: Timeline) -> list[str]:
    return [warning for warning in line.warnings if DARK in warning]


def test_a_stage_in_the_dark_is_said_at_either_end_of_its_times() -> None:
    assert dark(timeline_from(SUNNY, at("09:00"))) == []
    assert dark(timeline_from(SUNNY, at("16:00"))) == []
    assert dark(timeline_from(SUNNY, at("16:31"))) == [f"Expose: {DARK}"]  # 18:01 at the longest
    assert dark(timeline_from(SUNNY, at("06:45"))) == [f"Expose: {DARK}"]  # 07:55 at the shortest
    assert dark(timeline_until(SUNNY, at("04:11", 1))) == [f"Expose: {DARK}"]


def test_a_stage_that_runs_over_into_the_next_day_is_not_in_the_light() -> None:
    long = recipe(stage("Print", *["7 h: Expose in the sun."] * 4))
    assert dark(timeline_from(long, at("08:00"))) == [f"Print: {DARK}"]
