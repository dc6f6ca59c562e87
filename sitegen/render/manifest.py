"""The manifest: every file of a build with its SHA-256, so that what is online can be compared with what was compiled.

It is made last, from the very bytes that are written; it names itself in no line.
"""

import hashlib
import json
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from sitegen.problems import Refusal
from sitegen.render.page import Page

MANIFEST: Final = "manifest.json"
Hashes = Mapping[str, str]
"""By path: the SHA-256 in hexadecimal."""


def with_manifest(pages: Iterable[Page]) -> Iterator[Page]:
    """The pages as they come, lazily, and their manifest at the end."""
    found: dict[str, str] = {}
    for page in pages:
        found[page.path] = hash_of(page.content)
        yield page
    text = json.dumps({"sha256": dict(sorted(found.items()))}, ensure_ascii=False, indent=0) + "\n"
    yield Page(path=MANIFEST, content=text.encode())


def hash_of(content: bytes) -> str:
    """The SHA-256 in hexadecimal."""
    return hashlib.sha256(content).hexdigest()


def read_manifest(content: bytes, name: str) -> dict[str, str]:
    """What a manifest lists. `Refusal` when it is none; a path that leads out of its folder makes it none."""
    try:
        listed = json.loads(content.decode())["sha256"]
        found = {str(path): str(value) for path, value in listed.items()}
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise _none(name) from error
    if not all(_inside(path) for path in found):
        raise _none(name)
    return found


def _inside(path: str) -> bool:
    parts = path.split("/")
    return not any(part in ("", ".", "..") for part in parts) and not {"\\", ":", "\0"} & set(path)


def _none(name: str) -> Refusal:
    return Refusal(
        "manifest-not-read", f"`{name}` is no manifest of a build", "compile again, and copy the whole folder"
    )
