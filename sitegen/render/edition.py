"""One edition, whole: pages, sheets, booklets, labels and pictures, derived only from what its readers may see."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sitegen.compute.whole import Computed, compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.booklet import booklets
from sitegen.render.bottle_sheet import label_pages
from sitegen.render.keeping import ANEW, Keeping, Kept
from sitegen.render.links import picture_path
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.sheet import sheets
from sitegen.render.shown import pictures_in
from sitegen.render.site import pages


@dataclass(frozen=True, slots=True, kw_only=True)
class Edition:
    """An edition's name and everything its readers may see."""

    name: str
    computed: Computed


def editions(archive: Archive, today: date | None = None) -> tuple[Edition, ...]:
    """Every edition of an archive as of a day, each computed from what its readers may see alone."""
    return tuple(
        Edition(name=name, computed=compute(archive.edition(name, today), Problems()))
        for name in archive.settings.editions
    )


def settled_edition(archive: Archive, today: date, kept: Kept) -> Edition:
    """The last edition for a preview, of the very parts of the last rebuild where they are equal."""
    name = archive.settings.editions[-1]
    return Edition(name=name, computed=compute(kept.settled(archive.edition(name, today)), Problems()))


def edition_pages(edition: Edition, theme: Theme, pictures: Pictures, keeping: Keeping = ANEW) -> Iterator[Page]:
    """Every file of an edition, lazily. `pictures` are those of the whole archive, ready to publish."""
    yield from pages(edition.computed, theme, edition.name, pictures, keeping)
    yield from sheets(edition.computed, theme, keeping)
    yield from label_pages(edition.computed, theme, keeping)
    # Last of what is set: they name their edition, so that none is worth remembering for the next.
    yield from booklets(edition.computed, theme, edition.name, pictures, keeping)
    for file in dict.fromkeys(picture.file for picture in pictures_in(edition.computed.archive)):
        for variant in pictures[file].files:
            yield Page(path=picture_path(variant.path), content=variant.content)
