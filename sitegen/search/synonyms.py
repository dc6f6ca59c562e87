"""Synonyms: words of the trade that mean one thing. Where they are written is `read/synonyms.py`.

They are added to a document when it is filed, so that the browser needs no table. Names of substances
stand on their cards and not here.
"""

from functools import lru_cache

from sitegen.search.query import words_of
from sitegen.search.words import composed, stem

Groups = tuple[tuple[str, ...], ...]
"""Names that say the same, a group each."""


def beside(text: str, groups: Groups) -> tuple[str, ...]:
    """The other names of what a text names, in order, once each.

    >>> beside("A sun print of grasses", (("blue print", "sun print", "cyanotype"),))
    ('blue print', 'cyanotype')
    """
    row = _stems(composed(text))
    held = set(row)
    found: dict[str, None] = {}
    for group in groups:
        said = {name for name, stems in _rows(group) if held.issuperset(stems) and _holds(row, stems)}
        if said:
            found.update(dict.fromkeys(name for name in group if name not in said))
    return tuple(found)


@lru_cache(maxsize=1024)
def _rows(group: tuple[str, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((name, _stems(name)) for name in group)


def _stems(text: str) -> tuple[str, ...]:
    return tuple(stem(word) for word in words_of(text))


def _holds(row: tuple[str, ...], sought: tuple[str, ...]) -> bool:
    """Whether the stems sought follow each other in a row of stems."""
    size = len(sought)
    return any(row[at : at + size] == sought for at in range(len(row) - size + 1))
