"""The index: documents in, shards out, one document at a time and in linear time.

| shard | holds |
|---|---|
| `index` | where the documents of each kind are, and where each shard of words begins |
| `w…` | words in order: stem, forms, rarity, and short lists of postings |
| `e…` | the same words by their endings, for a slip in the first letters |
| `n…` | neighbours: two words that follow each other, small ones between them, with postings as words have |
| `p…` | long lists of postings, of the commonest words and neighbours the weightiest |
| `q…` | all documents of those, without weights, for what is in quotes and what is left out |
| `d…` | what is shown of a document |
| `facets`, `s…` | what can be narrowed by (`facets.py`) |

The score of a word in a document is BM25F: occurrences in each field, evened out by the field's
length, are weighed and added, and only the sum is damped.
(S. Robertson, H. Zaragoza, M. Taylor, Simple BM25 extension to multiple weighted fields, CIKM 2004.)
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby, pairwise, takewhile
from math import log
from typing import Final, NamedTuple

from sitegen.search.document import FIELDS, KINDS, TOGETHER, Document, Field, Kind
from sitegen.search.shards import HEAVIEST, SIGNS, Shard, cut, gap, in_gaps, numbers, spread
from sitegen.search.words import SMALL, composed, neighbours, pieces, stem

DAMPING: Final = 8
"""k1 of BM25F: how soon another occurrence adds little. Large, as the fields' weights are."""
INLINE: Final = 48
"""Signs of postings up to which they stand beside their word."""
WORDS_SIZE: Final = 2_500
ENDINGS_SIZE: Final = 7_000
POSTINGS_SIZE: Final = 4_000
"""Signs a shard holds before the next is begun; a longer list of postings stands alone."""
NEIGHBOURS_SIZE: Final = 8_000
"""Signs that a shard of neighbours holds on an average."""
WEIGHTIEST: Final = 2_000
"""Documents of a word that an ordinary search looks at: a word in more of them hardly tells them apart."""

_SIGN: Final = tuple(sign.encode() for sign in SIGNS)
_STEP: Final = tuple(gap(number).encode() for number in range(4096))
"""Gaps as they are written, since most are small and there are millions."""


@dataclass(slots=True, kw_only=True)
class Postings:
    """The documents of a stem, or of two neighbours, while the index grows."""

    text: bytearray = field(default_factory=bytearray)
    documents: int = 0
    last: int = -1

    def put(self, number: int, weight: float) -> None:
        """Add the next document, with the weight that the word has in it before damping."""
        impact = int(HEAVIEST * weight / (DAMPING + weight) + 0.5) or 1
        step = number - self.last - 1
        self.text += _STEP[step] if step < len(_STEP) else gap(step).encode()
        self.text += _SIGN[impact]
        self.documents += 1
        self.last = number


@dataclass(slots=True)
class Lists:
    """Lists of postings in shards: small ones share one, a long one stands alone."""

    letter: str
    """What the names of its shards begin with."""
    shards: list[str] = field(default_factory=list)

    def put(self, word: str, postings: str) -> str:
        """The name of the shard that the word's list was put in."""
        if not self.shards or len(self.shards[-1]) + len(postings) > POSTINGS_SIZE:
            self.shards.append("")
        self.shards[-1] += f"{word}\t{postings}\n"
        return f"{self.letter}{len(self.shards) - 1}"


def weightiest(postings: str) -> str:
    """The postings in which the word weighs most, in the order of the documents; of equal ones the first."""
    found = sorted(numbers(postings, weighed=True), key=lambda each: (-each[1], each[0]))
    last, text = -1, []
    for document, weight in sorted(found[:WEIGHTIEST]):
        text.append(gap(document - last - 1) + SIGNS[weight])
        last = document
    return "".join(text)


@dataclass(slots=True, kw_only=True)
class Index:
    """An index that grows by one document after the other; `shards` then gives it in pieces."""

    fields: Mapping[str, Field] = field(default_factory=lambda: FIELDS)
    words: defaultdict[str, Postings] = field(default_factory=lambda: defaultdict(Postings))
    """By stem."""
    forms: dict[str, list[str]] = field(default_factory=dict)
    """By stem, every word that was met."""
    neighbours: defaultdict[str, Postings] = field(default_factory=lambda: defaultdict(Postings))
    """By what `_filed` calls them."""
    stems: dict[str, str] = field(default_factory=dict)
    """Every word that was met, with its stem."""
    counts: Counter[Kind] = field(default_factory=Counter)
    """Documents of each kind."""
    count: int = 0

    def add(self, document: Document) -> None:
        """File a document under the next number."""
        words: dict[str, float] = {}
        near: dict[str, float] = {}
        for name, group in groupby(sorted(document.filed(), key=lambda t: t[0]), key=lambda t: t[0]):
            self._weigh(self.fields[name], [text for _, text in group], words, near)
        for found, filed in ((words, self.words), (near, self.neighbours)):
            for key, weight in found.items():
                filed[key].put(self.count, weight)
        self.count += 1
        self.counts[document.kind] += 1

    def _weigh(self, kept: Field, texts: Iterable[str], words: dict[str, float], near: dict[str, float]) -> None:
        """Add what a field's texts say to the weights of a document's words, and of its neighbours."""
        often: Counter[str] = Counter()
        beside: Counter[str] = Counter()
        length = 0
        for text in texts:
            filed = _filed(text, kept.joined)
            length += filed.length
            often.update(filed.words)
            beside.update(filed.neighbours)
        even = kept.weight / (1 - kept.evens + kept.evens * length / kept.usual)
        for word, times in often.items():
            key = self.stems.get(word) or self._met(word)
            words[key] = words.get(key, 0) + times * even
        for key, times in beside.items():
            near[key] = near.get(key, 0) + times * even

    def _met(self, word: str) -> str:
        """The stem of a word that was not met before."""
        key = self.stems[word] = stem(word)
        self.forms.setdefault(key, []).append(word)
        return key

    def shards(self) -> Iterator[Shard]:
        """The words of the index; the first is `index`, which tells where everything else is."""
        long, whole = Lists("p"), Lists("q")
        lines = [
            "\t".join((word, _forms(word, self.forms[word]), str(self._rarity(found)), str(found.documents), *where))
            for word, found in sorted(self.words.items())
            for where in [_places(word, found, long, whole)]
        ]
        words = list(cut(lines, WORDS_SIZE))
        ends = list(cut(sorted(_endings(self.forms)), ENDINGS_SIZE))
        near = spread(
            ((key, "\t".join(_places(key, found, long, whole))) for key, found in sorted(self.neighbours.items())),
            NEIGHBOURS_SIZE,
        )
        starts = {"words": list(starts_of(words)), "ends": list(starts_of(ends)), "near": len(near)}
        said = {name: kept.said for name, kept in self.fields.items()}
        yield Shard(name="index", data={"fields": said, "places": places(self.counts), **starts})
        for letter, found in (("w", words), ("e", ends), ("n", near)):
            yield from (Shard(name=f"{letter}{n}", data="\n".join(s)) for n, s in enumerate(found))
        for lists in (long, whole):
            yield from (Shard(name=f"{lists.letter}{n}", data=text) for n, text in enumerate(lists.shards))

    def _rarity(self, found: Postings) -> int:
        """Hundredths of the inverse document frequency, at least 1: whole, so that every machine agrees."""
        share = (self.count - found.documents + 0.5) / (found.documents + 0.5)
        return max(1, round(100 * log(1 + share)))


