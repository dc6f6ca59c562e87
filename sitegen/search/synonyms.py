"""Synonyms: words of the trade that mean one thing. Where they are written is `read/synonyms.py`.

They are added to a document when it is filed, so that the browser needs no table. Names of substances
stand on their cards and not here.
"""

from functools import lru_cache

from sitegen.search.query import holds_row, phrase
from sitegen.search.words import composed

Groups = tuple[tuple[str, ...], ...]
"""Names that say the same, a group each."""


def beside(text: str, groups: Groups) -> tuple[str, ...]:
    """The other names of what a text names, in order, once each.

    >>> beside("A sun print of grasses", (("blue print", "sun print", "cyanotype"),))
    ('blue print', 'cyanotype')
    """
    row = phrase(composed(text))
    held = set(row)
    found: dict[str, None] = {}
    for group in groups:
        said = {name for name, stems in _rows(group) if held.issuperset(stems) and holds_row(row, stems)}
        if said:
            found.update(dict.fromkeys(name for name in group if name not in said))
    return tuple(found)


@lru_cache(maxsize=1024)
def _rows(group: tuple[str, ...]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    return tuple((name, phrase(name)) for name in group)
