"""Narrowing: choices combine, what is unknown is a choice of its own, the shelf counts what is missing."""

from typing import Any

from sitegen.compute.whole import Computed
from sitegen.render.search_documents import in_order, ingredients, traits
from sitegen.search.facets import Facet, Traits, facet_shards
from tests.search.narrowing import Narrower, Narrowing

PROCESS = Facet(id="process", said="Process", choices=(("a", "A"), ("b", "B"), ("unused", "C")))
HAZARD = Facet(id="hazard", said="Leave out", choices=(("skull", "skull"), ("unknown", "?")), leaves_out=True)
RECIPES = (
    Traits(choices={"process": ("a",), "hazard": ("skull",)}, holds=("borax", "alum")),
    Traits(choices={"process": ("b",), "hazard": ()}, holds=("alum",)),
    Traits(choices={"process": ("a",), "hazard": ("unknown",)}, holds=()),
)


def narrower() -> Narrower:
    shards = facet_shards(RECIPES, (PROCESS, HAZARD), {"borax": "borax", "alum": "alum"})
    held: dict[str, Any] = {shard.name: shard.data for shard in shards}
    return Narrower(held.__getitem__)


def kept(**ticked: str) -> list[int]:
    narrowing = Narrowing(ticked={name: frozenset(each.split()) for name, each in ticked.items()})
    return [n for n in range(3) if narrower().fits(narrowing)(n)]


def test_choices_of_one_facet_add_up_and_facets_narrow_each_other() -> None:
    assert kept() == [0, 1, 2]
    assert kept(process="a b") == [0, 1, 2]
    assert kept(process="a") == [0, 2]
    assert kept(process="a", hazard="skull") == [2]


def test_what_is_left_out_is_only_what_was_said_and_unknown_is_no_skull() -> None:
    assert kept(hazard="skull") == [1, 2]
    assert kept(hazard="skull unknown") == [1]


def test_a_choice_that_no_recipe_has_is_not_offered() -> None:
    shards = {s.name: s.data for s in facet_shards(RECIPES, (PROCESS,), {"borax": "b", "alum": "a"})}
    assert shards["facets"]["facets"][0]["choices"] == [("a", "A"), ("b", "B")]  # type: ignore[index]  # as written


def test_what_no_recipe_has_can_be_left_out_all_the_same() -> None:
    shards = {s.name: s.data for s in facet_shards(RECIPES[1:2], (HAZARD,), {"alum": "alum"})}
    assert shards["facets"]["facets"][0]["choices"] == list(HAZARD.choices)  # type: ignore[index]  # as written


def test_the_shelf_counts_what_is_missing() -> None:
    assert narrower().missing(Narrowing(ticked={}, shelf=frozenset({"alum"}))) == [1, 0, 0]


def test_a_card_without_data_makes_its_recipe_unknown_and_never_harmless(computed: Computed) -> None:
    for recipe in in_order(computed):
        cards = ingredients(recipe, computed, optional=True)
        unknown = any(card.hazards.basis == "no data" for card in cards)
        assert ("unknown" in traits(recipe, computed).choices["hazard"]) == unknown


def test_acutely_toxic_ingredients_bring_a_skull(computed: Computed) -> None:
    for recipe in in_order(computed):
        classes = [name for card in ingredients(recipe, computed, optional=True) for name in card.hazards.classes]
        toxic = any(name.startswith(("Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3")) for name in classes)
        assert ("skull" in traits(recipe, computed).choices["hazard"]) == toxic


def test_a_light_is_only_asked_for_by_the_recipes_that_need_it(computed: Computed) -> None:
    lights = {recipe.code: traits(recipe, computed).choices["light"] for recipe in in_order(computed)}
    assert {"sun" in lights[code] for code in ("IB-01", "IB-02", "IS-01", "PE-02")} == {True}
    assert {"no-sun" in lights[code] for code in ("TN-01", "IK-01", "FD-01")} == {True}  # "daylight, not direct sun"
    assert {"sun", "no-sun"}.isdisjoint(lights["SP-01"])  # exposes, and does not say by what
    assert [code for code, found in lights.items() if "dark" in found] == ["FD-01"]  # a dark cloth is no darkness


def test_every_recipe_has_a_time_a_light_and_an_amount_of_work(computed: Computed) -> None:
    for recipe in in_order(computed):
        chosen = traits(recipe, computed).choices
        assert chosen["time"]
        assert chosen["light"]
        assert chosen["work"]
