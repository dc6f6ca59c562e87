"""Which exposures a recipe has: told by its layers, else by its steps; found at the step that does it."""

from dataclasses import replace
from datetime import date

import pytest

from sitegen.compute.exposing import exposings
from sitegen.model.layers import Exposure, Layer
from sitegen.model.recipe import Hazards, Prose, Recipe, Stage, Step
from sitegen.model.steps import StepPlace
from sitegen.problems import Span
from tests.compute.shelf import q

HERE = Span(file="recipes/chart.yaml")
RECIPE = Recipe(
    slug="chart", title="Chart", code="CH-01", summary="", process="blue", edition="public", revision=1,
    revised=date(2026, 1, 2), mixtures=(), hazards=Hazards(at=HERE), at=HERE,
)  # fmt: skip


def step(do: str, lasts: str = "") -> Step:
    return Step(do=Prose(text=do, at=HERE), lasts=q(lasts) if lasts else None)


def stages(*steps: Step, layer: str = "") -> tuple[Stage, ...]:
    return (Stage(title="Coat", steps=(step("Brush it on.", "2-4 min"),)), Stage(title="Sun", steps=steps, layer=layer))


def test_a_layer_tells_its_exposure_and_its_step_is_found_by_the_time() -> None:
    layer = Layer(name="warm", expose=Exposure(to="full sun", lasts=q("2-4 min"), distance=q("30 cm")))
    steps = (step("Mix it.", "5 min"), step("Lay film W on it.", "120-240 s"))
    [found] = exposings(replace(RECIPE, layers=(layer,), stages=stages(*steps, layer="warm")))
    assert (found.key, found.layer, found.distance) == ("warm", "warm", q("30 cm"))
    assert found.place == StepPlace(stage=2, step=2)
    assert found.strip
    assert [band.seconds for band in found.strip.bands] == [85, 120, 170, 240, 339]


@pytest.mark.parametrize(
    ("words", "place"),
    [
        (("Expose.", "Wash."), StepPlace(stage=2, step=1)),
        (("Lay the film.", "Wash."), None),
        (("Expose.", "Expose again."), None),
    ],
)
def test_of_two_steps_of_one_time_the_one_that_says_so_exposes(words: tuple[str, str], place: StepPlace | None) -> None:
    layer = Layer(name="warm", expose=Exposure(to="UV lamp", lasts=q("8 min")))
    twice = stages(*(step(do, "8 min") for do in words), layer="warm")
    [found] = exposings(replace(RECIPE, layers=(layer,), stages=twice))
    assert found.place == place


def test_without_layers_a_timed_step_that_begins_with_expose_is_one() -> None:
    steps = (step("Expose in full sun.", "5-10 min"), step("Expose longer."), step("Do not expose it yet.", "1 min"))
    [found] = exposings(replace(RECIPE, stages=stages(*steps)))
    assert (found.key, found.layer, found.place) == ("Sun/1", "", StepPlace(stage=2, step=1))


@pytest.mark.parametrize(("lasts", "count"), [("12 h", 1), ("10-13 h", 0), ("1-2 days", 0)])
def test_times_of_days_are_not_cut_into_bands(lasts: str, count: int) -> None:
    assert len(exposings(replace(RECIPE, stages=stages(step("Expose.", lasts))))) == count


def test_a_layer_that_tells_no_time_leaves_nothing_to_guess() -> None:
    layer = Layer(name="warm", expose=Exposure(to="UV lamp"))
    assert exposings(replace(RECIPE, layers=(layer,), stages=stages(step("Expose.", "5 min")))) == ()
