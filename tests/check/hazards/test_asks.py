"""Every class and group of the built-in cards is in the tables, or left out on purpose."""

import pytest

from sitegen.check.hazards.asks import BY_CLASS, FOR_COLLECTION, KEPT_FROM, read_class
from tests.check.bench import shelf

# Attacks metals, not people: the card's storage tells it. Single-exposure classes go by what they harm.
LEFT_OUT = {"met. corr.", "stot se"}


def test_no_class_on_a_card_is_overlooked() -> None:
    found = {read_class(text).name for card in shelf() for text in card.hazards.classes}
    assert found - set(BY_CLASS) == LEFT_OUT


def test_groups_that_ask_for_something_stand_on_cards() -> None:
    groups = {group for card in shelf() for group in card.hazards.groups}
    vocabulary = {
        "barium_salt",
        "cadmium_pigment",
        "chromium_iii",
        "drying_oil",
    }  # of the format, on no card yet
    assert (FOR_COLLECTION | set(KEPT_FROM)) - groups <= vocabulary


@pytest.mark.parametrize(
    ("text", "name", "route"),
    [
        ("Acute Tox. 4 (inhalation)", "acute tox.", "inhalation"),
        ("STOT SE 3 (respiratory irritation)", "stot se", "respiratory irritation"),
        ("Skin Corr. 1B", "skin corr.", ""),
        ("Repr. 1B (H360FD)", "repr.", "h360fd"),
        ("Self-heat. 1", "self-heat.", ""),
        ("((", "((", ""),
    ],
)
def test_classes_are_taken_apart(text: str, name: str, route: str) -> None:
    assert (read_class(text).name, read_class(text).route) == (name, route)
