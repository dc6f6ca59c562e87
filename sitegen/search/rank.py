"""Ranking: documents by how well they answer, the same here and in the browser (`search-rank.js`).

Everything is whole numbers, so that both give the same order to the last place. A document's score
is the sum, over the words sought, of the best of each word's meanings: sureness x rarity x weight;
that sum is then reduced by up to a third, by the share of the words' rarity that the document lacks.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from sitegen.search.index import place
from sitegen.search.lexicon import JOINED, SURE, Entry, Lexicon, Meant, Shelf
from sitegen.search.query import Query, Word, words_of
from sitegen.search.shards import numbers

Row = tuple[tuple[str, ...], ...]
"""A phrase: for each of its words the forms that stand for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ranked:
    """Documents and scores, best first, with what each word was taken to mean."""

    order: tuple[tuple[int, int], ...]
    """Document and score."""
    meant: tuple[tuple[str, ...], ...]
    """For each word sought, the forms of what it may mean."""
    unknown: tuple[str, ...] = ()
    """Words that are like nothing filed."""


class Finder:
    """A reader of one index."""

    def __init__(self, shelf: Shelf) -> None:
        """`shelf` gives every shard by its name."""
        self._shelf = shelf
        self._lexicon = Lexicon(shelf)

    def rank(self, query: Query, allowed: Callable[[int], bool] = lambda _: True) -> Ranked:
        """Every document that answers. Equal scores keep the order of the documents."""
        groups = self._groups(query)
        best = [self._best(group, whole=word.quoted) for group, word in zip(groups, query.words, strict=True)]
        weights = [max((m.entry.rarity for m in group), default=0) for group in groups]
        total = sum(weights) or 1
        out = self._left_out(query)
        scores: dict[int, int] = {}
        share: dict[int, int] = {}
        for found, weight in zip(best, weights, strict=True):
            for document, score in found.items():
                scores[document] = scores.get(document, 0) + score
                share[document] = share.get(document, 0) + weight
        needed = [set(found) for found, word in zip(best, query.words, strict=True) if word.quoted]
        order = [
            (document, score * (2 * total + share[document]) // (3 * total))
            for document, score in scores.items()
            if document not in out and allowed(document) and all(document in found for found in needed)
        ]
        order.sort(key=lambda each: (-each[1], each[0]))
        return Ranked(
            order=tuple(self._with_phrases(order, query)),
            meant=tuple(tuple(f for m in group for f in m.entry.forms) for group in groups),
            unknown=tuple(w.text for w, group in zip(query.words, groups, strict=True) if not group),
        )

    def document(self, number: int) -> Any:
        """What is shown of a document: kind, title, code, path, texts, what it holds."""
        shard, at = place(number, self._shelf("index")["places"])
        return self._shelf(f"d{shard}")[at]

    def _groups(self, query: Query) -> list[list[Meant]]:
        """The meanings of each word; two words that are filed as one share that meaning."""
        groups = [self._lexicon.meanings(word) for word in query.words]
        for at, (one, other) in enumerate(zip(query.words, query.words[1:], strict=False)):
            for meant in self._as_one(one, other):
                for group in groups[at : at + 2]:
                    if all(m.entry.stem != meant.entry.stem for m in group):
                        group.append(meant)
        return groups

    def _as_one(self, one: Word, other: Word) -> list[Meant]:
        if one.quoted or other.quoted:
            return []
        entry = self._lexicon.exactly(one.text + other.text)
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
        """The word's postings; of the commonest words the weightiest only, unless `whole`."""
        where = f"q{entry.whole}" if whole and entry.whole else entry.place.replace("@", "p")
        if where == entry.place:
            return numbers(where, weighed=True)
        lines = self._shelf(where).split("\n")
        return numbers(
            next(line for line in lines if line.startswith(entry.stem + "\t")).partition("\t")[2], weighed=True
        )

    def _left_out(self, query: Query) -> set[int]:
        out: set[int] = set()
        for word in query.without:
            entry = self._lexicon.exactly(word)
            if entry:
                out |= {document for document, _ in self._postings(entry, whole=True)}
        return out

    def _with_phrases(self, order: list[tuple[int, int]], query: Query) -> list[tuple[int, int]]:
        """Those of the first documents that hold every phrase and none that is to be left out."""
        if not (query.phrases or query.not_phrases):
            return order
        looked = self._shelf("index")["looked"]
        wanted, unwanted = ([self._forms(row) for row in rows] for rows in (query.phrases, query.not_phrases))
        return [each for each in order[:looked] if self._says(each[0], wanted, unwanted)]

    def _forms(self, row: tuple[str, ...]) -> Row:
        """For each word of a phrase every form that stands for it; small words have no other."""
        entries = ((word, self._lexicon.exactly(word)) for word in row)
        return tuple(entry.forms if entry else (word,) for word, entry in entries)

    def _says(self, number: int, wanted: Iterable[Row], unwanted: Iterable[Row]) -> bool:
        _, title, code, _, texts, _ = self.document(number)
        rows = [words_of(text) for text in (title, code, *(text for _, text in texts))]

        def said(sought: Row) -> bool:
            return any(_follow(row[at:], sought) for row in rows for at in range(len(row) - len(sought) + 1))

        return all(map(said, wanted)) and not any(map(said, unwanted))


def _follow(row: tuple[str, ...], sought: Row) -> bool:
    """Whether a row begins with one of the forms of each word sought."""
    return all(word in forms for word, forms in zip(row, sought, strict=False))