def _places(key: str, found: Postings, long: Lists, whole: Lists) -> tuple[str, str]:
    """The postings, or `@` and the shard they are in; where they are the weightiest only, the one of all documents."""
    place, other = found.text.decode(), ""
    if found.documents > WEIGHTIEST:
        other = whole.put(key, in_gaps(n for n, _ in numbers(place, weighed=True)))
        place = weightiest(place)
    return "@" + long.put(key, place) if len(place) > INLINE else place, other


def starts_of(shards: Iterable[Sequence[str]]) -> Iterator[str]:
    """As much of the first word of each shard of lines as tells it from the last word before; of the first nothing."""
    before: str | None = None
    for shard in shards:
        first, last = (line.partition("\t")[0] for line in (shard[0], shard[-1]))
        shared = takewhile(lambda pair: pair[0] == pair[1], zip(before or "", first, strict=False))
        yield "" if before is None else first[: sum(1 for _ in shared) + 1]
        before = last


class Filed(NamedTuple):
    """What a text is filed under: its words but the small ones, and its neighbours. `length` counts all its words."""

    length: int
    words: tuple[str, ...]
    neighbours: tuple[str, ...]


@lru_cache(maxsize=4096)
def _filed(text: str, joined: bool) -> Filed:
    """Cut a text. Kept for a while: the same substances and cautions come in many recipes."""
    text = composed(text)
    found = pieces(text)
    row = [word for piece in found for word in piece.words]
    words = [word for word in row if word not in SMALL]
    words += [word for piece in found for word in piece.beside]
    if joined:
        near = (pair for pair in pairwise(found) if not text[pair[0].end : pair[1].start].strip())
        words += [one.words[-1] + other.words[0] for one, other in near]
    beside = tuple(" ".join((stem(first), *between, stem(last))) for first, *between, last in neighbours(row))
    return Filed(len(row), tuple(words), beside)


def _forms(word: str, forms: list[str]) -> str:
    """The forms a stem was met in: what follows the stem, or `!` and the whole."""
    return ",".join(f[len(word) :] if f.startswith(word) else f"!{f}" for f in sorted(forms))


def _endings(forms: Mapping[str, Iterable[str]]) -> Iterator[str]:
    """Every form backwards; figures and short words have no slips."""
    return (form[::-1] for group in forms.values() for form in group if len(form) > 3 and form.isalpha())


def document_shards(documents: Iterable[Document]) -> Iterator[Shard]:
    """What is shown of each document; those of a kind come together, in the order of `KINDS`."""
    count = 0
    for kind, group in groupby(documents, key=lambda d: d.kind):
        held: list[object] = []
        for document in group:
            held.append(_shown(document))
            if len(held) == TOGETHER[kind]:
                yield Shard(name=f"d{count}", data=held)
                count, held = count + 1, []
        if held:
            yield Shard(name=f"d{count}", data=held)
            count += 1


def _shown(document: Document) -> list[object]:
    texts = [[name, composed(text)] for name, text in document.texts if text]
    return [document.kind, document.title, document.code, document.path, texts, list(document.holds)]


def places(counts: Mapping[Kind, int]) -> list[tuple[int, int, int]]:
    """For each kind its first document, the `d` shard that is in, and how many share one; counts by kind."""
    found, first, shard = [], 0, 0
    for kind in KINDS:
        if count := counts.get(kind, 0):
            together = TOGETHER[kind]
            found.append((first, shard, together))
            first += count
            shard += -(-count // together)
    return found


def place(number: int, kinds: Sequence[tuple[int, int, int]]) -> tuple[int, int]:
    """Which `d` shard a document is in, and at which place there; `kinds` as `places` gives them."""
    first, shard, together = next(kind for kind in reversed(kinds) if kind[0] <= number)
    return shard + (number - first) // together, (number - first) % together
