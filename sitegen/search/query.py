"""Queries: what was typed, as words to seek, words to leave out and phrases. Twin of `search-words.js`."""

import re
from dataclasses import dataclass
from typing import Final

from sitegen.search.words import SMALL, composed, pieces

_QUOTED: Final = re.compile(r'(^|\s)([-−]?)"([^"]*)"?')
_MINUS: Final = re.compile(r"(^|\s)[-−]([^\W\d_]\S*)")
MOST: Final = 12
"""Words that are sought; more are not looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A word sought. `unfinished`: it may still be being typed. `quoted`: alone in quotes, to be met as it stands."""

    text: str
    unfinished: bool = False
    quoted: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Query:
    """What was typed, taken apart."""

    words: tuple[Word, ...]
    without: tuple[str, ...] = ()
    """Words that must not be in a document."""
    phrases: tuple[tuple[str, ...], ...] = ()
    """Words that must follow each other, small ones between them too; the first and the last are not small."""
    not_phrases: tuple[tuple[str, ...], ...] = ()


def parse_query(typed: str) -> Query:
    """Any text is a query; nothing is refused.

    >>> q = parse_query('iron-blue "first bath" -silver')
    >>> [w.text for w in q.words], q.without, q.phrases
    (['iron', 'blue'], ('silver',), (('first', 'bath'),))
    """
    text = composed(typed)
    rows = [(bool(match[2]), _trimmed(words_of(match[3]))) for match in _QUOTED.finditer(text)]
    text = _QUOTED.sub(" ", text)
    rows += [(True, _trimmed(words_of(match[2]))) for match in _MINUS.finditer(text)]
    text = _MINUS.sub(" ", text)
    phrases, not_phrases = (tuple(r for out, r in rows if out is minus and len(r) > 1) for minus in (False, True))
    quoted, without = (tuple(r[0] for out, r in rows if out is minus and len(r) == 1) for minus in (False, True))
    loose = words_of(text)
    last = len(loose) - 1 if text[-1:].strip() else -1
    words = [Word(text=w, unfinished=n == last) for n, w in enumerate(loose)]
    kept = [w for w in words if w.text not in SMALL or (w.unfinished and len(words) == 1)]
    kept += [Word(text=w, quoted=True) for w in quoted]
    return Query(words=tuple(kept[:MOST]), without=without, phrases=phrases, not_phrases=not_phrases)


def _trimmed(row: tuple[str, ...]) -> tuple[str, ...]:
    """A row without the small words at its ends, cut after `MOST`."""
    told = [at for at, word in enumerate(row[:MOST]) if word not in SMALL]
    return row[told[0] : told[-1] + 1] if told else ()


def words_of(text: str) -> tuple[str, ...]:
    """The words of a composed text in a row."""
    return tuple(word for piece in pieces(text) for word in piece.words)
