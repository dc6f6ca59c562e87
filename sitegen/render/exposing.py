"""A recipe's exposures as pages and sheets show them: the figures its sums start from, and the strip in words.

What exposes, and which strip goes around it, is `compute.exposing`.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.compute.exposing import Exposing, exposings
from sitegen.compute.exposure import clock
from sitegen.compute.strip import Strip
from sitegen.model.quantity import Quantity, exact_number
from sitegen.model.recipe import Recipe
from sitegen.render.wording import NO_BREAK, spoken

_TYPED_IN: Final = ("s", "min", "h")
"""The units a reader may choose for a time; the page's forms offer the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposureView:
    """One exposure: `number` counts from 1, `time` and `distance` are what its blanks hold at first.

    `rows` are the bands of the usual strip: number, what it gets, how much after the last, when it is bared.
    """

    number: int
    found: Exposing
    lasts: str
    time: str
    unit: str
    distance: str
    distance_unit: str
    rows: tuple[tuple[str, ...], ...]

    @property
    def name(self) -> str:
        """What tells it apart from the others: its layer, else the step it is done at."""
        return self.found.layer or self.found.key.replace("/", ", step ")

    @property
    def key(self) -> str:
        """What a reader's own time is kept under."""
        return self.found.key


@dataclass(frozen=True, slots=True, kw_only=True)
class ExposureViews:
    """All exposures of a recipe, to be found from the layer or the step they belong to."""

    all: tuple[ExposureView, ...]

    def of_layer(self, name: str) -> ExposureView | None:
        """The exposure that a layer tells."""
        return next((view for view in self.all if view.found.layer == name), None)

    def layers_of(self, stage: int) -> frozenset[str]:
        """The names of the layers that a stage, counted from 1, exposes: their cards stand there."""
        return frozenset(v.found.layer for v in self.all if v.found.place and v.found.place.stage == stage)

    def at_step(self, stage: int, step: int) -> ExposureView | None:
        """The exposure that is done at a step, both counted from 1."""
        places = ((view, view.found.place) for view in self.all)
        return next((view for view, at in places if at and (at.stage, at.step) == (stage, step)), None)


def exposure_views(recipe: Recipe) -> ExposureViews:
    """Every exposure of a recipe that is timed by a clock."""
    return ExposureViews(all=tuple(_view(n, found) for n, found in enumerate(exposings(recipe), start=1)))


def strip_line(strip: Strip) -> str:
    """The times of a strip's bands in one line: `5'39 8'00 11'19 16'00 22'38`."""
    return f"{NO_BREAK} ".join(clock(Fraction(band.seconds)).replace(" ", NO_BREAK) for band in strip.bands)


def _view(number: int, found: Exposing) -> ExposureView:
    time = found.lasts if found.lasts.unit in _TYPED_IN else found.lasts.in_unit("h")
    single = found.distance if found.distance and not found.distance.is_range else None
    return ExposureView(
        number=number,
        found=found,
        lasts=spoken(found.lasts),
        time=_typed(time),
        unit=time.unit,
        distance=_typed(single) if single else "",
        distance_unit=single.unit if single else "",
        rows=tuple(_rows(found.strip)) if found.strip else (),
    )


def _typed(quantity: Quantity) -> str:
    low, high = exact_number(quantity.low), exact_number(quantity.high)
    return low if low == high else f"{low} to {high}" if "/" in low + high else f"{low}-{high}"


def _rows(strip: Strip) -> Iterator[tuple[str, ...]]:
    whole = strip.bands[-1].seconds
    for band, stretch in zip(strip.bands, strip.stretches, strict=True):
        figures = (band.seconds, stretch, whole - band.seconds)
        yield str(band.number), *(clock(Fraction(seconds)) for seconds in figures)
