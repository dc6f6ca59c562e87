"""The lexicon: which filed words a typed word may mean, and how surely. Twin of `search-rank.js`.

The word as it is; what it may become while it is typed; failing both, words a slip or two away.
Only the shards that may hold one of those are asked for.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, Final

from sitegen.search.near import FAR, slips, slips_allowed
from sitegen.search.query import Word
from sitegen.search.shards import line_of, spread_to
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
SHARDS: Final = 8
"""Shards of words that are looked through for what a typed word may become or have slipped from."""
LAST: Final = "\uffff"


@dataclass(frozen=True, slots=True)
class Entry:
    """A filed word: its stem, forms, rarity in hundredths, number of documents and where its postings are.

    `whole` is the `q` shard of all its documents where only the weightiest are at `place`, else ''.
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


def sure(entry: Entry | None) -> list[Meant]:
    """A word that is taken as it stands, where it is filed."""
    return [Meant(entry, SURE)] if entry else []


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
        if word.quoted:
            return sure(own)
        found = sure(own) + (self.begun(word.text, own) if word.unfinished or not own else [])
        if found or not slips_allowed(word.text):
            return found
        return _nearest(word, self._around(word.text, word.text[:2])) or _nearest(word, self._by_ending(word.text))

    def exactly(self, text: str, most: int = SHARDS) -> Entry | None:
        """The entry that the word is a form of; failing that, one with a form that only ends otherwise.

        It nearly always lies where the word itself or its stem would be filed: other shards are asked for after
        those, as many as `most` in all.
        """
        own = unbent(text)
        for near, start, shards in ((text, text, 1), (own, own, 1), (text, beginning(text), most)):
            found = next((e for e in self._around(near, start, shards) if text in e.forms), None)
            if found:
                return found
        held = self._around(text, beginning(text), most)
        return next((e for e in held if own in map(unbent, e.forms)), None)

    def together(self, row: Sequence[str]) -> Entry | None:
        """Two neighbours as `words.neighbours` gives them; None where they nowhere stand so.

        Rarities are logarithms: both words together have the sum of theirs.
        """
        one, other = self.exactly(row[0]), self.exactly(row[-1])
        if not (one and other):
            return None
        key = " ".join((one.stem, *row[1:-1], other.stem))
        where = line_of(self._shelf(f"n{spread_to(key, self._shelf('index')['near'])}"), key)
        if where is None:
            return None
        place, whole = where.split("\t")
        return Entry(key, (*one.forms, *other.forms), one.rarity + other.rarity, 0, place, whole)

    def begun(self, text: str, own: Entry | None) -> list[Meant]:
        """Words other than `own` that the letters begin, the most frequent ones; one letter begins too many.

        They are longer than `text`, and share so many more letters with their stems.
        """
        if len(text) < 2:
            return []
        held = self._around(text, beginning(text + LAST))
        found = [e for e in held if e is not own and any(form.startswith(text) for form in e.forms)]
        return [Meant(entry, BEGUN) for entry in sorted(found, key=_frequent)[:MOST_BEGUN]]

    def _by_ending(self, text: str) -> list[Entry]:
        """Words with a slip in their first letters."""
        turned = text[::-1]
        shards = self._shards(self._ends, turned[:3], turned, 2)
        forms = [form for shard in shards for form in self._shelf(f"e{shard}").split("\n")]
        most = slips_allowed(text)
        far = ((slips(turned, form, most, unfinished=False), form) for form in forms)
        nearest = sorted(each for each in far if each[0] != FAR)[:MOST_NEAR]
        return list(dict.fromkeys(e for _, form in nearest if (e := self.exactly(form[::-1]))))

    def _around(self, text: str, start: str, most: int = SHARDS) -> list[Entry]:
        """The words that begin so, those next to `text` when they are in more than `most` shards."""
        shards = self._shards(self._starts, start, text, most)
        for shard in shards:
            if shard not in self._read:
                self._read[shard] = tuple(entries(self._shelf(f"w{shard}")))
        return [entry for shard in shards for entry in self._read[shard]]

    @staticmethod
    def _shards(starts: list[str], start: str, about: str, most: int) -> list[int]:
        """The shards that may hold words with that start, those around `about` when they are too many."""
        if not starts:
            return []
        first, middle, last = (bisect_right(starts, word) - 1 for word in (start, about, start + LAST))
        low = max(first, min(middle - most // 2, last - most + 1))
        return list(range(low, min(last, low + most - 1) + 1))


def _nearest(word: Word, held: Iterable[Entry]) -> list[Meant]:
    """Those with the fewest slips only, the most frequent first."""
    most = slips_allowed(word.text)
    by = {e: min(slips(word.text, form, most, unfinished=word.unfinished) for form in e.forms) for e in held}
    least = min(by.values(), default=FAR)
    best = [entry for entry, far in by.items() if far == least != FAR]
    return [Meant(entry, SLIPPED[least]) for entry in sorted(best, key=_frequent)[:MOST_NEAR]]


def _frequent(entry: Entry) -> tuple[int, str]:
    return -entry.documents, entry.stem
