"""Quantities typed beside a name, against the mixtures."""

import pytest

from tests.check.bench import prose, recipe, words


def test_a_quantity_that_contradicts_the_mixture_is_an_error() -> None:
    text = recipe(do="Add 40 g of citrate and stir.")
    (found,) = prose(text)
    assert (found.code, found.level) == ("prose-amount-disagrees", "error")
    assert found.message == ("the text says `40 g`, but `part-a` holds 35 g of ferric ammonium citrate, green")
    assert found.help == (
        "write `[the citrate](amount:ferric-ammonium-citrate-green)`: "
        "the amount appears beside the words and is always the mixture's"
    )
    assert words(found, text) == "40 g"


def test_a_quantity_that_agrees_is_pointed_out() -> None:
    text = recipe(mixing="Dissolve 35 g of the citrate in warm water.")
    (found,) = prose(text)
    assert (found.code, found.level) == ("prose-amount-typed", "warning")
    assert found.message == "`35 g` is typed: the calculator changes the amount, not these words"
    assert found.help == (
        "write `[the citrate](amount:ferric-ammonium-citrate-green)`: the amount appears beside the words"
    )
    assert words(found, text) == "35 g"


@pytest.mark.parametrize(
    ("sentence", "says"),
    [
        pytest.param("Add 30 g of ferricyanide.", "`part-b` holds 20 g", id="percent-of-the-whole"),
        pytest.param("Weigh the citrate, 40 g, on paper.", "holds 35 g", id="name-first"),
        pytest.param("Weigh the citrate (40 g) on paper.", "holds 35 g", id="in-brackets"),
        pytest.param("Add 40 g of potassium ferricyanide.", "holds 20 g", id="full-name"),
        pytest.param("Add 40 g red prussiate.", "holds 20 g", id="old-name"),
        pytest.param("Add 30 drops of peroxide.", "holds 20 drops", id="drops"),
        pytest.param("Measure 25 ml of part A.", "`working` holds 20 ml of `part-a`", id="mixture-in-mixture"),
        pytest.param("Make 50 ml of the working sensitiser.", "`working` makes 40 ml", id="made"),
        pytest.param("Add 0.04 kg of citrate.", "holds 35 g", id="other-unit"),
        pytest.param("Add 1 oz av of citrate.", "holds 35 g", id="ounces"),
        pytest.param("Add 30-36 g of citrate.", "holds 35 g", id="range-too-wide"),
        pytest.param("Add 40 g of [the citrate](amount:part-a/water).", None, id="the-link-rules"),
        pytest.param("Add [40 g of citrate](amount:ferric-ammonium-citrate-green).", "holds 35 g", id="in-link"),
    ],
)
def test_names_and_figures_find_each_other(sentence: str, says: str | None) -> None:
    found = prose(recipe(mixing=sentence))
    assert [p.code for p in found] == (["prose-amount-disagrees"] if says else [])
    assert all(says and says in p.message for p in found)


@pytest.mark.parametrize(
    "sentence",
    [
        pytest.param("Add 40 g to the citrate.", id="to-it"),
        pytest.param("Dissolve the citrate in 150 ml of water.", id="part-of-the-water"),
        pytest.param("Dissolve the first 10 g of citrate.", id="a-part"),
        pytest.param("Keep 5 g of citrate for another day.", id="spare"),
        pytest.param("An older recipe takes 50 g of citrate.", id="another-recipe"),
        pytest.param("Count 5 g of citrate per litre.", id="rate"),
        pytest.param("Stir the citrate. Then 40 g of patience.", id="other-sentence"),
        pytest.param("Pour 10 ml of the working sensitiser along the edge.", id="some-of-a-mixture"),
        pytest.param("Take 40 ml of citrate.", id="another-dimension"),
        pytest.param("Weigh the citrate and 12 g of gum.", id="another-name"),
        pytest.param("Heat to 40 °C and add [the citrate](amount:ferric-ammonium-citrate-green).", id="warmth"),
    ],
)
def test_what_may_be_meant_otherwise_is_left_alone(sentence: str) -> None:
    assert [p for p in prose(recipe(mixing=sentence)) if p.code.startswith("prose-amount")] == []


def test_troubles_change_amounts_and_are_left_alone() -> None:
    assert prose(recipe(remedy="Add 40 g of citrate.")) == ()


def test_water_in_a_step_is_not_the_water_of_a_mixture() -> None:
    assert prose(recipe(do="Rinse with 500 ml of water.")) == ()


def test_the_mixture_the_words_belong_to_is_asked_first() -> None:
    more = """\
  wash:
    name: Wash
    contains:
      ferric-ammonium-citrate-green: 5 g
      water: to make 1 l
    mixing:
      - Add 35 g of citrate.
"""
    (found,) = (p for p in prose(recipe(more=more)) if p.level == "error")
    assert found.message.startswith("the text says `35 g`, but `wash` holds 5 g")
    assert "(amount:wash/ferric-ammonium-citrate-green)" in found.help
