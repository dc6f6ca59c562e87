"""A capacity is never shown without its caution."""

from dataclasses import replace

import pytest

from sitegen.compute.needed import UNTESTED
from sitegen.model.capacity import Spent, parse_capacity
from sitegen.render.spent import capacity_words
from tests.compute.plans import recipe

(BATH,) = recipe(keeps={"bath": "1 h"}).mixtures


@pytest.mark.parametrize(
    ("spent", "words"),
    [
        (None, "20 sheets of 20×25 cm per l"),
        ("replace", "20 sheets of 20×25 cm per l, then replace it whole"),
        ("replenish", "20 sheets of 20×25 cm per l; replenish it as it is used"),
    ],
)
def test_says_the_capacity_what_then_and_the_caution(spent: Spent | None, words: str) -> None:
    capacity = parse_capacity("20 sheets of 20x25 cm per l")
    said = capacity_words(replace(BATH, capacity=capacity, when_spent=spent))
    assert said == f"{words}. Caution: {UNTESTED}."


def test_nothing_is_said_where_nothing_is_known() -> None:
    assert capacity_words(BATH) == ""
