"""Trials in an edition: an entry is seen where its recipe is, and of it only what those readers may see.

What an entry names (a stage's time, a batch of another recipe, a water, a trouble, another entry) goes where that
thing goes.
"""

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import replace

from sitegen.model.recipe import Recipe
from sitegen.model.trial import Trial


def visible_trials(
    trials: Iterable[Trial], recipes: Mapping[str, Recipe], waters: Set[str], allowed: Sequence[str]
) -> tuple[Trial, ...]:
    """The entries that readers of these editions may see.

    `recipes` are those they may see, as they see them, and `waters` the ids of the waters they may see.
    """
    kept = [t for t in trials if t.recipe in recipes and (not t.edition or t.edition in allowed)]
    slugs = {trial.slug for trial in kept}
    return tuple(_visible(_watered(trial, waters), recipes, allowed, slugs) for trial in kept)


def _watered(trial: Trial, waters: Set[str]) -> Trial:
    told = trial.conditions
    return trial if told.place in waters else replace(trial, conditions=replace(told, place=""))


def _visible(trial: Trial, recipes: Mapping[str, Recipe], allowed: Sequence[str], slugs: set[str]) -> Trial:
    picture = trial.image
    troubles = {trouble.id for trouble in recipes[trial.recipe].troubles}
    return replace(
        trial,
        edition="",
        times=tuple(time for time in trial.times if not time.edition or time.edition in allowed),
        batches=tuple(batch for batch in trial.batches if batch.recipe in recipes),
        image=picture if picture and (not picture.edition or picture.edition in allowed) else None,
        trouble=trial.trouble if trial.trouble in troubles else "",
        solved_by=trial.solved_by if trial.solved_by in slugs else "",
    )
