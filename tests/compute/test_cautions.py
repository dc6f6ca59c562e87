"""Usual cautions: what of the work and the kit brings each up, and when the author has said it already."""

from dataclasses import replace

import pytest

from sitegen.compute.cautions import caution_table, usual_cautions
from sitegen.model.recipe import Recipe
from tests.check.pairs.bench import archive, mix, recipe, stage


def ids(made: Recipe) -> set[str]:
    return {one.id for one in usual_cautions(made, archive(made))}


def test_a_recipe_of_water_alone_brings_up_nothing() -> None:
    assert ids(recipe("water 5 ml")) == set()


@pytest.mark.parametrize(
    ("step", "caution"),
    [
        ("Expose under the UV lamp.", "ultraviolet"),
        ("Expose in the exposure unit.", "ultraviolet"),
        ("Simmer for an hour.", "heat"),
        ("Hold it at the range. @ 46 °C", "heat"),
        ("Stir with a plastic spoon.", "utensils"),
    ],
)
def test_words_and_figures_of_the_steps_bring_cautions_up(step: str, caution: str) -> None:
    assert ids(recipe("water 5 ml", stages=[stage(step)])) == {caution}


@pytest.mark.parametrize(
    "step",
    [
        "Judge it by a lamp that shows yellow.",
        "Use a pane that lets ultraviolet through.",
        "Hold it at the range. @ 45 °C",
        "Never boil it.",
        "Add cooled boiled water.",
        "Stir with potassium in mind, then expand.",
    ],
)
def test_near_misses_do_not(step: str) -> None:
    assert ids(recipe("water 5 ml", stages=[stage(step)])) == set()


def test_needs_count_as_well_as_steps() -> None:
    assert ids(recipe("water 5 ml", needs=["Old pan, cloth"])) == {"utensils"}


def test_powders_that_are_weighed_are_named_and_salt_is_none() -> None:
    (dust,) = usual_cautions(made := recipe("citric-acid-anhydrous 5 g"), archive(made))
    assert (dust.id, dust.because) == ("dust", "weighed here: citric acid, anhydrous")
    assert dust.source == "common practice, no source"
    assert ids(recipe("sodium-chloride 5 g")) == set()


def test_silver_and_plant_colour_stain() -> None:
    assert "silver-stains" in ids(recipe("silver-nitrate 5 g"))
    assert {"colour-stains"} == ids(recipe("onion-skin 5 g"))


def test_what_stands_or_is_kept_calls_for_children_and_pets() -> None:
    assert ids(recipe(mix("water 5 ml", keeps="2 h"))) == {"children"}
    assert ids(recipe(mix("water 5 ml", keeps="20 min"))) == set()


def test_the_authors_word_in_the_block_is_not_said_again_and_first_aid_is_no_such_word() -> None:
    step = [stage("Simmer it.")]
    assert ids(recipe("water 5 ml", stages=step, air="Steam scalds.")) == set()
    told = recipe("water 5 ml", stages=step)
    aided = replace(told, hazards=replace(told.hazards, first_aid=("Scalds. Cool with water.",)))
    assert ids(aided) == {"heat"}


def test_every_caution_has_a_sentence_a_source_and_something_that_brings_it_up() -> None:
    for doc in caution_table().cautions.values():
        assert doc.says.endswith(".")
        assert doc.source
        assert doc.words or doc.over or doc.standing or doc.weighed or doc.groups
