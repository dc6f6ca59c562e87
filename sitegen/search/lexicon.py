"""The lexicon: which filed words a typed word may mean, and how surely. Twin of `search-rank.js`.

The word as it is; what it may become while it is typed; failing both, words a slip or two away.
Only the shards that may hold one of those are asked for.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from sitegen.search.near import FAR, slips, slips_allowed
from sitegen.search.query import Word
from sitegen.search.words import beginning, unbent

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
        found = sure + (self.begun(word.text, own) if word.unfinished or not own else [])
        if found or not slips_allowed(word.text):
            return found
        return _nearest(word, self._around(word.text, word.text[:2])) or _nearest(word, self._by_ending(word.text))

    def exactly(self, text: str) -> Entry | None:
        """The entry that the word is a form of; failing that, one with a form that only ends otherwise."""
        held = self._around(text, beginning(text))
        own = (e for e in held if text in e.forms)
        return next(own, None) or next((e for e in held if unbent(text) in map(unbent, e.forms)), None)

    def begun(self, text: str, own: Entry | None) -> list[Meant]:
        """Words other than `own` that the letters begin, the most frequent ones; one letter begins too many."""
        if len(text) < 2:
            return []
        held = self._around(text, beginning(text))
        found = [e for e in held if e is not own and any(form.startswith(text) for form in e.forms)]
        return [Meant(entry, BEGUN) for entry in sorted(found, key=_frequent)[:MOST_BEGUN]]

    def _by_ending(self, text: str) -> list[Entry]:
        """Words with a slip in their first letters."""
        turned = text[::-1]
        shards = self._shards(self._ends, turned[:3], turned)[: SHARDS - 1]
        forms = [form for shard in shards for form in self._shelf(f"e{shard}").split("\n")]
        most = slips_allowed(text)
        far = ((slips(turned, form, most, unfinished=False), form) for form in forms)
        nearest = sorted(each for each in far if each[0] != FAR)[:MOST_NEAR]
        return list(dict.fromkeys(e for _, form in nearest if (e := self.exactly(form[::-1]))))

    def _around(self, text: str, start: str) -> list[Entry]:
        """The words that begin so, those next to `text` when they are many."""
        shards = self._shards(self._starts, start, text)
        for shard in shards:
            if shard not in self._read:
                self._read[shard] = tuple(entries(self._shelf(f"w{shard}")))
        return [entry for shard in shards for entry in self._read[shard]]

    @staticmethod
    def _shards(starts: list[str], start: str, about: str) -> list[int]:
        """The shards that may hold words with that start, those around `about` when they are too many."""
        if not starts:
            return []
        first, middle, last = (max(0, bisect_right(starts, word) - 1) for word in (start, about, start + LAST))
        low = max(first, min(middle - SHARDS // 2, last - SHARDS + 1))
        return list(range(low, min(last, low + SHARDS - 1) + 1))


def _nearest(word: Word, held: Iterable[Entry]) -> list[Meant]:
    """Those with the fewest slips only, the most frequent first."""
    most = slips_allowed(word.text)
    by = {e: min(slips(word.text, form, most, unfinished=word.unfinished) for form in e.forms) for e in held}
    least = min(by.values(), default=FAR)
    best = [entry for entry, far in by.items() if far == least != FAR]
    return [Meant(entry, SLIPPED[least]) for entry in sorted(best, key=_frequent)[:MOST_NEAR]]


def _frequent(entry: Entry) -> tuple[int, str]:
    return -entry.documents, entry.stem
