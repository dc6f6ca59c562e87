"""Words count where a sentence says them, and not where it denies them."""

import pytest

from sitegen.check.pairs.table import table
from sitegen.check.pairs.texts import tells


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("Boil it for an hour.", "boil"),
        ("Simmer [the bark](amount:boil-off) with a lid on.", "simmer"),
        ("Stir until no grain is left, then heat it slowly.", "heat"),
        ("It is heated to a smear.", "heated"),
        ("Do not stir. Heat it.", "heat"),
        ("Let it cool after boiling.", "boiling"),
    ],
)
def test_said(text: str, word: str) -> None:
    assert tells(table().conditions["warmed"], [text]) == word


@pytest.mark.parametrize(
    "text",
    [
        "Never boil it.",
        "Do not warm, heat or boil it.",
        "Dissolve it in boiled water.",
        "Warm it in a water bath, never over heat.",
        "Warm it to just below a simmer.",
        "Heather grows there.",
        "Link to [it](mixture:boil).",
        "",
    ],
)
def test_denied_or_something_else(text: str) -> None:
    assert tells(table().conditions["warmed"], [text]) == ""
