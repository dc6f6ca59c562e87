"""Words: which substances and mixtures the words of a passage name.

The longest name wins, so that `sodium sulfite` is never read as `sodium`; a word that ends a name
(`the citrate`) stands for an ingredient where the recipe holds only one that ends so.
"""

import difflib
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from sitegen.check.held import forms_held
from sitegen.check.prose.passages import WORD, Passage, Word, fold
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.model.substance import Form, Substance

Key = tuple[str, ...]

_GLUE: Final = re.compile(r"[\s\-–·()\[\]’']*")
HEAD_LETTERS: Final = 4
"""A last word shorter than this (`oil`, `gum`, `tea`) names nothing by itself."""

ALIKE: Final = 0.75
"""How alike two last words look that are told apart here: `sulfite` and `sulfate` are 0.86 alike."""

# Which last words of names tell nothing by themselves?
_EMPTY_HEADS: Final = frozenset({"solution", "powder", "crystals", "flakes", "plate", "sheet", "chips", "water"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Meaning:
    """What a name may mean: forms, mixtures; `head` when it is the last word of a name alone."""

    forms: frozenset[str] = frozenset()
    mixtures: frozenset[str] = frozenset()
    head: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Mention:
    """A name in a passage."""

    text: str
    key: Key
    start: int
    end: int
    meaning: Meaning


def key_of(name: str) -> Key:
    """A name as its words are compared."""
    return tuple(fold(word) for word in WORD.findall(name))


class Index:
    """Names by their first word, the longest first."""

    def __init__(self, meanings: Mapping[Key, Meaning]) -> None:
        self.meanings = meanings
        self._by_first: dict[str, list[Key]] = {}
        for key in sorted(meanings, key=len, reverse=True):
            self._by_first.setdefault(key[0], []).append(key)

    def longest(self, text: str, words: tuple[Word, ...], position: int) -> Key:
        """The longest name that begins at this word; () when none does."""
        for key in self._by_first.get(words[position].key, ()):
            run = words[position : position + len(key)]
            if tuple(word.key for word in run) == key and _together(text, run):
                return key
        return ()


def _together(text: str, run: tuple[Word, ...]) -> bool:
    """Whether only blanks, hyphens and brackets stand between the words of a name."""
    return all(_GLUE.fullmatch(text, first.end, second.start) for first, second in pairwise(run))


def card_names(archive: Archive) -> Index:
    """Every name of every card, with the forms it may mean. CAS numbers have no letters to be read by."""
    forms: dict[Key, set[str]] = {}
    for card in archive.substances:
        every = {form.id for form in card.forms}
        for name in (card.id, card.name, *card.other_names):
            forms.setdefault(key_of(name), set()).update(every)
        for form in card.forms:
            for name in _own_names(form):
                forms.setdefault(key_of(name), set()).add(form.id)
    return Index({key: Meaning(forms=frozenset(found)) for key, found in forms.items() if key})


def _own_names(form: Form) -> Iterable[str]:
    return (form.id, form.name, *form.names, form.formula)


class Names:
    """Everything that can be named in one recipe: all cards, its mixtures, its ingredients' last words."""

    def __init__(self, *, cards: Index, archive: Archive, recipe: Recipe | None) -> None:
        self.held = frozenset(forms_held(recipe.mixtures, archive)) if recipe else frozenset()
        """Forms that the recipe's mixtures hold, through those of other recipes too."""
        self.substances = frozenset(archive.substance_of[form].id for form in self.held)
        own = _heads((archive.substance_of[id_] for id_ in sorted(self.substances)), cards)
        if recipe:
            _add_mixtures(own, recipe, cards)
        self._indexes = (Index(own), cards)

    def mentions(self, passage: Passage) -> tuple[Mention, ...]:
        """Names in the order of the text; none lies inside another."""
        return tuple(self._mentions(passage.bare, passage.words))

    def _mentions(self, text: str, words: tuple[Word, ...]) -> Iterator[Mention]:
        position = 0
        while position < len(words):
            found = [(i.longest(text, words, position), i) for i in self._indexes]
            key, index = max(found, key=lambda pair: len(pair[0]))  # the recipe's own where both are as long
            if key:
                start, end = words[position].start, words[position + len(key) - 1].end
                meaning = index.meanings[key]
                yield Mention(text=text[start:end], key=key, start=start, end=end, meaning=meaning)
            position += max(len(key), 1)


def head_of(card: Substance) -> str:
    """The last word of a card's name, which stands for it in a sentence; '' when that tells nothing."""
    last = (key_of(card.name) or ("",))[-1]
    return last if len(last) >= HEAD_LETTERS and last not in _EMPTY_HEADS else ""


def _heads(cards: Iterable[Substance], known: Index) -> dict[Key, Meaning]:
    by_head: dict[str, list[Substance]] = {}
    for card in cards:
        by_head.setdefault(head_of(card), []).append(card)
    return {
        (head,): Meaning(forms=frozenset(form.id for form in found[0].forms), head=True)
        for head, found in by_head.items()
        if head and len(found) == 1 and (head,) not in known.meanings
    }


def _add_mixtures(own: dict[Key, Meaning], recipe: Recipe, known: Index) -> None:
    for mixture in recipe.mixtures:
        for key in {key_of(mixture.name), key_of(mixture.local)} - {()}:
            others = own.get(key) or known.meanings.get(key) or Meaning()
            own[key] = Meaning(forms=others.forms, mixtures=others.mixtures | {mixture.id}, head=others.head)


def strange_heads(names: Names, archive: Archive) -> dict[str, frozenset[str]]:
    """Last words of look-alikes' names that no held substance's name ends in, with their forms."""
    held = [archive.substance_of[id_] for id_ in names.substances]
    heads = {head_of(card) for card in held}
    found: dict[str, frozenset[str]] = {}
    for card in held:
        for other in (archive.substance_of[id_] for id_ in card.look_alikes if id_ in archive.substance_of):
            head = head_of(other)
            alike = difflib.SequenceMatcher(None, head, head_of(card)).ratio()
            if head and head not in heads and alike >= ALIKE:
                found[head] = found.get(head, frozenset()) | {form.id for form in other.forms}
    return found
