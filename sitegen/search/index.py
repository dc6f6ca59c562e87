"""The index: documents in, shards out, one document at a time and in linear time.

| shard | holds |
|---|---|
| `index` | where the documents of each kind are, and where each shard of words begins |
| `w…` | words in order: stem, forms, rarity, and short lists of postings |
| `e…` | the same words by their endings, for a slip in the first letters |
| `p…` | long lists of postings, of the commonest words the weightiest |
| `q…` | those lists whole, for words in quotes and words left out |
| `d…` | what is shown of a document |
| `facets`, `s…` | what can be narrowed by (`facets.py`) |

The score of a word in a document is BM25F: occurrences in each field, evened out by the field's
length, are weighed and added, and only the sum is damped.
(S. Robertson, H. Zaragoza, M. Taylor, Simple BM25 extension to multiple weighted fields, CIKM 2004.)
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import groupby, pairwise
from math import log
from typing import Final

from sitegen.search.document import FIELDS, KINDS, TOGETHER, Document, Field, Kind
from sitegen.search.shards import HEAVIEST, SIGNS, Shard, cut, gap, numbers
from sitegen.search.words import SMALL, composed, pieces, stem

DAMPING: Final = 8
"""k1 of BM25F: how soon another occurrence adds little. Large, as the fields' weights are."""
INLINE: Final = 48
"""Signs of postings up to which they stand beside their word."""
WORDS_SIZE: Final = 7_000
ENDINGS_SIZE: Final = 7_000
POSTINGS_SIZE: Final = 4_000
"""Signs a shard holds before the next is begun; a longer list of postings stands alone."""
LOOKED_THROUGH: Final = (20, 8)
"""Documents whose text is read for a phrase at first: in a small archive, in a large one."""
LARGE: Final = 5_000
"""Documents of a large archive, whose lists of postings are long enough to load."""
WEIGHTIEST: Final = 2_000
"""Documents of a word that an ordinary search looks at: a word in more of them hardly tells them apart."""


_SIGN: Final = tuple(sign.encode() for sign in SIGNS)


@dataclass(slots=True, kw_only=True)
class Term:
    """A stem while the index grows: its forms and its postings so far."""

    forms: list[str] = field(default_factory=list)
    postings: bytearray = field(default_factory=bytearray)
    documents: int = 0
    last: int = -1


@dataclass(slots=True)
class Lists:
    """Lists of postings in shards: small ones share one, a long one stands alone."""

    shards: list[str] = field(default_factory=list)

    def put(self, word: str, postings: str) -> int:
        """The number of the shard that the word's list was put in."""
        if not self.shards or len(self.shards[-1]) + len(postings) > POSTINGS_SIZE:
            self.shards.append("")
        self.shards[-1] += f"{word}\t{postings}\n"
        return len(self.shards) - 1


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
    terms: dict[str, Term] = field(default_factory=dict)
    stems: dict[str, str] = field(default_factory=dict)
    """Every word that was met, with its stem."""
    counts: Counter[Kind] = field(default_factory=Counter)
    """Documents of each kind."""
    count: int = 0

    def add(self, document: Document) -> None:
        """File a document under the next number."""
        weights: dict[str, float] = {}
        for name, group in groupby(sorted(document.filed(), key=lambda t: t[0]), key=lambda t: t[0]):
            self._weigh(self.fields[name], [text for _, text in group], weights)
        number = self.count
        for word, weight in weights.items():
            term = self.terms[word]
            impact = int(HEAVIEST * weight / (DAMPING + weight) + 0.5) or 1
            term.postings += gap(number - term.last - 1).encode() + _SIGN[impact]
            term.documents += 1
            term.last = number
        self.count += 1
        self.counts[document.kind] += 1

    def _weigh(self, kept: Field, texts: Iterable[str], weights: dict[str, float]) -> None:
        """Add what a field's texts say to the weights of a document's words."""
        often: Counter[str] = Counter()
        length = 0
        for text in texts:
            count, words = _filed(text, kept.joined)
            length += count
            often.update(words)
        even = kept.weight / (1 - kept.evens + kept.evens * length / kept.usual)
        for word, times in often.items():
            key = self.stems.get(word) or self._met(word)
            weights[key] = weights.get(key, 0) + times * even

    def _met(self, word: str) -> str:
        """The stem of a word that was not met before."""
        key = self.stems[word] = stem(word)
        self.terms.setdefault(key, Term()).forms.append(word)
        return key

    def shards(self) -> Iterator[Shard]:
        """The words of the index; the first is `index`, which tells where everything else is."""
        long, whole = Lists(), Lists()
        lines: list[str] = []
        ordered = sorted(self.terms.items())
        for word, term in ordered:
            place, other = term.postings.decode(), ""
            if term.documents > WEIGHTIEST:
                other = str(whole.put(word, place))
                place = weightiest(place)
            if len(place) > INLINE:
                place = f"@{long.put(word, place)}"
            about = (word, _forms(word, term.forms), str(self._rarity(term)), str(term.documents), place, other)
            lines.append("\t".join(about))
        words = list(cut(lines, WORDS_SIZE))
        ends = list(cut(sorted(_endings(ordered)), ENDINGS_SIZE))
        starts = {"words": [_key(s[0]) for s in words], "ends": [s[0] for s in ends]}
        said = {name: kept.said for name, kept in self.fields.items()}
        looked = LOOKED_THROUGH[self.count > LARGE]
        yield Shard(name="index", data={"fields": said, "looked": looked, "places": places(self.counts), **starts})
        for letter, found in (("w", words), ("e", ends)):
            yield from (Shard(name=f"{letter}{n}", data="\n".join(s)) for n, s in enumerate(found))
        for letter, lists in (("p", long), ("q", whole)):
            yield from (Shard(name=f"{letter}{n}", data=text) for n, text in enumerate(lists.shards))

    def _rarity(self, term: Term) -> int:
        """Hundredths of the inverse document frequency, at least 1: whole, so that every machine agrees."""
        share = (self.count - term.documents + 0.5) / (term.documents + 0.5)
        return max(1, round(100 * log(1 + share)))


def _key(line: str) -> str:
    return line.partition("\t")[0]


@lru_cache(maxsize=4096)
def _filed(text: str, joined: bool) -> tuple[int, tuple[str, ...]]:
    """How many words a text has, and what it is filed under: its words but the small ones, neighbours as one.

    Kept for a while: the same substances and cautions come in many recipes.
    """
    text = composed(text)
    found = pieces(text)
    words = [word for piece in found for word in piece.words if word not in SMALL]
    words += [word for piece in found for word in piece.beside]
    if joined:
        near = (pair for pair in pairwise(found) if not text[pair[0].end : pair[1].start].strip())
        words += [one.words[-1] + other.words[0] for one, other in near]
    return sum(len(piece.words) for piece in found), tuple(words)


def _forms(word: str, forms: list[str]) -> str:
    """The forms a stem was met in: what follows the stem, or `!` and the whole."""
    return ",".join(f[len(word) :] if f.startswith(word) else f"!{f}" for f in sorted(forms))


def _endings(ordered: Iterable[tuple[str, Term]]) -> Iterator[str]:
    """Every form backwards; figures and short words have no slips."""
    forms = (form for _, term in ordered for form in term.forms)
    return (form[::-1] for form in forms if len(form) > 3 and form.isalpha())


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
