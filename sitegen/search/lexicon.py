"""The lexicon: which filed words a typed word may mean, and how surely. Twin of `search-rank.js`.

The word as it is; what it may become while it is typed; failing both, words a slip or two away.
Only the shards that may hold one of those are asked for.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from sitegen.search.near import FAR, slips, slips_allowed
from sitegen.search.query import Word
from sitegen.search.words import stem

Shelf = Callable[[str], Any]
"""Gives what a shard holds, by its name."""

SURE: Final = 100
BEGUN: Final = 60
"""A word that the typed letters begin."""
SLIPPED: Final = (0, 64, 40)
"""A word so many slips away."""
JOINED: Final = 90
"""Two typed words that are filed as one."""
MOST_BEGUN: Final = 12
MOST_NEAR: Final = 6
SHARDS: Final = 3
"""Shards of words that are looked through for one typed word."""
LAST: Final = "\uffff"


@dataclass(frozen=True, slots=True)
class Entry:
    """A filed word: its stem, forms, rarity in hundredths, number of documents and where its postings are.

    `whole` is the `q` shard of all its postings where only the weightiest are at `place`, else ''.
    """

    stem: str
    forms: tuple[str, ...]
    rarity: int
    documents: int
    place: str
    whole: str


@dataclass(frozen=True, slots=True)
class Meant:
    """A filed word that a typed one may mean, and how surely, in hundredths."""

    entry: Entry
    surely: int


def entries(text: str) -> Iterator[Entry]:
    """The words of a `w` shard."""
    for line in text.split("\n"):
        word, forms, rarity, documents, place, whole = line.split("\t")
        spelled = tuple(f[1:] if f.startswith("!") else word + f for f in forms.split(","))
        yield Entry(word, spelled, int(rarity), int(documents), place, whole)


class Lexicon:
    """The words of an index, read from its shards as they are needed."""

    def __init__(self, shelf: Shelf) -> None:
        """`shelf` gives every shard by its name."""
        self._shelf = shelf
        self._read: dict[int, tuple[Entry, ...]] = {}
        self._starts: list[str] = shelf("index")["words"]
        self._ends: list[str] = shelf("index")["ends"]

    def meanings(self, word: Word) -> list[Meant]:
        """What a typed word may mean, surest first; nothing when it is like no filed word."""
        own = self.exactly(word.text)
        sure = [Meant(own, SURE)] if own else []
        if word.quoted:
            return sure
        begun = self.begun(word.text) if word.unfinished or not own else []
        return sure + begun or self._near(word) or self._near_by_ending(word)

    def exactly(self, text: str) -> Entry | None:
        """The entry of the word's stem."""
        key = stem(text)
        return next((e for e in self._between(key, key) if e.stem == key), None)

    def begun(self, text: str) -> list[Meant]:
        """Words that the letters begin, the most frequent ones; one letter begins too many."""
        if len(text) < 2:
            return []
        own = stem(text)
        near = (e for e in self._between(text[:3], text + LAST) if e.stem != own)
        found = [entry for entry in near if any(form.startswith(text) for form in entry.forms)]
        found.sort(key=lambda e: (-e.documents, e.stem))
        return [Meant(entry, BEGUN) for entry in found[:MOST_BEGUN]]

    def _near(self, word: Word) -> list[Meant]:
        most = slips_allowed(word.text)
        if not most:
            return []
        found = []
        for entry in self._between(word.text[:2], word.text[:2] + LAST, word.text):
            by = min(slips(word.text, form, most, unfinished=word.unfinished) for form in entry.forms)
            if by != FAR:
                found.append((by, entry))
        return _nearest(found)

    def _near_by_ending(self, word: Word) -> list[Meant]:
        """Words with a slip in their first letters."""
        most = slips_allowed(word.text)
        if not most:
            return []
        turned = word.text[::-1]
        found: dict[str, int] = {}
        for shard in self._shards(self._ends, turned[:3], turned[:3] + LAST, turned)[: SHARDS - 1]:
            for line in self._shelf(f"e{shard}").split("\n"):
                form, _, key = line.partition("\t")
                by = slips(turned, form, most, unfinished=False)
                if by != FAR:
                    found[key] = min(by, found.get(key, FAR))
        nearest = sorted(found, key=lambda key: (found[key], key))[:MOST_NEAR]
        met = [(found[key], e) for key in nearest for e in self._between(key, key) if e.stem == key]
        return _nearest(met)

    def _between(self, low: str, high: str, about: str = "") -> Iterator[Entry]:
        for shard in self._shards(self._starts, low, high, about or high):
            if shard not in self._read:
                self._read[shard] = tuple(entries(self._shelf(f"w{shard}")))
            yield from self._read[shard]

    @staticmethod
    def _shards(starts: list[str], low: str, high: str, about: str) -> list[int]:
        """The shards that may hold words from low to high, those around `about` when they are too many."""
        if not starts:
            return []
        first = max(0, bisect_right(starts, low) - 1)
        last = max(first, bisect_right(starts, high) - 1)
        if last - first >= SHARDS:
            middle = max(first, bisect_right(starts, about.removesuffix(LAST)) - 1)
            first = max(first, min(middle - SHARDS // 2, last - SHARDS + 1))
            last = first + SHARDS - 1
        return list(range(first, last + 1))


def _nearest(found: list[tuple[int, Entry]]) -> list[Meant]:
    """Those with the fewest slips only, the most frequent first."""
    least = min((by for by, _ in found), default=FAR)
    best = sorted((e for by, e in found if by == least), key=lambda e: (-e.documents, e.stem))
    return [Meant(entry, SLIPPED[least]) for entry in best[:MOST_NEAR]]
