"""Ranking: documents by how well they answer, the same here and in the browser (`search-rank.js`).

Everything is whole numbers, so that both give the same order to the last place. A document's score
is the sum, over the words sought, of the best of each word's meanings: sureness x rarity x weight;
that sum is then reduced by up to a third, by the share of the words' rarity that the document lacks.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from sitegen.search.index import place
from sitegen.search.lexicon import JOINED, SURE, Entry, Lexicon, Meant, Shelf, sure
from sitegen.search.query import Query, Word
from sitegen.search.shards import line_of, numbers
from sitegen.search.words import neighbours


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """Documents and scores, best first, with what each word was taken to mean."""

    order: tuple[tuple[int, int], ...]
    """Document and score."""
    meant: tuple[tuple[str, ...], ...]
    """For each word sought, and then each two neighbours of a phrase, the forms of what it may mean."""
    unknown: tuple[str, ...] = ()
    """Words that are like nothing filed, and neighbours that nowhere stand so."""


class Finder:
    """A reader of one index."""

    def __init__(self, shelf: Shelf) -> None:
        """`shelf` gives every shard by its name."""
        self._shelf = shelf
        self._lexicon = Lexicon(shelf)

    def rank(self, query: Query, allowed: Callable[[int], bool] = lambda _: True) -> Ranked:
        """Every document that answers. Equal scores keep the order of the documents."""
        together = [each for row in query.phrases for each in neighbours(row)]
        sought = [*query.words, *(Word(text=" ".join(row), quoted=True) for row in together)]
        groups = [*self._groups(query.words), *(sure(self._lexicon.together(row)) for row in together)]
        best = [self._best(group, whole=word.quoted) for group, word in zip(groups, sought, strict=True)]
        weights = [max((m.entry.rarity for m in group), default=0) for group in groups]
        total = sum(weights)
        out = self._left_out(query)
        scores: dict[int, int] = {}
        share: dict[int, int] = {}
        for found, weight in zip(best, weights, strict=True):
            for document, score in found.items():
                scores[document] = scores.get(document, 0) + score
                share[document] = share.get(document, 0) + weight
        needed = [found for found, word in zip(best, sought, strict=True) if word.quoted]
        order = [
            (document, score * (2 * total + share[document]) // (3 * total))
            for document, score in scores.items()
            if document not in out and allowed(document) and all(document in found for found in needed)
        ]
        order.sort(key=lambda each: (-each[1], each[0]))
        return Ranked(
            order=tuple(order),
            meant=tuple(tuple(f for m in group for f in m.entry.forms) for group in groups),
            unknown=tuple(w.text for w, group in zip(sought, groups, strict=True) if not group),
        )

    def document(self, number: int) -> Any:
        """What is shown of a document: kind, title, code, path, texts, what it holds."""
        shard, at = place(number, self._shelf("index")["places"])
        return self._shelf(f"d{shard}")[at]

    def _groups(self, words: Sequence[Word]) -> list[list[Meant]]:
        """The meanings of each word; two words that are filed as one share that meaning."""
        groups = [self._lexicon.meanings(word) for word in words]
        for at, (one, other) in enumerate(pairwise(words)):
            for meant in self._as_one(one, other):
                for group in groups[at : at + 2]:
                    if all(m.entry.stem != meant.entry.stem for m in group):
                        group.append(meant)
        return groups

    def _as_one(self, one: Word, other: Word) -> list[Meant]:
        if one.quoted or other.quoted:
            return []
        entry = self._lexicon.exactly(one.text + other.text, 1)
        if entry:
            return [Meant(entry, JOINED)]
        return self._lexicon.begun(one.text + other.text, None)[:2] if other.unfinished else []

    def _best(self, group: list[Meant], *, whole: bool) -> dict[int, int]:
        """For each document the best of the meanings; guesses count no rarer than the commonest of them."""
        rarity = min((m.entry.rarity for m in group if m.surely != JOINED), default=0)
        best: dict[int, int] = {}
        for meant in group:
            rare = meant.entry.rarity if meant.surely in (SURE, JOINED) else rarity
            for document, weight in self._postings(meant.entry, whole=whole):
                score = meant.surely * rare * weight
                if score > best.get(document, 0):
                    best[document] = score
        return best

    def _postings(self, entry: Entry, *, whole: bool) -> Iterator[tuple[int, int]]:
        """The word's postings; of the commonest words the weightiest, and where `whole`, all others as the lightest."""
        place = entry.place
        yield from numbers(self._line(place[1:], entry) if place[0] == "@" else place, weighed=True)
        if whole and entry.whole:
            yield from numbers(self._line(entry.whole, entry), weighed=False)

    def _line(self, shard: str, entry: Entry) -> str:
        found = line_of(self._shelf(shard), entry.stem)
        assert found is not None, "a word's postings are where its entry says"
        return found

    def _left_out(self, query: Query) -> set[int]:
        words = [[self._lexicon.exactly(word)] for word in query.without]
        phrases = [[self._lexicon.together(each) for each in neighbours(row)] for row in query.not_phrases]
        return {document for found in (*words, *phrases) for document in self._having(found)}

    def _having(self, entries: Iterable[Entry | None]) -> set[int]:
        """The documents that have every one of some entries."""
        return set.intersection(*(set(self._best(sure(entry), whole=True)) for entry in entries))
