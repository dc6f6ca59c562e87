"""Addresses: where on the web a page of the archive lies, and names that last longer than an address.

Only where `address` is set in archive.yaml: without one nothing here is known, and '' is answered.
"""

from typing import Final
from urllib.parse import quote, urlsplit

from sitegen.model.archive import Settings

TAGGED: Final = "2026"
"""The year of every tag (RFC 4151). It never changes: an entry must keep its name when the archive is built again."""


def address_of(settings: Settings, path: str) -> str:
    """A page's whole address, or '' where the archive has none.

    >>> address_of(Settings(title="Mill", address="https://mill.example/"), "recipes/a/index.html")
    'https://mill.example/recipes/a/index.html'
    """
    return f"{settings.address.rstrip('/')}/{quote(path, safe='/#')}" if settings.address else ""


def tag_of(settings: Settings, *parts: str) -> str:
    """A tag URI (RFC 4151) for a thing of this archive: made from the host's name, no clock and no build in it.

    >>> tag_of(Settings(title="Mill", address="https://Mill.example/a/"), "recipe", "IB-07")
    'tag:mill.example,2026:a/recipe/IB-07'
    """
    place = urlsplit(settings.address)
    path = [part for part in place.path.split("/") if part]
    return f"tag:{(place.hostname or '').lower()},{TAGGED}:" + "/".join(quote(p, safe="") for p in (*path, *parts))


def widest(settings: Settings, edition: str) -> bool:
    """Whether the edition is the one for everybody: only that is shown to search engines."""
    return edition == settings.editions[0]
