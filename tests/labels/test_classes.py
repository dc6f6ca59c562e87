"""Hazard classes: every text on a shipped card is read; what is incomplete is refused with a remedy."""

import pytest

from sitegen.labels.classes import parse_class
from sitegen.problems import Refusal
from tests.labels.mixtures import cards, statements


@pytest.mark.parametrize("text", sorted({c for card in cards().values() for c in card.hazards.classes}))
def test_every_class_on_a_shipped_card_is_read_and_has_a_statement(text: str) -> None:
    found = parse_class(text)
    assert found.text == text
    assert statements().row(found) is not None


@pytest.mark.parametrize(
    ("text", "family"),
    [
        ("Acute Tox. 4 (oral)", "acute-oral"),
        ("Acute Tox. 1 (inhalation)", "acute-inhalation"),
        ("Skin Corr. 1B", "skin"),
        ("STOT SE 3 (respiratory irritation)", "respiratory-irritation"),
        ("STOT SE 3 (narcotic effects)", "narcotic-effects"),
        ("STOT SE 1", "organs-once"),
        ("Repr. 1B (H360FD)", "reproduction"),
        ("Lact.", "breast-milk"),
        ("Ox. Sol. 2", "oxidising"),
        ("Self-heat. 1", "other-physical"),
    ],
)
def test_a_class_falls_under_its_rules(text: str, family: str) -> None:
    assert parse_class(text).family == family


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("Acute Tox. 4", "name the route"),
        ("STOT SE 3", "name the effect"),
        ("Skin Corr. 2", "write one of"),
        ("Skin Cor. 1B", "did you mean `Skin Corr.`"),
        ("Repr. 1B (fertility)", "with its letters"),
        ("Eye Irrit. 2 (H319", "one pair of brackets"),
        ("", "write it like"),
        ("Carc. 1B H350", "stands a category"),
    ],
)
def test_an_incomplete_class_is_refused_with_what_is_missing(text: str, remedy: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_class(text)
    assert refused.value.code == "class-not-read"
    assert remedy in refused.value.help


def test_categories_rank_from_the_most_severe() -> None:
    ranks = [parse_class(f"Skin Corr. {c}").rank for c in ("1A", "1B", "1C")]
    assert ranks == sorted(ranks)
