"""One edition, whole: pages, sheets, booklets, labels and pictures, derived only from what its readers may see."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sitegen.compute.whole import Computed, compute
from sitegen.model.archive import Archive
from sitegen.model.recipe import Picture, Recipe
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.booklet import booklets
from sitegen.render.bottle_sheet import label_pages
from sitegen.render.links import picture_path
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.sheet import sheets
from sitegen.render.site import pages


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """An edition's name and everything its readers may see."""

    name: str
    computed: Computed


def editions(archive: Archive, today: date | None = None) -> tuple[Edition, ...]:
    """Every edition of an archive as of a day, each computed from what its readers may see alone."""
    return tuple(_edition(archive, name, today) for name in archive.settings.editions)


def last_edition(archive: Archive, today: date | None = None) -> Edition:
    """The last edition alone, which holds what all before it hold."""
    return _edition(archive, archive.settings.editions[-1], today)


def _edition(archive: Archive, name: str, today: date | None) -> Edition:
    return Edition(name=name, computed=compute(archive.edition(name, today), Problems()))


def edition_pages(edition: Edition, theme: Theme, pictures: Pictures) -> Iterator[Page]:
    """Every file of an edition, lazily. `pictures` are those of the whole archive, ready to publish."""
    yield from pages(edition.computed, theme, edition.name, pictures)
    yield from sheets(edition.computed, theme)
    yield from booklets(edition.computed, theme, edition.name, pictures)
    yield from label_pages(edition.computed, theme)
    for file in dict.fromkeys(picture.file for picture in pictures_in(edition.computed.archive)):
        for variant in pictures[file].files:
            yield Page(path=picture_path(variant.path), content=variant.content)


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
