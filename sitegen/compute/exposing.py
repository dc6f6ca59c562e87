"""Where a recipe exposes by the clock, and the test strip that its author's time asks for.

A layer's `expose` says so itself. In a recipe that has none, a step that has a time and begins with the
word Expose does. Times of days are left out: a card is moved by a clock. What the print needs is not
here; `exposure` and `strip` hold the arithmetic.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sitegen.compute.strip import Strip, usual_strip
from sitegen.model.layers import Layer
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Recipe, Step
from sitegen.model.steps import StepPlace

LONGEST_HOURS: Final = 12
"""A time over half a day is told by looking, not by a clock."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposing:
    """One exposure: `key` names it within its recipe, `layer` is the name of its layer or ''.

    `place` is the step at which it is done, where the recipe tells; `strip` is None where its time is too
    short to be cut into bands. What gives the light stands in words only, so it is asked of the reader.
    """

    key: str
    layer: str
    lasts: Quantity
    distance: Quantity | None
    place: StepPlace | None
    strip: Strip | None


def exposings(recipe: Recipe) -> tuple[Exposing, ...]:
    """The exposures of a recipe, in the order of its layers, or of its steps where no layer tells."""
    layers = tuple(_of_layers(recipe))
    if layers or any(layer.expose for layer in recipe.layers):
        return layers
    return tuple(_of_steps(recipe))


def _of_layers(recipe: Recipe) -> Iterator[Exposing]:
    for layer in recipe.layers:
        expose = layer.expose
        if expose and expose.lasts and _by_clock(expose.lasts):
            yield Exposing(
                key=layer.name,
                layer=layer.name,
                lasts=expose.lasts,
                distance=expose.distance,
                place=_done(recipe, layer, expose.lasts),
                strip=usual_strip(expose.lasts),
            )


def _of_steps(recipe: Recipe) -> Iterator[Exposing]:
    for place, step in _steps(recipe):
        if step.lasts and _by_clock(step.lasts) and _says_expose(step):
            yield Exposing(
                key=f"{recipe.stages[place.stage - 1].title}/{place.step}",
                layer="",
                lasts=step.lasts,
                distance=None,
                place=place,
                strip=usual_strip(step.lasts),
            )


def _done(recipe: Recipe, layer: Layer, lasts: Quantity) -> StepPlace | None:
    """The one step that works on the layer for just that time, of several the one that says Expose; else None."""
    found = [
        (place, step)
        for place, step in _steps(recipe)
        if recipe.stages[place.stage - 1].layer == layer.name and step.lasts and step.lasts.base() == lasts.base()
    ]
    told = [place for place, step in found if len(found) == 1 or _says_expose(step)]
    return told[0] if len(told) == 1 else None


def _says_expose(step: Step) -> bool:
    return re.match(r"\s*expose\b", step.do.text, re.IGNORECASE) is not None


def _steps(recipe: Recipe) -> Iterator[tuple[StepPlace, Step]]:
    for at, stage in enumerate(recipe.stages, start=1):
        for number, step in enumerate(stage.steps, start=1):
            yield StepPlace(stage=at, step=number), step


def _by_clock(lasts: Quantity) -> bool:
    return lasts.in_unit("h").high <= LONGEST_HOURS
