"""Passphrases: how they are compared, made, and how many guesses they stand.

Not a place where any is kept: they come from the environment or a file outside the archive.
"""

import math
import re
import unicodedata
from collections.abc import Callable, Sequence
from typing import Final

from sitegen.problems import Refusal

Randomness = Callable[[int], bytes]
"""So many bytes nobody can foretell: `secrets.token_bytes` at the edge."""

LEAST_BITS: Final = 77
"""Seven words of 2048. At a million million guesses a second on average some two thousand years, without rounds."""

# What stands between words: blanks and every dash a phone may put for a hyphen. Twin in opening.js.
_BETWEEN: Final = re.compile("[ \t\r\n\f\v\\-\u2010-\u2015]+")
# Bits of one more sign of each kind, when nothing better is known of it.
_SIGN_BITS: Final = (("[a-z]", math.log2(26)), ("[0-9]", math.log2(10)), (".", 4.0))
_PLAIN_WORD_BITS: Final = 13.0
"""A word that is not of the list is still a word: a guesser's dictionary holds some eight thousand common ones."""
_AGAIN_BITS: Final = 1.0


def normal(passphrase: str) -> str:
    """The passphrase as it is compared: small letters, one blank between words.

    >>> normal(" Rain-coat  NET")
    'rain coat net'
    """
    plain = unicodedata.normalize("NFKC", passphrase).lower()
    return _BETWEEN.sub(" ", plain).strip(" ")


def make(words: Sequence[str], random: Randomness, *, bits: int = LEAST_BITS) -> str:
    """A passphrase of as many words as `bits` asks for, each drawn evenly from `words`.

    `words` are at most 65536, without repeats.
    """
    count = math.ceil(bits / math.log2(len(words)))
    return " ".join(words[_below(len(words), random)] for _ in range(count))


def _below(limit: int, random: Randomness) -> int:
    """An even draw from 0 to `limit` - 1: numbers above the last full round are drawn again."""
    full = 65536 - 65536 % limit
    while (drawn := int.from_bytes(random(2), "big")) >= full:
        pass
    return drawn % limit


def strength(passphrase: str, words: Sequence[str]) -> float:
    """Bits of guessing the passphrase stands, estimated low: a word of a list counts as one draw from it."""
    listed = frozenset(words)
    draw = math.log2(len(listed))
    seen: set[str] = set()
    total = 0.0
    for word in normal(passphrase).split(" "):
        total += _AGAIN_BITS if word in seen else draw if word in listed else _unlisted(word)
        seen.add(word)
    return total


def _unlisted(word: str) -> float:
    """Runs of letters count as words at most, runs of digits as numbers; a sign like its neighbour hardly counts."""
    return sum(_run(run) for run in re.findall(r"[^\W\d_]+|[0-9]+|(?:[\W_]|[^\W0-9a-z])+", word))


def _run(run: str) -> float:
    bits = 0.0
    for before, sign in zip(" " + run, run, strict=False):
        near = abs(ord(sign) - ord(before)) <= 1  # aaaa, 1234, cba
        kind = next(value for pattern, value in _SIGN_BITS if re.fullmatch(pattern, sign, re.DOTALL))
        bits += _AGAIN_BITS if near else kind
    return min(bits, _PLAIN_WORD_BITS) if run.isalpha() else bits


def check_strength(passphrase: str, words: Sequence[str]) -> None:
    """`Refusal` with the estimate for a passphrase that guessing would find. The passphrase is not repeated."""
    found = strength(passphrase, words)
    if found < LEAST_BITS:
        raise Refusal(
            "passphrase-weak",
            f"a passphrase is too weak: about {found:.0f} bits, at least {LEAST_BITS} are needed",
            "take one that `trayside passphrase` makes",
            ("whoever has the sealed files can guess as long and as fast as they like",),
        )
