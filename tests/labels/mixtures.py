"""Mixtures to test from: the shipped tables and cards, and short ways to write what is in a bottle."""

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import sitegen
from sitegen.check.cards import check_cards
from sitegen.labels.classes import parse_class
from sitegen.labels.entries import Entries, ingredient_of
from sitegen.labels.entry_file import read_entries
from sitegen.labels.ingredient import AcutePoint, Ingredient, Mixture, Share
from sitegen.labels.label import Label
from sitegen.labels.mixture import classify
from sitegen.labels.statements import Statements, read_statements
from sitegen.model.substance import Form, Substance
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards

HAZARDS = Path(sitegen.__file__).parent / "data" / "hazards"


@cache
def statements() -> Statements:
    """The shipped statements."""
    problems = Problems()
    found = read_statements(text_of("statements.yaml"), "statements.yaml", problems)
    assert found, problems.in_order()
    return found


@cache
def entries() -> Entries:
    """The shipped entries."""
    problems = Problems()
    found = read_entries(text_of("classification.yaml"), "classification.yaml", problems)
    assert found, problems.in_order()
    return found


@cache
def cards() -> dict[str, Substance]:
    """The shipped substance cards by id."""
    problems = Problems()
    shelf = check_cards(compose_sources(base_cards(), problems), problems)
    return {card.id: card for card in shelf.substances}


def text_of(name: str) -> str:
    return (HAZARDS / name).read_text(encoding="utf-8")


def form(id_: str) -> tuple[Substance, Form]:
    """The card and the form of a form id."""
    return next((c, f) for c in cards().values() for f in c.forms if f.id == id_)


def share(percent: object, high: object = None) -> Share:
    """A share written as text or number."""
    low = Fraction(str(percent))
    return Share(low=low, high=low if high is None else Fraction(str(high)))


def of(name: str, percent: object, *classes: str, **more: Any) -> Ingredient:
    """An ingredient made up for a test."""
    given = percent if isinstance(percent, Share) or percent is None else share(percent)
    return Ingredient(
        name=name,
        percent=given,
        data=more.pop("data", "harmonised"),
        classes=tuple(parse_class(c) for c in classes),
        **more,
    )


def oral(value: object) -> tuple[AcutePoint, ...]:
    """An oral estimate; None for a test without effect."""
    return (AcutePoint(route="oral", value=None if value is None else Fraction(str(value))),)


def carded(id_: str, percent: object) -> Ingredient:
    """So much of the pure substance of a shipped card, by form id or by substance id."""
    card = cards().get(id_)
    substance, one = (card, card.forms[0]) if card else form(id_)
    return ingredient_of(substance, one, share(percent), entries())


def mixed(*ingredients: Ingredient, **more: Any) -> Mixture:
    """A mixture, the rest water."""
    return Mixture(name=more.pop("name", "test bath"), ingredients=ingredients, **more)


def label(*ingredients: Ingredient, **more: Any) -> Label:
    """The label of a mixture, the rest water."""
    return classify(mixed(*ingredients, **more), statements())


def codes(found: Label) -> list[str]:
    """The H codes that are printed."""
    return [text.code for text in found.h]


def pictures(found: Label) -> list[str]:
    """The pictograms that are printed."""
    return [p.code for p in found.pictograms]


def classes(found: Label) -> set[str]:
    """The text of every class, printed or not."""
    return {c.hazard.text for c in found.classifications}
