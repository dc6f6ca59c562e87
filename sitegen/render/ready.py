"""Ready: which mixtures each stage of a recipe works with, so that none is missed when the print is already wet.

They are those that the stage's steps link to. What a mixture is made of stands beside it, since that has to be
mixed before; how it is mixed is its own section's to say, and from there `used` leads back.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sitegen.check.pairs.kitchen import kitchen_of
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.render.mixture import LineView, MixtureView


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A mixture of a stage; `parts` are the lines of it that are mixtures themselves."""

    view: MixtureView
    parts: tuple[LineView, ...]


def ready(recipe: Recipe, archive: Archive, views: Sequence[MixtureView]) -> Mapping[int, tuple[Ready, ...]]:
    """By the number of each stage, from 1, the mixtures on the page that its steps name, in the order of the steps."""
    shown = {view.id: view for view in views}
    sections = {f"#{view.anchor}" for view in views}
    found: dict[int, tuple[Ready, ...]] = {}
    for number, (_, steps) in enumerate(kitchen_of(recipe, archive).stages, start=1):
        ids = dict.fromkeys(bath.mixture for _, baths in steps for bath in baths if bath.mixture in shown)
        found[number] = tuple(
            Ready(view=shown[i], parts=tuple(line for line in shown[i].lines if line.way in sections)) for i in ids
        )
    return found


def used(found: Mapping[int, tuple[Ready, ...]]) -> Mapping[str, tuple[int, ...]]:
    """By the anchor of a mixture, the numbers of the stages that work with it or with something made of it."""
    stages: dict[str, list[int]] = {}
    for number, mixtures in found.items():
        here = (way for one in mixtures for way in (f"#{one.view.anchor}", *(part.way for part in one.parts)))
        for way in dict.fromkeys(here):
            stages.setdefault(way.removeprefix("#"), []).append(number)
    return {anchor: tuple(numbers) for anchor, numbers in stages.items()}
