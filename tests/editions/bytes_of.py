"""Every byte of a build, unpacked: what a curious reader could get at."""

import io
import json
import re
import zipfile
from collections.abc import Iterator
from html import unescape
from pathlib import Path

import pypdf
from pypdf.generic import IndirectObject, StreamObject

PICTURES = (".png", ".jpg", ".jpeg", ".webp")
ESCAPED = re.compile(r"\\u([0-9a-fA-F]{4})")
PACKED = (*PICTURES, ".pdf", ".zip", ".epub")


def everything(folder: Path) -> Iterator[tuple[str, bytes]]:
    """A name and bytes for every file, for its name, and for whatever is packed in it; hidden files, too."""
    for path in sorted(folder.rglob("*")):
        name = path.relative_to(folder).as_posix()
        yield name, name.encode()
        if path.is_file():
            yield from unpacked(name, path.read_bytes())


def unpacked(name: str, content: bytes) -> Iterator[tuple[str, bytes]]:
    """The content, and what is inside it."""
    yield name, content
    if name.endswith(".pdf"):
        yield from in_pdf(name, content)
    if name.endswith((".zip", ".epub")):
        with zipfile.ZipFile(io.BytesIO(content)) as bundle:
            for inner in bundle.namelist():
                yield f"{name}!", inner.encode()
                yield from unpacked(f"{name}!{inner}", bundle.read(inner))
    if name.endswith((".json", ".js", ".html")):
        # What JSON and HTML may write by number is read as it is meant.
        yield f"{name} (read)", ESCAPED.sub(lambda found: chr(int(found[1], 16)), unescape(content.decode())).encode()
    if name.endswith(".json"):
        yield f"{name} (parsed)", repr(json.loads(content)).encode()


def in_pdf(name: str, content: bytes) -> Iterator[tuple[str, bytes]]:
    """Text of every page, metadata, and every stream unpacked."""
    reader = pypdf.PdfReader(io.BytesIO(content))
    text = "".join(page.extract_text() for page in reader.pages)
    yield f"{name} (text)", text.encode()
    yield f"{name} (text without breaks)", "".join(text.replace("-\n", "").split()).encode()
    yield f"{name} (about)", repr(dict(reader.metadata or {})).encode()
    for number in range(1, len(reader.xref[0]) + len(reader.xref_objStm) + 1 if 0 in reader.xref else 1):
        held = reader.get_object(IndirectObject(number, 0, reader))
        if isinstance(held, StreamObject):
            yield f"{name} (stream {number})", held.get_data()
        yield f"{name} (object {number})", repr(held).encode()
