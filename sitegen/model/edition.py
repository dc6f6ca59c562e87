"""Editions: what of a recipe the readers of one edition may see, as of a day.

An edition holds what the editions declared before it hold. Everything that is compiled for it is derived
from what these functions leave, so what they leave out cannot leak.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from sitegen.model.layers import Layer
from sitegen.model.origin import Change
from sitegen.model.recipe import Cause, Mixture, Picture, Recipe, Stage, Step, Trouble
from sitegen.model.steps import find_step
from sitegen.problems import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class Audience:
    """An edition as archive.yaml declares it; a sealed one is opened with a passphrase."""

    id: str
    name: str
    sealed: bool = False
    address: str = ""
    """Where it is published, if not where the archive is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Teased:
    """A recipe that an edition lacks but may name: its title and teaser, and nothing else of it is shown.

    `slug` only finds the card for a link; it is not written anywhere.
    """

    slug: str
    title: str
    teaser: str
    audience: Audience


def edition_on(recipe: Recipe, order: Sequence[str], today: date | None) -> str:
    """The lowest edition that holds the recipe: its own, or the widest from its day of publication on."""
    opened = recipe.publish_from and today and today >= recipe.publish_from
    return order[0] if opened else recipe.edition


def visible(recipe: Recipe, allowed: Sequence[str]) -> Recipe:
    """The recipe without the stages, notes, pictures, troubles, causes and disputes of editions that are not allowed.

    Its own edition, teaser and day of publication have done their work by then, and are blank.
    """
    stages = tuple(_stage(s, allowed) for s in recipe.stages if _may(s.edition, allowed))
    titles = tuple((stage.title, len(stage.steps)) for stage in stages)
    return replace(
        recipe,
        teaser="",
        publish_from=None,
        image=_picture(recipe.image, allowed),
        changes=tuple(_change(change, recipe, allowed) for change in recipe.changes),
        mixtures=tuple(_mixture(m, allowed) for m in recipe.mixtures),
        layers=_layers(recipe, stages),
        stages=stages,
        troubles=tuple(kept for t in recipe.troubles if (kept := _trouble(t, titles, allowed))),
        disputes=tuple(dispute for dispute in recipe.disputes if _may(dispute.edition, allowed)),
    )


def _change(change: Change, recipe: Recipe, allowed: Sequence[str]) -> Change:
    """The change without the times of steps that may not be seen."""
    stages = [(stage.title, len(stage.steps)) for stage in recipe.stages]
    seen = tuple(
        time
        for time in change.times
        if _is_there(time.target, stages)
        and _may(recipe.stages[find_step(time.target, stages).stage - 1].edition, allowed)
    )
    return change if seen == change.times else replace(change, times=seen)


def _layers(recipe: Recipe, seen: Sequence[Stage]) -> tuple[Layer, ...]:
    """The layers but for those that are worked on in stages that may not be seen, and in no other."""
    worked = {stage.layer for stage in recipe.stages} - {stage.layer for stage in seen}
    return tuple(layer for layer in recipe.layers if layer.name not in worked)


def _may(edition: str, allowed: Sequence[str]) -> bool:
    return not edition or edition in allowed


def _picture(picture: Picture | None, allowed: Sequence[str]) -> Picture | None:
    return picture if picture and _may(picture.edition, allowed) else None


def _mixture(mixture: Mixture, allowed: Sequence[str]) -> Mixture:
    return mixture if _may(mixture.note_edition, allowed) else replace(mixture, note=None, note_edition="")


def _stage(stage: Stage, allowed: Sequence[str]) -> Stage:
    return replace(stage, steps=tuple(_step(step, allowed) for step in stage.steps))


def _step(step: Step, allowed: Sequence[str]) -> Step:
    pair, moving = step.compare, step.moving
    return replace(
        step,
        image=_picture(step.image, allowed),
        compare=pair if pair and all(_picture(p, allowed) for p in (pair.before, pair.after)) else None,
        moving=moving if moving and _picture(moving.poster, allowed) else None,
    )


def _cause(cause: Cause, stages: Sequence[tuple[str, int]]) -> Cause:
    """The cause; where it happens is not told when that stage may not be seen."""
    seen = tuple(step for step in cause.steps if _is_there(step, stages))
    return cause if seen == cause.steps else replace(cause, steps=seen)


def _is_there(step: str, stages: Sequence[tuple[str, int]]) -> bool:
    try:
        find_step(step, stages)
    except Refusal:
        return False
    return True


def _trouble(trouble: Trouble, stages: Sequence[tuple[str, int]], allowed: Sequence[str]) -> Trouble | None:
    """The trouble with the causes that may be seen; None when none is left, for a symptom alone helps nobody."""
    causes = tuple(_cause(cause, stages) for cause in trouble.causes if _may(cause.edition, allowed))
    return replace(trouble, causes=causes) if causes and _may(trouble.edition, allowed) else None
