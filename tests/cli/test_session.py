"""`trayside scale --session`: baths for a session of prints, run as a user runs it."""

from functools import partial

import pytest

from sitegen.compute.needed import UNTESTED
from tests.cli import terminal
from tests.cli.terminal import DEMO

run = partial(terminal.run, "scale", "salted-paper", "--mixture", "fix", "--archive", DEMO)
data = partial(terminal.data, "scale", "salted-paper", "--mixture", "fix", "--archive", DEMO)


def test_mixes_for_all_fillings_of_the_session() -> None:
    # 25 sheets of 8x10 in a litre; 60 of them need three litres, replaced whole
    answer = data("--make", "1 l", "--session", "60 of 8x10 in")
    assert answer["makes"] == {"value": "3000", "unit": "ml"}
    assert (answer["bath"]["lasts"], answer["bath"]["fillings"]) == (25, 3)
    assert answer["bath"]["replenished"] == {"value": "3360", "unit": "ml"}
    assert answer["bath"]["warnings"] == [UNTESTED]


def test_a_bath_that_ages_first_is_not_topped_up() -> None:
    answer = data("--tray", "25x40x1 cm", "--session", "4 of 8x10 in", "--lasting", "24 h")
    assert (answer["bath"]["filling"]["value"], answer["bath"]["fillings"]) == ("1000", 2)
    assert answer["bath"]["replenished"] is None


def test_says_it_in_words_with_the_caution() -> None:
    said = run("--make", "1 l", "--session", "60 of 8x10 in").stdout
    assert "a filling of 1000 ml does 25 prints: 3 fillings, 3000 ml in all if replaced whole" in said
    assert "or 3360 ml in all, topped up with 40 ml after each print" in said
    assert f"note: {UNTESTED}" in said


@pytest.mark.parametrize("size", [("--factor", "2"), ("--make", "100 g")])
def test_refuses_what_is_no_filling(size: tuple[str, str]) -> None:
    result = run(*size, "--session", "4 of A4")
    assert result.exit_code == 2
    assert "a session is reckoned from the volume that fills the tray once" in result.stderr


def test_a_tray_that_does_not_do_one_print_is_refused() -> None:
    result = run("--make", "30 ml", "--session", "4 of 8x10 in")
    assert result.exit_code == 2
    assert "fill the tray with 40 ml at least" in result.stderr
