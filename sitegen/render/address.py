"""Addresses: where on the web a page of the archive lies, and names that last longer than an address.

Only where `address` is set in archive.yaml: without one nothing here is known, and '' is answered.
"""

from typing import Final
from urllib.parse import quote, urlsplit

from sitegen.model.archive import Settings

TAGGED: Final = "2026"
"""The year of every tag (RFC 4151). It never changes: an entry must keep its name when the archive is built again."""

LONGEST: Final = 64
"""Characters of an address that somebody types from paper."""

_FIRST: Final = "index.html"


def address_of(settings: Settings, path: str) -> str:
    """A page's whole address, or '' where the archive has none: for links, feeds, printed lines and QR codes alike.

    It names the file, `index.html` too, since not every store serves that for its folder. In a sealed edition
    nothing lies under a page's own name: the page that asks for the passphrase is told which to open.

    >>> address_of(Settings(title="Mill", address="https://mill.example/"), "recipes/a/index.html")
    'https://mill.example/recipes/a/index.html'
    >>> address_of(Settings(title="Mill", address="https://mill.example/", sealed=True), "recipes/a/index.html")
    'https://mill.example/index.html#/recipes/a/index.html'
    """
    if not settings.address:
        return ""
    way = f"{_FIRST}#/{path}" if settings.sealed and path != _FIRST else path
    return f"{settings.address.rstrip('/')}/{quote(way, safe='/#')}"


def printed_address(address: str) -> str:
    """An address as it is read off paper: without what a browser adds; a long one shows that there is more of it.

    >>> printed_address("https://doi.org/10.1098/rstl.1842.0013")
    'doi.org/10.1098/rstl.1842.0013'
    >>> printed_address("http://mill.example/")
    'mill.example'
    >>> printed_address("https://mill.example/" + 60 * "a")
    'mill.example/…'
    """
    place = urlsplit(address)
    whole = address.removeprefix(f"{place.scheme}://").rstrip("/")
    return whole if len(whole) <= LONGEST else f"{place.netloc}/…"


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
