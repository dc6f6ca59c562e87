"""Recipes: names of their own mixtures, values that cannot be changed."""

import dataclasses

import pytest

from tests.compute.shelf import mixture, recipe_of

PART = mixture("part-a", {"water": "1 l"}, frozenset({"water"}))
RECIPE = recipe_of(PART)


def test_a_mixture_is_found_by_its_name_within_the_recipe() -> None:
    assert (PART.local, RECIPE.mixture("part-a"), RECIPE.mixture("part-b")) == ("part-a", PART, None)


def test_values_are_frozen() -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        RECIPE.title = "another"  # type: ignore[misc]  # the point of the test
