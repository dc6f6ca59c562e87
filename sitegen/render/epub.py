"""An edition as an EPUB 3 book (W3C EPUB 3.3): tutorials with their pictures, hazards and troubles, no scripts.

Equal editions give equal bytes: the book's date is the newest revision's day.
"""

import uuid
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any, Final
from urllib.parse import quote

from sitegen.model.recipe import Picture, Recipe
from sitegen.read.theme import Theme
from sitegen.render.address import tag_of
from sitegen.render.edition import Edition
from sitegen.render.epub_chapter import chapter, chapter_path, image_way
from sitegen.render.frame import Frame, frame
from sitegen.render.links import picture_path
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.shown import pictures_of
from sitegen.render.zipped import zipped

_FOLDER: Final = "EPUB"
_CONTAINER: Final = f"""<?xml version="1.0" encoding="utf-8"?>
<container xmlns="urn:oasis:names:tc:opendocument:xmlns:container" version="1.0">
<rootfiles>
<rootfile full-path="{_FOLDER}/package.opf" media-type="application/oebps-package+xml"/>
</rootfiles>
</container>
"""
_TYPES: Final = {"png": "image/png", "webp": "image/webp", "jpg": "image/jpeg", "jpeg": "image/jpeg"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ImageItem:
    """A picture as the package lists it."""

    way: str
    type: str
    cover: bool


def epub(edition: Edition, theme: Theme, pictures: Pictures) -> bytes:
    """The book of an edition that holds at least one recipe. `pictures` are those ready to publish, by file."""
    framed = frame(edition.computed, theme, edition.name)
    return zipped(_files(framed, theme, pictures))


def newest(recipes: tuple[Recipe, ...]) -> date:
    """The day of the newest revision."""
    return max(r.revised for r in recipes)


def _files(framed: Frame, theme: Theme, pictures: Pictures) -> Iterator[Page]:
    """Every file, the mark of the format first (OCF 4.3)."""
    archive = framed.computed.archive
    shown = {p.file: p for r in archive.recipes for p in pictures_of(r)}
    cover = next((r.image for r in sorted(archive.recipes, key=_age, reverse=True) if r.image), None)
    fields = _fields(framed, shown, cover)
    yield Page(path="mimetype", content=b"application/epub+zip")
    yield Page(path="META-INF/container.xml", content=_CONTAINER.encode())
    for template, path in (("package", "package.opf"), ("nav", "nav.xhtml"), ("title", "title.xhtml")):
        text = framed.environment.get_template(f"epub-{template}.html").render(fields)
        yield Page(path=f"{_FOLDER}/{path}", content=text.encode())
    yield Page(path=f"{_FOLDER}/book.css", content=theme.print["book.css"])
    for recipe in fields["recipes"]:
        page = chapter(recipe, framed)
        yield Page(path=f"{_FOLDER}/{page.path}", content=page.content)
    for file in shown:
        yield Page(path=f"{_FOLDER}/{picture_path(file)}", content=pictures[file].whole.content)


def _age(recipe: Recipe) -> tuple[date, str]:
    return recipe.revised, recipe.code


def _fields(framed: Frame, shown: Mapping[str, Picture], cover: Picture | None) -> dict[str, Any]:
    """What the templates of the whole book are given."""
    archive, settings = framed.computed.archive, framed.computed.archive.settings
    groups = [(p, framed.cross.grouped[p.id]) for p in settings.processes if p.id in framed.cross.grouped]
    day = newest(archive.recipes).isoformat()
    return {
        "settings": settings,
        "audience": settings.audience(framed.edition).name,
        "count": len(archive.recipes),
        "day": day,
        "identifier": _identifier(framed),
        "groups": groups,
        "recipes": [recipe for _, recipes in groups for recipe in recipes],
        "images": [_item(p, cover=cover is not None and p.file == cover.file) for p in shown.values()],
        "cover": cover,
        "chapter_way": lambda slug: quote(chapter_path(slug)),
        "image_way": image_way,
    }


def _item(picture: Picture, *, cover: bool) -> ImageItem:
    ending = picture.file.rpartition(".")[2].lower()
    return ImageItem(way=image_way(picture, 0), type=_TYPES.get(ending, "image/jpeg"), cover=cover)


def _identifier(framed: Frame) -> str:
    """The same for every build of this edition: a tag of its address, else a name-based UUID (RFC 9562, version 5)."""
    settings = framed.computed.archive.settings
    if settings.address:
        return tag_of(settings, "book", framed.edition)
    named = uuid.uuid5(uuid.NAMESPACE_OID, "\n".join((settings.title, settings.studio, framed.edition)))
    return f"urn:uuid:{named}"
