"""A sealed edition: its files as containers behind one page that asks for the passphrase.

What lies open: that page, the theme's own files (the same for everybody) and the mark of a build. What can
still be told from outside is the archive's title, the edition's name, how many passphrases there are, roughly how
many files (to the next 64) and roughly how large each is.
"""

import base64
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from sitegen.read.theme import Theme
from sitegen.render.edition import Edition
from sitegen.render.frame import Frame, data_block, frame
from sitegen.render.page import Page
from sitegen.sealing.container import Content, name_of, seal
from sitegen.sealing.keys import Keys, Wrapped, new_keys, wrap_all
from sitegen.sealing.passphrase import Randomness

TYPES: Final = {
    "html": "text/html", "js": "text/javascript", "css": "text/css", "json": "application/json",
    "pdf": "application/pdf", "png": "image/png", "jpg": "image/jpeg", "jpeg": "image/jpeg", "webp": "image/webp",
    "svg": "image/svg+xml", "ics": "text/calendar", "xml": "application/xml", "atom": "application/atom+xml",
}  # fmt: skip
CROWD: Final = 64
"""Containers are filled up with empty ones to a multiple of this, so that the number of pages does not show."""
MARK: Final = "archive.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Sealing:
    """The keys of one compile of one edition, their copies, and where nonces come from."""

    keys: Keys
    copies: tuple[Wrapped, ...]
    random: Randomness


def sealing(passphrases: Iterable[str], random: Randomness) -> Sealing:
    """Fresh keys, and a copy of them for each passphrase."""
    keys = new_keys(random)
    return Sealing(keys=keys, copies=wrap_all(keys, passphrases, random), random=random)


def sealed_edition(edition: Edition, pages: Iterable[Page], theme: Theme, sealing: Sealing) -> Iterator[Page]:
    """All files of an edition sealed, lazily, with the page that opens them."""
    return sealed_pages(pages, frame(edition.computed, theme, edition.name), theme, sealing)


def sealed_pages(pages: Iterable[Page], framed: Frame, theme: Theme, sealing: Sealing) -> Iterator[Page]:
    """The edition's `pages` sealed, lazily, with the page that opens them."""
    clear = {f"assets/{name}": content for name, content in theme.assets.items()}
    yield _opening(framed, sorted(clear), sealing)
    yield _mark(framed)
    count = 0
    for page in pages:
        if page.path in clear:
            assert page.content == clear[page.path], f"{page.path} is not the theme's"
            yield page
        else:
            count += 1
            yield _container(page, sealing)
    for n in range(-count % CROWD):
        yield _container(Page(path=f"{n}.crowd", content=b""), sealing)


def _container(page: Page, sealing: Sealing) -> Page:
    """A classic script that hands over its bytes: over file:// nothing else can be loaded."""
    kind = TYPES.get(page.path.rpartition(".")[2].lower(), "application/octet-stream")
    content = Content(path=page.path, type=kind, data=page.content)
    name = name_of(page.path, sealing.keys)
    text = _text(seal(content, sealing.keys, sealing.random))
    return Page(path=f"sealed/{name}.js", content=f'traysideSealed("{name}","{text}");\n'.encode())


def _opening(framed: Frame, clear: list[str], sealing: Sealing) -> Page:
    copies = [
        {"salt": _text(c.salt), "nonce": _text(c.nonce), "sealed": _text(c.sealed), "rounds": c.rounds}
        for c in sealing.copies
    ]
    about = {"edition": framed.edition, "copies": copies, "clear": clear}
    return framed.page("sealed.html", "index.html", title=_name(framed), keys=data_block(about))


def _mark(framed: Frame) -> Page:
    title = framed.computed.archive.settings.title
    listed: dict[str, Any] = {"title": title, "edition": framed.edition, "sealed": True}
    return Page(path=MARK, content=(json.dumps(listed, ensure_ascii=False, indent=1) + "\n").encode())


def _name(framed: Frame) -> str:
    return framed.computed.archive.settings.audience(framed.edition).name


def _text(data: bytes) -> str:
    return base64.b64encode(data).decode()
