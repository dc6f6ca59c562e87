"""Substances that steps name, against what the mixtures hold."""

import pytest

from tests.check.bench import prose, recipe, words

RESCUE = """\
  rescue:
    name: Rescue bath
    contains: {citric-acid-anhydrous: 1 g, water: to make 1 l}
"""


@pytest.mark.parametrize(
    ("sentence", "named"),
    [
        pytest.param("Add a little potassium bromide.", "potassium bromide", id="name"),
        pytest.param("Add a little Baking Soda.", "Baking Soda", id="household"),
        pytest.param("Add a drop of vinegar.", "vinegar", id="form"),
    ],
)
def test_a_substance_that_no_mixture_holds(sentence: str, named: str) -> None:
    text = recipe(do=sentence)
    (found,) = prose(text)
    assert (found.code, found.level) == ("prose-unknown-ingredient", "warning")
    assert found.message == f"no mixture of this recipe holds `{named}`"
    assert found.help == "add it to a mixture, name it in `needs`, or link to the recipe it comes from"
    assert words(found, text) == named


@pytest.mark.parametrize(
    "sentence",
    [
        pytest.param("Add the citrate to the ferricyanide.", id="held"),
        pytest.param("Add the red prussiate.", id="held-by-an-old-name"),
        pytest.param("Make some tea with salt in tap water.", id="ordinary"),
        pytest.param("Wait for a full Prussian blue.", id="a-colour"),
        pytest.param("Never add baking soda.", id="a-warning"),
        pytest.param("Oak bark and walnut hulls go well with it.", id="plants"),
        pytest.param("See [silver nitrate](substance:silver-nitrate).", id="linked"),
    ],
)
def test_names_that_are_known_or_ordinary(sentence: str) -> None:
    assert prose(recipe(do=sentence)) == ()


def test_what_needs_names_is_known() -> None:
    assert prose(recipe(do="Add baking soda.", needs="Baking soda for the drain")) == ()


def test_what_a_linked_recipe_holds_is_known() -> None:
    more = "  wash:\n    name: Wash\n    contains: {potassium-bromide: 1 g, water: to make 1 l}\n"
    other = recipe(more=more, do="Use [it](mixture:wash).").replace("IB-07", "IB-08")
    assert prose(recipe(do="Add the potassium bromide of [the other](recipe:other)."), other) == ()


@pytest.mark.parametrize(
    ("sentence", "named"),
    [
        pytest.param("Add the potassium ferrocyanide.", "potassium ferrocyanide", id="name"),
        pytest.param("Add the ferrocyanide.", "ferrocyanide", id="last-word"),
        pytest.param("Add the yellow prussiate.", "yellow prussiate", id="old-name"),
    ],
)
def test_a_look_alike_of_an_ingredient_is_an_error(sentence: str, named: str) -> None:
    text = recipe(do=sentence)
    (found,) = prose(text)
    assert (found.code, found.level) == ("look-alike-name", "error")
    assert found.message == f"`{named}` is named here, and the mixtures hold potassium ferricyanide"
    assert found.help == (
        "write `potassium ferricyanide`, or add `potassium-ferrocyanide` to a mixture or name it in `needs`"
    )
    assert words(found, text) == named


@pytest.mark.parametrize(("old", "new"), [("sulfite", "sulfate"), ("sulphite", "sulphate")])
def test_sulfite_and_sulfate_in_either_spelling(old: str, new: str) -> None:
    more = "  wash:\n    name: Wash\n    contains: {sodium-sulfite-anhydrous: 1 g, water: to make 1 l}\n"
    assert prose(recipe(more=more, do=f"Clear in the {old} of [the wash](mixture:wash).")) == ()
    (found,) = prose(recipe(more=more, do=f"Clear in the {new} of [the wash](mixture:wash)."))
    assert found.code == "look-alike-name"


@pytest.mark.parametrize(
    "sentence",
    [
        "Do not take ferrocyanide.",
        "Never take potassium ferrocyanide for it.",
        "The jars of ferricyanide and ferrocyanide are easy to confuse.",
    ],
)
def test_a_sentence_that_warns_of_the_look_alike_is_left_alone(sentence: str) -> None:
    assert prose(recipe(do=sentence)) == ()


def test_a_recipe_that_holds_both_is_left_alone() -> None:
    more = "  wash:\n    name: Wash\n    contains: {potassium-ferrocyanide: 1 g, water: to make 1 l}\n"
    assert prose(recipe(more=more, do="Add ferrocyanide from [it](mixture:wash), then ferricyanide.")) == ()


def test_another_form_than_the_mixture_holds() -> None:
    more = "  wash:\n    name: Wash\n    contains: {sodium-carbonate-anhydrous: 1 g, water: to make 1 l}\n"
    assert prose(recipe(more=more, do="Put soda ash into [the wash](mixture:wash).")) == ()
    (found,) = prose(recipe(more=more, do="Put washing soda into [the wash](mixture:wash)."))
    assert (found.code, found.level) == ("other-form-named", "warning")
    assert found.message == "`washing soda` is another form than the mixtures hold"
    assert found.notes == ("the mixtures hold sodium carbonate, anhydrous",)


def test_a_mixture_that_no_step_speaks_of() -> None:
    text = recipe(more=RESCUE)
    (found,) = prose(text)
    assert (found.code, found.level) == ("mixture-unused", "warning")
    assert found.message == "`rescue` is mixed, and no step says what it is for"
    assert found.help == "link to it in a step: `[Rescue bath](mixture:rescue)`"
    assert words(found, text) == "rescue"


@pytest.mark.parametrize(
    ("field", "sentence"),
    [
        ("do", "Dip it in [the bath](mixture:rescue)."),
        ("do", "Add [the acid](amount:citric-acid-anhydrous)."),
        ("do", "Dip it in the rescue bath."),
        ("remedy", "The rescue bath helps."),
    ],
)
def test_a_mixture_that_is_spoken_of(field: str, sentence: str) -> None:
    assert prose(recipe(more=RESCUE, **{field: sentence})) == ()


def test_a_recipe_without_stages_may_hold_mixtures_for_others() -> None:
    text = recipe()
    start, end = text.index("stages:"), text.index("troubles:")
    assert prose(text[:start] + text[end:]) == ()
