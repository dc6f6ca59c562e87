"""Words: how a text is cut, folded and stemmed, both when it is filed and when it is sought.

The browser does the same in `search-words.js`; tests compare the two word by word. Only filing needs stems, those
of the Snowball project's English stemmer: the index tells which forms a stem was met in, and they are looked up.
"""

import re
import unicodedata
from collections.abc import Iterable, Iterator
from functools import lru_cache
from typing import Final, NamedTuple

from snowballstemmer.english_stemmer import EnglishStemmer

_NUMBER: Final = r"[0-9]+(?:[.,][0-9]+)?"
_LETTER: Final = r"[^\W_]"
_UNIT: Final = rf"(?:%|(?i:°[cf]|(?:mg|kg|g|ml|l|cm|mm|min|h|s)(?!{_LETTER})))"
_WET: Final = "[.·][0-9]*(?i:H2O)"
_GROUP: Final = r"[\[(][A-Za-z0-9()]{1,12}[\])][0-9]*"
# In this order, since the first that fits wins: CAS number, ratio, measure; a word may be a formula or a compound.
_PIECE: Final = re.compile(
    rf"(?P<cas>[0-9]{{2,7}}-[0-9]{{2}}-[0-9](?!{_LETTER}))"
    rf"|(?P<ratio>{_NUMBER}(?:\+{_NUMBER})+(?!{_LETTER}))"
    rf"|(?P<measure>{_NUMBER}(?:[-–]{_NUMBER})?[ \u00a0\u202f]?{_UNIT})"
    rf"|{_LETTER}+(?:(?P<formula>(?:(?:{_GROUP})+(?:{_WET})?|{_WET})(?!{_LETTER}))"
    rf"|(?P<compound>(?:[-‐‑]{_LETTER}+)+)|(?:['’]{_LETTER}+)+)?"
)
_HYPHEN: Final = re.compile(r"[-‐‑]")
_WATER: Final = re.compile(r"[.·][0-9]*H2O$", re.IGNORECASE)
_FIGURES: Final = re.compile("[0-9.,\u2013\u0020\u00a0\u202f-]")
_NOT_WORD: Final = re.compile(r"[\W_]+")
_BENT: Final = re.compile(r"^([a-z]{3,}?)(?:(?:ing|e)?s|e?d|ing|e)$")
_OWNER: Final = re.compile(r"['’]s$", re.IGNORECASE)
_APART: Final = str.maketrans({"ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ł": "l", "đ": "d"})

# Which spellings are one word? The left is read as the right, in texts and in what is typed.
SPELLINGS: Final = (
    ("sulph", "sulf"), ("colour", "color"), ("grey", "gray"), ("aluminum", "aluminium"),
    ("gelatine", "gelatin"), ("mould", "mold"), ("iz", "is"), ("yz", "ys"),
)  # fmt: skip

# Which words say nothing about what is sought? They are filed nowhere.
SMALL: Final = frozenset({
    "a", "an", "and", "are", "as", "at", "be", "but", "by", "can", "did", "do", "does", "for", "from", "had", "has",
    "have", "how", "i", "if", "in", "into", "is", "it", "its", "me", "my", "of", "on", "or", "so", "that", "the",
    "their", "them", "then", "there", "these", "they", "thing", "this", "those", "to", "was", "we", "were", "what",
    "when", "where", "which", "who", "why", "will", "with", "you", "your",
})  # fmt: skip

_STEMMER: Final = EnglishStemmer()


class Piece(NamedTuple):
    """A stretch of text with the words it is found by: in a row, and beside them as one."""

    start: int
    end: int
    words: tuple[str, ...]
    beside: tuple[str, ...]


def composed(text: str) -> str:
    """The text in the form that `pieces` counts in (NFC)."""
    return text if text.isascii() else unicodedata.normalize("NFC", text)


def pieces(text: str) -> list[Piece]:
    """Everything in a composed text that can be sought, in order.

    >>> [p.words for p in pieces("Iron-blue, 2–5 min at 10 %, diluted 1+9")]
    [('iron', 'blue'), ('2min', '5min'), ('at',), ('10%',), ('diluted',), ('1+9',)]
    """
    found = []
    for match in _PIECE.finditer(text):
        words, beside = _named(match.lastgroup, match.group())
        if words:
            found.append(Piece(match.start(), match.end(), words, beside))
    return found


@lru_cache(maxsize=1 << 16)
def _named(kind: str | None, text: str) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The words of one piece of that kind, and those it is filed under beside them."""
    if kind is None:
        word = fold(text)
        return ((word,) if word else ()), ()
    if kind == "compound":
        parts = tuple(filter(None, map(fold, _HYPHEN.split(text))))
        return parts, ("".join(parts),) if len(parts) > 1 else ()
    if kind == "formula":
        whole, dry = fold(text), fold(_WATER.sub("", text))
        return (whole,), (dry,) if dry != whole else ()
    if kind == "measure":
        unit = _FIGURES.sub("", text).lower()
        return tuple(n.replace(",", ".") + unit for n in re.findall(_NUMBER, text)), ()
    return (text.replace(",", "."),), ()


def neighbours(row: Iterable[str]) -> Iterator[tuple[str, ...]]:
    """Each word of a row but the small ones with the next such word, small ones that stand between them included.

    >>> list(neighbours(("on", "top", "of", "the", "wet", "paper")))
    [('top', 'of', 'the', 'wet'), ('wet', 'paper')]
    """
    run: tuple[str, ...] = ()
    for word in row:
        if word not in SMALL:
            if run:
                yield (*run, word)
            run = (word,)
        elif run:
            run += (word,)


def fold(word: str) -> str:
    """A word as it is compared: no case, accents, apostrophes or brackets, one spelling.

    >>> fold("Sulphité"), fold("K3[Fe(CN)6]"), fold("mill's"), fold("sensitizer")
    ('sulfite', 'k3fecn6', 'mill', 'sensitiser')
    """
    word = _OWNER.sub("", word)
    if not word.isascii():
        spelled = unicodedata.normalize("NFKD", word.lower().translate(_APART)).lower()
        word = "".join(sign for sign in spelled if unicodedata.category(sign)[0] != "M")
    word = _NOT_WORD.sub("", word.lower())
    for other, own in SPELLINGS:
        word = word.replace(other, own)
    return word


@lru_cache(maxsize=1 << 16)
def stem(word: str) -> str:
    """What a folded word is filed under: its stem, where both begin alike; what is not plain letters as it is.

    >>> stem("coatings"), stem("coated"), stem("dying"), stem("10%")
    ('coat', 'coat', 'dying', '10%')
    """
    if not (word.isascii() and word.isalpha()):
        return word
    found = str(_STEMMER.stemWord(word))
    return found if found.startswith(beginning(word)) else word


def beginning(word: str) -> str:
    """What a word shares with all that is filed with it, so that it can be looked up without a stemmer.

    >>> beginning("up"), beginning("dry"), beginning("coat"), beginning("solubility")
    ('up', 'dr', 'coa', 'solub')
    """
    size = len(word)
    return word[: max(2, min(3, size - 1), -(-size // 2))]


@lru_cache(maxsize=1 << 16)
def unbent(word: str) -> str:
    """A word without the ending of a plural or participle: how a form that was never filed is looked up.

    >>> unbent("coatings"), unbent("coated"), unbent("tea"), unbent("10s")
    ('coat', 'coat', 'tea', '10s')
    """
    return _BENT.sub(r"\1", word)
