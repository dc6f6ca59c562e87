"""What search engines are told: sitemap.xml (sitemaps.org, version 0.9) and robots.txt (RFC 9309).

The widest edition is for everybody: it has a sitemap, where the archive has an address. Any other edition asks
robots to stay away; that is a request, not a lock.
"""

from collections.abc import Iterable, Iterator
from datetime import date
from itertools import islice
from typing import Final
from xml.etree.ElementTree import Element, SubElement, indent, tostring

from sitegen.render.address import address_of, widest
from sitegen.render.frame import Frame
from sitegen.render.links import (
    process_path,
    recipe_path,
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


def sitemap(frame: Frame, paths: Iterable[str]) -> Iterator[Page]:
    """What tells robots which pages there are, or to stay away; `paths` are those of every page that is read."""
    settings = frame.computed.archive.settings
    if not widest(settings, frame.edition):
        yield Page(path=ROBOTS, content=b"User-agent: *\nDisallow: /\n")
        return
    if not settings.address:
        return
    root = Element("urlset", {"xmlns": _SCHEMA})
    days = _days(frame)
    for path in islice(paths, MOST):
        url = SubElement(root, "url")
        SubElement(url, "loc").text = address_of(settings, path)
        if day := days.get(path):
            SubElement(url, "lastmod").text = day.isoformat()
    indent(root, " ")
    yield Page(path=SITEMAP, content=b'<?xml version="1.0" encoding="utf-8"?>\n' + tostring(root, "utf-8") + b"\n")
    said = f"User-agent: *\nAllow: /\nSitemap: {address_of(settings, SITEMAP)}\n"
    yield Page(path=ROBOTS, content=said.encode())


def _days(frame: Frame) -> dict[str, date]:
    """The day a page changed, by its path, where that is known."""
    archive = frame.computed.archive
    days = {path: r.revised for r in archive.recipes for path in (recipe_path(r.slug), troubles_path(r.slug))}
    days |= {process_path(name): max(r.revised for r in held) for name, held in frame.cross.grouped.items()}
    days |= {trial_path(trial.slug): trial.date for trial in archive.trials}
    if archive.trials:
        days[verdict_path(None)] = max(trial.date for trial in archive.trials)
    if archive.recipes:
        days["index.html"] = max(r.revised for r in archive.recipes)
    return days
