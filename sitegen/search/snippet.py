"""Snippets: where a document was matched, and the passage that shows it. Twin of `search.js`."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from sitegen.search.words import Piece, pieces

WIDTH: Final = 150
"""Signs a snippet may have."""
LEAD: Final = 36
"""Signs before the first marked word."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Snippet:
    """A passage: the field it stands in, its text cut into unmarked and marked stretches in turn."""

    field: str
    stretches: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Hit:
    start: int
    end: int
    words: frozenset[int]


def snippet(texts: Iterable[tuple[str, str]], meant: Sequence[Iterable[str]], fields: Sequence[str]) -> Snippet | None:
    """The passage with most of the words sought, of the weightiest field; None when none has any.

    `meant` are the forms that each word sought may have, `fields` the names of the fields, weightiest first.
    """
    best: tuple[tuple[int, int], str, str, list[_Hit]] | None = None
    wanted: dict[str, set[int]] = {}
    for number, forms in enumerate(meant):
        for each in forms:
            wanted.setdefault(each, set()).add(number)
    for name, text in texts:
        hits = [hit for piece in pieces(text) if (hit := _hit(piece, wanted)).words]
        if hits:
            worth = (len(frozenset().union(*(h.words for h in hits))), -fields.index(name))
            if best is None or worth > best[0]:
                best = worth, name, text, hits
    return Snippet(field=best[1], stretches=_cut(best[2], best[3])) if best else None


def _hit(piece: Piece, wanted: dict[str, set[int]]) -> _Hit:
    found = [wanted.get(word, set()) for word in (*piece.words, *piece.beside)]
    return _Hit(piece.start, piece.end, frozenset().union(*found))


def _cut(text: str, hits: list[_Hit]) -> tuple[str, ...]:
    """The window that shows most different words, from a little before its first."""

    def shown(first: _Hit) -> int:
        inside = (h.words for h in hits if first.start <= h.start and h.end <= first.start + WIDTH - LEAD)
        return len(frozenset().union(*inside))

    first = max(hits, key=shown)
    start = text.rfind(" ", 0, max(0, first.start - LEAD)) + 1 if first.start > LEAD else 0
    end = len(text) if len(text) - start <= WIDTH else max(text.rfind(" ", start, start + WIDTH), first.end)
    stretches, at = [], start
    for hit in hits:
        if at <= hit.start and hit.end <= end:
            stretches += [text[at : hit.start], text[hit.start : hit.end]]
            at = hit.end
    stretches.append(text[at:end])
    stretches[0] = ("… " if start else "") + stretches[0]
    stretches[-1] += " …" if end < len(text) else ""
    return tuple(stretches)
