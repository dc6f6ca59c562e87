"""One edition, whole: its pages, its sheets and its pictures, derived only from what its readers may see."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from sitegen.compute.whole import Computed, compute
from sitegen.model.archive import Archive
from sitegen.model.recipe import Picture, Recipe
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.page import Page
from sitegen.render.sheet import sheets
from sitegen.render.site import pages


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """An edition's name and everything its readers may see."""

    name: str
    computed: Computed


def editions(archive: Archive) -> tuple[Edition, ...]:
    """Every edition of an archive, each computed from its own recipes alone."""
    return tuple(
        Edition(name=name, computed=compute(archive.edition(name), Problems())) for name in archive.settings.editions
    )


def edition_pages(edition: Edition, theme: Theme, pictures: Mapping[str, bytes]) -> Iterator[Page]:
    """Every file of an edition, lazily. `pictures` are those of the whole archive, ready to publish."""
    yield from pages(edition.computed, theme, edition.name)
    yield from sheets(edition.computed, theme)
    for recipe in edition.computed.archive.recipes:
        for picture in pictures_of(recipe):
            yield Page(path=f"images/{picture.file}", content=pictures[picture.file])


def pictures_of(recipe: Recipe) -> tuple[Picture, ...]:
    """Every picture a recipe shows."""
    steps = [step.image for stage in recipe.stages for step in stage.steps]
    return tuple(picture for picture in (recipe.image, *steps) if picture)
