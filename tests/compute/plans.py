"""Small recipes to put in time, from short text."""

from collections.abc import Mapping, Sequence
from fractions import Fraction

from sitegen.compute.timeline import Reach
from sitegen.model.archive import Archive, Process, Settings
from sitegen.model.recipe import Mixture, Prose, Recipe, Stage, Step
from tests.compute.shelf import HERE, q, recipe_of


def stage(title: str, *steps: str, wait: str = "", light: str = "", checks: Sequence[str] = ()) -> Stage:
    """A stage; a step is `5-8 min: what to do`, or only what to do."""
    made = []
    for text in steps:
        time, colon, do = text.partition(": ")
        made.append(Step(do=Prose(text=do if colon else time, at=HERE), lasts=q(time) if colon else None))
    return Stage(title=title, steps=tuple(made), then_wait=q(wait) if wait else None, light=light, checks=tuple(checks))


def recipe(*stages: Stage, keeps: Mapping[str, str] | None = None) -> Recipe:
    """A recipe of those stages, with empty mixtures by name and keeping time ('' for none said)."""
    mixtures = tuple(
        Mixture(id=f"r/{name}", name=name.title(), lines=(), keeps=q(time) if time else None, at=HERE)
        for name, time in (keeps or {}).items()
    )
    return recipe_of(*mixtures, stages=stages)


def archive(made: Recipe) -> Archive:
    """An archive of that recipe alone."""
    return Archive(
        settings=Settings(title="test", processes=(Process(id="test", name="Test"),)), recipes=(made,), substances=()
    )


def at(clock: str, day: int = 0) -> Fraction:
    """`09:30` so many days on, in minutes."""
    hours, minutes = clock.split(":")
    return Fraction(day * 1440 + int(hours) * 60 + int(minutes))


def reach(low: Fraction | int, high: Fraction | int) -> Reach:
    """Both ends."""
    return Reach(low=Fraction(low), high=Fraction(high))
