"""A printed page read back from its PDF: its words, its tags, and where each run of text stands."""

import io
import re
from collections.abc import Iterator
from typing import Any

import pypdf


def plain(text: str) -> str:
    """Text without spaces: where a line breaks is the setter's affair."""
    return re.sub(r"\s+", "", text)


def pages(content: bytes) -> list[str]:
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]


def text_of(content: bytes) -> str:
    return plain("".join(pages(content)))


def elements(content: bytes) -> Iterator[Any]:
    """Every element of the structure tree, in reading order."""

    def below(node: Any) -> Iterator[Any]:
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, dict):
            if "/S" in node:
                yield node
            kids = node.get("/K", [])
            kids = kids.get_object() if hasattr(kids, "get_object") else kids
            for kid in kids if isinstance(kids, list) else [kids]:
                yield from below(kid)

    yield from below(pypdf.PdfReader(io.BytesIO(content)).trailer["/Root"]["/StructTreeRoot"])


def placed(content: bytes) -> list[tuple[str, float, float]]:
    """Each run of text with its size in points and its height above the foot of its page."""
    found: list[tuple[str, float, float]] = []

    def visit(text: str, page: list[float], matrix: list[float], _: Any, size: float) -> None:
        if text.strip():
            height = matrix[4] * page[1] + matrix[5] * page[3] + page[5]
            found.append((text, size * abs(matrix[3] * page[3]), height))

    for page in pypdf.PdfReader(io.BytesIO(content)).pages:
        page.extract_text(visitor_text=visit)
    return found
