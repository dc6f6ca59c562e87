"""Texts: what an author's sentences tell beside the ingredients, word by word.

A word counts unless its clause denies it (`never`, `away from`). Links are read for their words.
"""

import re
from collections.abc import Iterable
from functools import cache
from typing import Final

from sitegen.check.pairs.table import Condition
from sitegen.model.recipe import Hazards

_ADDRESS: Final = re.compile(r"\]\([^()\s]*\)")
_SENTENCE: Final = re.compile(r"[.!?;](?=\s|$)|\n\s*\n")
_DENIED: Final = re.compile(
    r"\b(?:never|not|no|nor|without|avoid|cannot|don't|away from|out of|instead of|rather than)\b"
)
_ALL_DENIED: Final = ("never", "do not", "don't", "avoid")
"""Sentences that begin so deny everything they list."""


@cache
def _any_of(words: tuple[str, ...]) -> re.Pattern[str]:
    """Any of these words, with the endings of verbs and plurals."""
    alternatives = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
    return re.compile(rf"\b(?:{alternatives})(?:s|es|ed|d|ing)?\b")


def told(texts: Iterable[str], words: tuple[str, ...], but_not: tuple[str, ...] = ()) -> str:
    """The first of these words that a sentence says and does not deny; '' when none does."""
    for text in texts:
        for sentence in _SENTENCE.split(_ADDRESS.sub("]", text).casefold()):
            said = _any_of(but_not).sub("", sentence) if but_not else sentence
            for match in _any_of(words).finditer(said):
                if not denied(said[: match.start()]):
                    return match.group()
    return ""


def denied(before: str) -> bool:
    """Whether what comes before a word in its sentence, in small letters, denies it."""
    clause = before.rpartition(",")[2]
    return before.lstrip().startswith(_ALL_DENIED) or bool(_DENIED.search(clause))


def named(texts: Iterable[str], words: tuple[str, ...]) -> bool:
    """Whether any of these words stands in the texts, denied or not."""
    return any(_any_of(words).search(text.casefold()) for text in texts)


def tells(condition: Condition, texts: Iterable[str]) -> str:
    """The word by which texts tell of a condition; '' when they do not."""
    return told(texts, condition.words, condition.but_not)


def block_texts(block: Hazards) -> tuple[str, ...]:
    """Every sentence of a hazard block."""
    return (*block.wear, *block.air, *block.never, *block.first_aid, *block.disposal, *block.note)
