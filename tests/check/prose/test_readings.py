"""Figures in sentences that can be read in two ways."""

import pytest

from tests.check.bench import prose, recipe, words


def test_a_ratio_with_a_colon_is_shown_both_ways() -> None:
    text = recipe(do="'Dilute the bath 1:10 and rock.'")
    (found,) = prose(text)
    assert (found.code, found.level) == ("prose-ratio-two-readings", "warning")
    assert found.message == "`1:10` can be read in two ways"
    assert found.help == "write `1+10` or `1+9`"
    assert found.notes == ("1 part to 10 parts, or 1 part in 10",)
    assert words(found, text) == "1:10"


@pytest.mark.parametrize(
    "sentence",
    [
        "'Begin at 7:30.'",
        "'From 10:15 to 11:45.'",
        "'Wait 1:30 min.'",
        "'At 1:05'",
        "Drawn at scale 1:10.",
        "'Expose 1:30.'",
        "'Leave a picture of 3:2.'",
    ],
)
def test_times_and_scales_are_left_alone(sentence: str) -> None:
    assert prose(recipe(do=sentence)) == ()


@pytest.mark.parametrize(
    ("sentence", "unit", "reading"),
    [
        pytest.param("Use 8 oz for the tray.", "8 oz", "`fl oz imp`", id="oz"),
        pytest.param("Use 2 fl oz for the tray.", "2 fl oz", "`fl oz imp` (28.41 ml)", id="fl-oz"),
        pytest.param("Fill it with 1 pint.", "1 pint", "`pint imp` (568.3 ml)", id="pint"),
        pytest.param("Fill it with 1/2 cup of it.", "1/2 cup", "`cup US` (236.6 ml)", id="cup"),
        pytest.param("A 3-gallon tub.", "3-gallon", "`gallon imp` (4.546 l)", id="gallon"),
    ],
)
def test_units_of_several_sizes(sentence: str, unit: str, reading: str) -> None:
    text = recipe(do=sentence)
    (found,) = prose(text)
    assert (found.code, found.level) == ("prose-unit-two-readings", "warning")
    assert found.message == f"`{unit}` does not say which one"
    assert reading in found.help
    assert words(found, text) == unit


@pytest.mark.parametrize(
    "sentence", ["Use 8 fl oz US.", "Use 1 1/4 oz av.", "Pour it into a cup.", "One cup.", "2 grains of it"]
)
def test_units_of_one_size_and_words_without_a_number_are_left_alone(sentence: str) -> None:
    assert prose(recipe(do=sentence)) == ()


@pytest.mark.parametrize(
    "sentence", ["Take a 10 % solution.", "Use 5 % citrate.", "Add a 2-3 % bath.", "A 10 percent stock."]
)
def test_a_strength_says_percent_of_what(sentence: str) -> None:
    (found,) = prose(recipe(do=sentence))
    assert (found.code, found.level) == ("prose-percent-without-basis", "warning")
    assert "does not say percent of what" in found.message
    assert "% w/v` (g per 100 ml)" in found.help
    assert "% v/v` (ml per 100 ml)" in found.help


@pytest.mark.parametrize(
    "sentence",
    [
        pytest.param("Take a 10 % w/v solution.", id="with-basis"),
        pytest.param("Take 10 % of the bath away.", id="share"),
        pytest.param("Dry it at 60 % humidity.", id="humidity"),
        pytest.param("Allow 15 % more time.", id="more"),
        pytest.param("Add the 3 % peroxide.", id="on-the-bottle"),
        pytest.param("The sheet shrinks by 1 %. Solution stays behind.", id="next-sentence"),
    ],
)
def test_other_percents_are_left_alone(sentence: str) -> None:
    assert prose(recipe(do=sentence)) == ()


def test_an_archive_may_say_what_percent_means() -> None:
    assert prose(recipe(do="Take a 10 % solution."), percent="percent means: w/v\n") == ()


@pytest.mark.parametrize("sentence", ["'Dilute it 2:30.'", "'Take the bath at strength 1:4.'", "'Use it 1:15.'"])
def test_ratios_among_words_of_diluting(sentence: str) -> None:
    assert [p.code for p in prose(recipe(do=sentence))] == ["prose-ratio-two-readings"]
