"""The feed: an edition's newest recipes as Atom (RFC 4287), for readers that tell people what is new.

Times are the days of revision, at midnight UTC, and ids are tags made from a recipe's code: no clock is read, and an
archive built again gives the same entries. An edition without recipes has no newest day, and so no feed.
"""

from collections.abc import Iterator
from datetime import date
from typing import Final
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from sitegen.model.recipe import Recipe
from sitegen.render.address import address_of, tag_of
from sitegen.render.frame import Frame
from sitegen.render.links import picture_path, recipe_path
from sitegen.render.page import Page
from sitegen.render.recipe_page import process_of

FEED: Final = "feed.atom"
NEWEST: Final = 50
"""Entries a feed holds at most: readers ask for the whole of it again and again."""
_ATOM: Final = "http://www.w3.org/2005/Atom"
_XML_LANG: Final = "{http://www.w3.org/XML/1998/namespace}lang"
_TYPES: Final = {"png": "image/png", "webp": "image/webp"}


def feed(frame: Frame) -> Iterator[Page]:
    """The feed of an edition; none where the archive has no address or the edition no recipe."""
    archive, settings = frame.computed.archive, frame.computed.archive.settings
    newest = sorted(archive.recipes, key=lambda r: (r.revised, r.code), reverse=True)[:NEWEST]
    if not settings.address or not newest:
        return
    root = Element("feed", {"xmlns": _ATOM, _XML_LANG: settings.language})
    _add(root, "id", tag_of(settings, "edition", frame.edition))
    _add(root, "title", _title(frame))
    if settings.summary:
        _add(root, "subtitle", settings.summary)
    _add(root, "updated", _moment(newest[0].revised))
    _add(root, "link", rel="self", type="application/atom+xml", href=address_of(settings, FEED))
    _add(root, "link", rel="alternate", type="text/html", href=address_of(settings, "index.html"))
    _add(SubElement(root, "author"), "name", settings.studio or settings.title)
    if settings.licence:
        _add(root, "rights", settings.licence)
    for recipe in newest:
        _entry(root, recipe, frame)
    indent(root, " ")
    yield Page(path=FEED, content=b'<?xml version="1.0" encoding="utf-8"?>\n' + tostring(root, "utf-8") + b"\n")


def _title(frame: Frame) -> str:
    settings = frame.computed.archive.settings
    several = len(settings.editions) > 1
    return f"{settings.title} ({frame.edition})" if several else settings.title


def _entry(root: Element, recipe: Recipe, frame: Frame) -> None:
    settings, process = frame.computed.archive.settings, process_of(recipe, frame)
    entry = SubElement(root, "entry")
    _add(entry, "id", tag_of(settings, "recipe", recipe.code))
    _add(entry, "title", f"{recipe.code} {recipe.title}")
    _add(entry, "updated", _moment(recipe.revised))
    _add(entry, "link", rel="alternate", type="text/html", href=address_of(settings, recipe_path(recipe.slug)))
    if recipe.image:
        kind = _TYPES.get(recipe.image.file.rpartition(".")[2].lower(), "image/jpeg")
        where = address_of(settings, picture_path(recipe.image.file))
        _add(entry, "link", rel="related", type=kind, href=where, title=recipe.image.alt)
    _add(entry, "category", term=process.id, label=process.name)
    _add(entry, "summary", _summary(recipe), type="text")


def _summary(recipe: Recipe) -> str:
    """What the recipe is, and what its newest revision changed."""
    changed = " ".join(change.told for change in recipe.changes if change.revision == recipe.revision)
    return f"{recipe.summary} Revision {recipe.revision}: {changed}" if changed else recipe.summary


def _add(parent: Element, name: str, text: str = "", **attributes: str) -> None:
    SubElement(parent, name, attributes).text = _printable(text) or None


def _printable(text: str) -> str:
    """The text without control characters, which XML 1.0 cannot hold."""
    return "".join(c for c in text if c >= " " or c in "\t\n")


def _moment(day: date) -> str:
    return f"{day.isoformat()}T00:00:00Z"
