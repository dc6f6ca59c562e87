"""Entries: the shipped table belongs to shipped cards, and a faulty one is refused at its line."""

from fractions import Fraction

import pytest

from sitegen.labels.classes import parse_class
from sitegen.labels.entries import entry_of, ingredient_of, pure
from sitegen.labels.entry_file import READ, SOURCES, read_entries
from sitegen.labels.ingredient import Limit
from sitegen.labels.limits import check_order
from sitegen.problems import Problems, Refusal
from tests.labels.mixtures import cards, entries, form, share, statements, text_of


def test_every_entry_belongs_to_a_card_or_a_form() -> None:
    known = {*cards(), *(f.id for c in cards().values() for f in c.forms)}
    assert set(entries()) <= known


def test_every_supplemental_code_exists() -> None:
    for entry in entries().values():
        for one in entry.supplements:
            assert statements().text(one.code)


def test_every_specific_limit_names_a_class_with_a_statement() -> None:
    for entry in entries().values():
        for limit in entry.limits:
            assert statements().row(limit.hazard)


def test_minimum_classes_stand_on_the_card() -> None:
    for id_, entry in entries().items():
        card = cards().get(id_)
        if card:
            assert {m.text for m in entry.minimum} - set(card.hazards.classes) <= set(_WORSE_ON_CARD.get(id_, ()))


_WORSE_ON_CARD = {
    # The card holds a second list's more severe class, as the asterisk of the first allows.
    "formaldehyde": ("Acute Tox. 3 (inhalation)",),
    "sodium-sulfide": ("Acute Tox. 4 (oral)",),
}


def test_every_shipped_card_becomes_an_ingredient() -> None:
    for card in cards().values():
        for one in card.forms:
            found = ingredient_of(card, one, share(1), entries())
            assert found.data == card.hazards.basis


def test_a_bottle_counts_by_its_assay() -> None:
    _, one = form("acetic-acid-28-percent")
    assert pure(one, share(50)) == share(14)
    _, glacial = form("acetic-acid-glacial")
    assert pure(glacial, share(10)) == share("9.95")


def test_the_anhydrous_salt_counts_as_more_of_the_listed_crystals() -> None:
    card, one = form("copper-sulfate-anhydrous")
    found = ingredient_of(card, one, share(10), entries())
    assert found.percent
    assert float(found.percent.high) == pytest.approx(15.645)
    assert found.m_acute == 10


def test_the_fields_of_a_form_stand_before_those_of_its_substance() -> None:
    assert entry_of("ferrous-sulfate-heptahydrate", "ferrous-sulfate", entries()).limits
    assert not entry_of("ferrous-sulfate-anhydrous", "ferrous-sulfate", entries()).limits


def test_what_is_remembered_is_told_from_what_was_read() -> None:
    assert {"memory", "computed"} == set(SOURCES) - READ


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("a:\n  limits:\n    - {class: Skin Corr. 9, from: 5, src: annex-vi}\n", "class-not-read"),
        ("a:\n  limits:\n    - {class: Skin Corr. 1B, from: 5}\n", "source-missing"),
        ("a:\n  limits:\n    - {class: Skin Corr. 1B, from: 5, src: hearsay}\n", "source-missing"),
        ("a:\n  limits:\n    - {class: Skin Corr. 1B, from: 9, below: 5, src: clp}\n", "limit-order"),
        (
            "a:\n  limits:\n    - {class: Skin Corr. 1A, from: 5, below: 9, src: clp}\n"
            "    - {class: Skin Corr. 1B, from: 9, src: clp}\n",
            "limit-order",
        ),
        (
            "a:\n  limits:\n    - {class: Skin Corr. 1B, from: 5, below: 20, src: clp}\n"
            "    - {class: Skin Corr. 1A, from: 9, src: clp}\n",
            "limit-order",
        ),
        ("a:\n  ate:\n    - {route: nasal, value: 5, src: clp}\n", "unknown-choice"),
        ("a:\n  euh:\n    - {code: H302, src: clp}\n", "statement-code"),
        ("a:\n  kind: {is: salt, src: clp}\n", "unknown-choice"),
        ("a:\n  limit:\n    - {src: clp}\n", "unknown-field"),
        ("a:\n  m: {acute: ten, src: clp}\n", "number-not-read"),
    ],
)
def test_a_faulty_entry_is_refused_with_its_place(text: str, code: str) -> None:
    problems = Problems()
    assert read_entries(text, "classification.yaml", problems) is None
    assert code in [p.code for p in problems.found]
    assert problems.found[0].at.file == "classification.yaml"


def test_limits_of_different_classes_do_not_disturb_each_other() -> None:
    check_order(Limit(hazard=parse_class(text), above=Fraction(5)) for text in ("Skin Corr. 1B", "Eye Irrit. 2"))
    with pytest.raises(Refusal, match="out of order"):
        check_order([Limit(hazard=parse_class("Skin Corr. 1B"), above=Fraction(0))])


def test_the_shipped_table_is_sorted() -> None:
    keys = [
        line[:-1] for line in text_of("classification.yaml").splitlines() if line.endswith(":") and line[0] not in " #"
    ]
    assert keys == sorted(keys)
