"""Substances: one page each, and the index of every name they go by."""

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Final

from sitegen.compute.molar import molar_mass
from sitegen.compute.names import fold
from sitegen.compute.rounding import to_step
from sitegen.model.quantity import exact_text
from sitegen.model.substance import Form, HazardBasis, Substance
from sitegen.render.frame import Frame
from sitegen.render.incompatible import incompatible
from sitegen.render.label_view import symbols
from sitegen.render.links import substance_path
from sitegen.render.page import Page
from sitegen.render.substance_label import jars, not_known

# What does each basis of a hazard statement mean to a reader?
BASIS: Final[dict[HazardBasis, str]] = {
    "harmonised": "Classes as harmonised by law.",
    "national": "Classes as one national authority gives them.",
    "notified": "Classes as suppliers have notified them; suppliers may disagree.",
    "not classified": "Assessed and not classified. That is a judgement on the data there is, not a promise.",
    "no data": "Not enough data, which is not the same as harmless.",
}
FIGURES: Final = "0–9"
"""The heading of names that begin with a figure."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FormView:
    """One row of the table of forms; figures are '' where they cannot be known."""

    form: Form
    molar: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A name in the index; `own` is whether it is the card's own name."""

    name: str
    card: Substance
    own: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Letter:
    """The names under one letter."""

    letter: str
    entries: tuple[Entry, ...]


def substance_page(card: Substance, frame: Frame) -> Page:
    """Everything known of one substance, with what is not known said as such."""
    archive = frame.computed.archive
    bottled = jars(card, archive)
    return frame.page(
        "substance.html",
        substance_path(card.id),
        title=card.name,
        card=card,
        forms=tuple(FormView(form=form, molar=_molar(form)) for form in card.forms),
        form_named={form.id: form for form in card.forms},
        basis=BASIS[card.hazards.basis],
        look_alikes=tuple(archive.card_named[i] for i in card.look_alikes if i in archive.card_named),
        used_in=frame.cross.holding.get(card.id, ()),
        groups=tuple(group.replace("_", " ") for group in card.hazards.groups),
        jars=bottled,
        symbols=symbols(jar.label for jar in bottled),
        incompatible=incompatible(card, frame.cross.sided),
        not_known=not_known(card),
    )


def _molar(form: Form) -> str:
    """Grams per mole to two decimals."""
    if not form.formula:
        return ""
    whole, _, decimals = exact_text(to_step(molar_mass(form.formula), Fraction(1, 100))).partition(".")
    return f"{whole}.{decimals:0<2}"


def substance_index(frame: Frame) -> Page:
    """Every name from A to Z, household names too, each leading to its card."""
    return frame.page(
        "substances.html",
        "substances/index.html",
        title="Substances",
        letters=letters(frame.computed.archive.substances),
        count=len(frame.computed.archive.substances),
    )


def letters(cards: Iterable[Substance]) -> tuple[Letter, ...]:
    """Names grouped by their first letter; those that begin with a figure come first."""
    entries = sorted((e for card in cards for e in _entries(card)), key=lambda e: (filed(e.name), e.card.id))
    return tuple(
        Letter(letter=letter, entries=tuple(group))
        for letter, group in groupby(entries, key=lambda e: first_letter(e.name))
    )


def _entries(card: Substance) -> list[Entry]:
    others = dict.fromkeys((*card.other_names, *(name for form in card.forms for name in form.names)))
    own = Entry(name=card.name, card=card, own=True)
    return [own, *(Entry(name=n, card=card, own=False) for n in others if fold(n) != fold(card.name))]


def first_letter(name: str) -> str:
    """The letter a name is filed under, without its accent."""
    spelled = (sign for sign in unicodedata.normalize("NFD", name.upper()) if sign.isalnum())
    first = next(spelled, "")
    return first if first.isalpha() else FIGURES


def filed(name: str) -> tuple[str, str]:
    """What a name is sorted by: figures first, then its letter, then the whole."""
    letter = first_letter(name)
    return "" if letter == FIGURES else letter, fold(name)
