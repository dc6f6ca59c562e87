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
    """A word sought. `unfinished`: it may still be being typed. `quoted`: as it stands or not at all."""

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
    """Words that must follow each other, small ones too."""
    not_phrases: tuple[tuple[str, ...], ...] = ()

    @property
    def empty(self) -> bool:
        """Whether nothing is sought."""
        return not self.words


def parse_query(typed: str) -> Query:
    """Any text is a query; nothing is refused.

    >>> q = parse_query('iron-blue "first bath" -silver')
    >>> [w.text for w in q.words], q.without, q.phrases
    (['iron', 'blue', 'first', 'bath'], ('silver',), (('first', 'bath'),))
    """
    text = composed(typed)
    quoted: list[Word] = []
    phrases: list[tuple[str, ...]] = []
    not_phrases: list[tuple[str, ...]] = []
    for match in _QUOTED.finditer(text):
        row = words_of(match[3])
        if match[2]:
            not_phrases += [row] if row else []
        elif row:
            phrases += [row] if len(row) > 1 else []
            quoted += [Word(text=w, quoted=True) for w in row]
    text = _QUOTED.sub(" ", text)
    without = [w for match in _MINUS.finditer(text) for w in words_of(match[2])]
    loose = words_of(_MINUS.sub(" ", text))
    last = len(loose) - 1 if text[-1:].strip() else -1
    words = [Word(text=w, unfinished=n == last) for n, w in enumerate(loose)]
    kept = [w for w in (*words, *quoted) if w.text not in SMALL or (w.unfinished and len(words) == 1)]
    return Query(
        words=tuple(kept[:MOST]),
        without=tuple(without),
        phrases=tuple(phrases),
        not_phrases=tuple(not_phrases),
    )


def words_of(text: str) -> tuple[str, ...]:
    """The words of a composed text in a row."""
    return tuple(word for piece in pieces(text) for word in piece.words)
