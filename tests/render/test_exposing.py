"""A recipe's exposures on its page: found from layer and step, figures as a reader types them, the strip in words."""

from dataclasses import replace
from datetime import date

import pytest
from bs4 import BeautifulSoup

from sitegen.compute.strip import usual_strip
from sitegen.model.layers import Exposure, Layer
from sitegen.model.recipe import Hazards, Prose, Recipe, Stage, Step
from sitegen.problems import Span
from sitegen.render.exposing import exposure_views, strip_line
from tests.compute.shelf import q

HERE = Span(file="recipes/chart.yaml")
RECIPE = Recipe(
    slug="chart", title="Chart", code="CH-01", summary="", process="blue", edition="public", revision=1,
    revised=date(2026, 1, 2), mixtures=(), hazards=Hazards(at=HERE), at=HERE,
)  # fmt: skip


def layered(expose: Exposure) -> Recipe:
    return replace(RECIPE, layers=(Layer(name="warm", expose=expose),))


def test_a_layer_and_its_step_share_one_exposure() -> None:
    step = Step(do=Prose(text="Lay the film on it.", at=HERE), lasts=q("8-10 min"))
    stage = Stage(title="Print", steps=(step,), layer="warm")
    views = exposure_views(replace(layered(Exposure(to="lamp", lasts=q("8-10 min"))), stages=(stage,)))
    assert views.of_layer("warm") == views.at_step(1, 1) == views.all[0]
    assert views.of_layer("blue") is None
    assert views.at_step(1, 2) is None
    assert (views.layers_of(1), views.layers_of(2)) == ({"warm"}, set())


@pytest.mark.parametrize(
    ("lasts", "typed"),
    [("8 min", "8 min"), ("8-10 min", "8-10 min"), ("1/3-1/2 h", "1/3 to 0.5 h"), ("0.25 days", "6 h")],
)
def test_times_stand_as_a_reader_would_type_them(lasts: str, typed: str) -> None:
    [view] = exposure_views(layered(Exposure(to="lamp", lasts=q(lasts)))).all
    assert f"{view.time} {view.unit}" == typed


@pytest.mark.parametrize(
    ("distance", "typed"), [("30 cm", ("30", "cm")), ("2 ft", ("2", "ft")), ("20-30 cm", ("", "")), ("", ("", ""))]
)
def test_a_single_distance_is_filled_in_and_a_range_is_asked(distance: str, typed: tuple[str, str]) -> None:
    expose = Exposure(to="lamp", lasts=q("8 min"), distance=q(distance) if distance else None)
    [view] = exposure_views(layered(expose)).all
    assert (view.distance, view.distance_unit) == typed


def test_a_strip_in_one_line() -> None:
    strip = usual_strip(q("8-16 min"))
    assert strip
    assert strip_line(strip).split() == ["5'39", "8'00", "11'19", "16'00", "22'38"]


def test_the_page_says_the_plan_for_the_layers_own_time(blue: BeautifulSoup) -> None:
    rows = blue.select("#layer-1 [data-printed] tbody tr")
    said = [[cell.get_text() for cell in row.find_all(["th", "td"])] for row in rows]
    assert said[0] == ["1", "4'00", "4'00", "12'00"]
    assert said[2] == ["3", "8'00", "2'21", "8'00"]
    lamp = blue.select_one("#layer-1 [data-expose=lamp]")
    assert lamp
    assert [lamp.select_one(f"[name={name}]")["value"] for name in ("time", "was")] == ["8", "20"]  # type: ignore[index]


def test_a_time_that_is_too_short_to_cut_still_has_its_sums() -> None:
    [view] = exposure_views(layered(Exposure(to="flash", lasts=q("1 s")))).all
    assert view.rows == ()
