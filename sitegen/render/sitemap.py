"""What search engines are told: sitemap.xml (sitemaps.org, version 0.9) and robots.txt (RFC 9309).

The widest edition is for everybody: it has a sitemap, where the archive has an address. Any other edition asks
robots to stay away; that is a request, not a lock.
"""

from collections.abc import Iterator
from datetime import date
from typing import Final
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from sitegen.render.address import address_of, widest
from sitegen.render.cross import by_title
from sitegen.render.frame import Frame
from sitegen.render.links import (
    DISPUTES,
    SHEETS,
    process_path,
    recipe_path,
    substance_path,
    trial_path,
    troubles_path,
    verdict_path,
)
from sitegen.render.page import Page

SITEMAP: Final = "sitemap.xml"
ROBOTS: Final = "robots.txt"
MOST: Final = 50_000
"""Addresses one sitemap may hold, by its rules; recipes come first."""
_SCHEMA: Final = "http://www.sitemaps.org/schemas/sitemap/0.9"


def sitemap(frame: Frame) -> Iterator[Page]:
    """What tells robots which pages there are, or to stay away."""
    settings = frame.computed.archive.settings
    if not widest(settings, frame.edition):
        yield Page(path=ROBOTS, content=b"User-agent: *\nDisallow: /\n")
        return
    if not settings.address:
        return
    root = Element("urlset", {"xmlns": _SCHEMA})
    for path, day in list(_paths(frame))[:MOST]:
        url = SubElement(root, "url")
        SubElement(url, "loc").text = address_of(settings, path)
        if day:
            SubElement(url, "lastmod").text = day.isoformat()
    indent(root, " ")
    yield Page(path=SITEMAP, content=b'<?xml version="1.0" encoding="utf-8"?>\n' + tostring(root, "utf-8") + b"\n")
    said = f"User-agent: *\nAllow: /\nSitemap: {address_of(settings, SITEMAP)}\n"
    yield Page(path=ROBOTS, content=said.encode())


def _paths(frame: Frame) -> Iterator[tuple[str, date | None]]:
    """Every page of the edition with the day it changed, where that is known."""
    archive = frame.computed.archive
    yield "index.html", max((r.revised for r in archive.recipes), default=None)
    for recipe in by_title(archive.recipes):
        yield recipe_path(recipe.slug), recipe.revised
        yield troubles_path(recipe.slug), recipe.revised
    for process in archive.settings.processes:
        if recipes := frame.cross.grouped.get(process.id):
            yield process_path(process.id), max(r.revised for r in recipes)
    if archive.trials:
        yield verdict_path(None), max(trial.date for trial in archive.trials)
    for trial in archive.trials:
        yield trial_path(trial.slug), trial.date
    for path in ("troubles/index.html", SHEETS, "bench/index.html", "water/index.html", "substances/index.html"):
        yield path, None
    if any(recipe.disputes for recipe in archive.recipes):
        yield DISPUTES, None
    for card in archive.substances:
        yield substance_path(card.id), None
