"""`trayside water`, run as a user runs it, over the demo archive."""

from functools import partial

import pytest

from tests.cli import terminal
from tests.cli.terminal import DEMO

run = partial(terminal.run, "water", "--archive", DEMO)
data = partial(terminal.data, "water", "--archive", DEMO)


def test_the_first_water_of_the_archive_is_meant_where_none_is_named() -> None:
    answer = data("IB-01")
    assert (answer["recipe"], answer["water"]["id"]) == ("iron-blue", "tap")
    [wash] = [place for place in answer["places"] if place["id"] == "stage-3-step-2"]
    by_rule = {one["rule"]: one for one in wash["advice"]}
    assert by_rule["blue-alkaline"]["state"] == "holds"
    # 11-12 degrees are 3.92-4.28 mmol/l; 0.1211 g of citric acid monohydrate each (tests/compute/test_water.py).
    assert by_rule["blue-alkaline"]["acid"] == {"value": "0.48", "to": "0.52", "unit": "g/l"}
    assert by_rule["blue-alkaline"]["source"]


def test_a_water_is_named_or_its_figures_are_given() -> None:
    assert data("iron-blue", "--water", "well")["water"]["name"] == "Well in the yard"
    answer = data("iron-blue", "--ph", "6.5", "--hardness", "15 °dH")
    assert answer["water"]["readings"] == {"pH": "6.5", "hardness": "15 °dH"}
    states = {one["rule"]: one["state"] for place in answer["places"] for one in place["advice"]}
    assert states == {
        "blue-first-bath": "always",
        "iron-in-the-sheet": "below",
        "blue-alkaline": "below",
        "blue-hard": "holds",
        "blue-chlorine": "unknown",
    }


def test_in_words_it_names_its_sources_and_promises_nothing() -> None:
    said = run("iron-blue").stdout
    assert "source: artbadger.blogspot.com/2013/07" in said
    assert "Worked out, not tried" in said


def test_without_a_recipe_figures_are_given_in_other_units() -> None:
    # 1 °dH is 17.9 mg/l of calcium carbonate (Hach, answer 1000710).
    answer = data("--hardness", "10 °dH")
    values = {one["unit"]: float(one["value"]) for one in answer["readings"]["hardness"]}
    assert values["mg/l CaCO3"] == pytest.approx(179, abs=1)
    assert answer["acids"] == {}
    assert "hardness is not carbonate hardness" in run("--hardness", "10 °dH").stdout


def test_alkalinity_gives_every_acid_of_the_table() -> None:
    answer = data("--alkalinity", "4 mmol/l")
    assert answer["acids"]["citric-acid-monohydrate"] == {"value": "0.48", "unit": "g/l"}
    assert answer["acids"]["acetic-acid-vinegar"] == {"value": "7.2", "unit": "ml/l"}
    assert "keeps no pH" in run("--alkalinity", "4 mmol/l").stdout


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["iron-blue", "--water", "wel"], "did you mean `well`?"),
        (["iron-blue", "--water", "river"], "there is `tap`, `well`, `school`"),
        (["iron-blue", "--hardness", "15"], "°dH"),
        (["iron-blue", "--water", "tap", "--ph", "7"], "give --water ID, or figures"),
        ([], "name a recipe"),
    ],
)
def test_what_cannot_be_answered_is_refused_with_what_to_write(words: list[str], told: str) -> None:
    result = run(*words)
    assert result.exit_code == 2
    assert told in result.stderr
