"""Notes on amounts: too little for the balance, too few drops, filled up to."""

from fractions import Fraction

import pytest

from sitegen.compute.notes import WORDS, notes_on
from sitegen.compute.plan import PlanLine
from sitegen.model.archive import Measuring
from tests.compute.shelf import Kitchen, card, form

ONE = Fraction(1)
MEASURING = Measuring(balance=Fraction(1, 10))


def plan_line(written: str, *, limit: str = "", key: str = "salt") -> PlanLine:
    """One line of a litre, filled up with water."""
    liquid = form("oil", state="liquid")
    mixed = Kitchen(card(form("salt"), limit=limit), liquid).mix(contains={key: written, "water": "to make 1 l"})
    return mixed.target().mixtures[0].lines[0]


def said(line: PlanLine, factor: Fraction = ONE, measuring: Measuring = MEASURING) -> list[str]:
    """The notes in words."""
    return [note.text() for note in notes_on(line, factor, measuring)]


@pytest.mark.parametrize(("grams", "notes"), [("1 g", []), ("10 g", [])])
def test_ten_steps_of_the_balance_are_enough(grams: str, notes: list[str]) -> None:
    assert said(plan_line(grams)) == notes


def test_less_than_ten_steps_names_the_error_and_how_much_to_make() -> None:
    """0.4 g on a 0.1 g balance: a step is 25 %; three times as much is 1.2 g, past ten steps. By hand."""
    assert said(plan_line("0.4 g")) == ["25 % off for one step of a 0.1 g balance: make 3 times as much"]


def test_a_stock_solution_is_proposed_for_a_small_weight_that_dissolves() -> None:
    assert said(plan_line("0.4 g", limit="50 g")) == [
        "25 % off for one step of a 0.1 g balance: measure 4 ml of a 10 % w/v stock instead, or make 3 times as much"
    ]


def test_the_lower_end_of_a_range_is_the_one_at_risk() -> None:
    assert said(plan_line("0.5-2 g")) == ["20 % off for one step of a 0.1 g balance: make 2 times as much"]


def test_a_note_comes_and_goes_with_the_factor() -> None:
    line = plan_line("2 g")
    assert said(line, Fraction(1, 2)) == []
    assert said(line, Fraction(1, 4)) == ["20 % off for one step of a 0.1 g balance: make 2 times as much"]


def test_the_authors_own_balance_decides() -> None:
    assert said(plan_line("0.4 g"), measuring=Measuring(balance=Fraction(1, 100))) == []


def test_under_a_dozen_drops_names_the_error_of_one() -> None:
    assert said(plan_line("12 drops", key="oil")) == []
    assert said(plan_line("5 drops", key="oil")) == ["under a dozen drops, 20 % off for one drop: make 3 times as much"]


def test_a_volume_under_a_dozen_drops_is_flagged_too() -> None:
    """20 drops to the ml by convention (H18); the author's own count goes before."""
    half = plan_line("0.5 ml", key="oil")
    assert said(half) == ["under a dozen drops, 10 % off for one drop: make 2 times as much"]
    assert said(half, measuring=Measuring(drops_per_ml=Fraction(30))) == []


def test_what_is_filled_up_or_not_scaled_says_so() -> None:
    mixed = Kitchen(form("salt")).mix(contains={"salt": "as needed", "water": "to make 1 l"})
    salt, water = mixed.target().mixtures[0].lines
    assert said(salt) == ["not scaled"]
    assert said(water) == ["fill up to this"]


def test_pieces_are_counted_without_a_note() -> None:
    assert said(plan_line("2 pieces")) == []


def test_every_note_has_words() -> None:
    assert all(words and not words.endswith(".") for words in WORDS.values())
