"""Shown: which pictures the recipes and the journal of an archive show."""

from collections.abc import Iterator

from sitegen.model.archive import Archive
from sitegen.model.recipe import Picture, Recipe


def pictures_in(archive: Archive) -> Iterator[Picture]:
    """Every picture of the recipes and the journal."""
    for recipe in archive.recipes:
        yield from pictures_of(recipe)
    yield from (trial.image for trial in archive.trials if trial.image)


def pictures_of(recipe: Recipe) -> tuple[Picture, ...]:
    """Every picture a recipe shows."""
    found = [recipe.image]
    for step in (step for stage in recipe.stages for step in stage.steps):
        found += [step.image, step.moving.poster if step.moving else None]
        found += [step.compare.before, step.compare.after] if step.compare else []
    return tuple(picture for picture in found if picture)
