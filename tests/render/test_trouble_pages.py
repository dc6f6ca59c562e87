"""Troubles of the archive: shared ones once, in the order of the work, with links to the steps of each recipe."""

from collections.abc import Mapping
from typing import get_args

from bs4 import BeautifulSoup

from sitegen.model.recipe import Cause, Recipe, Seen
from sitegen.render.trouble_pages import PARTS, step_link
from tests.render.test_recipe_page import one, words

Soups = Mapping[str, BeautifulSoup]


def test_every_part_of_the_work_has_its_words_in_the_order_of_the_work() -> None:
    assert tuple(PARTS) == (*get_args(Seen), None)


def test_a_shared_trouble_stands_once_with_all_its_recipes(soups: Soups) -> None:
    entry = one(soups["troubles/index.html"], "#pale-overall")
    assert words(one(entry, ".entry-summary")).startswith("Blue prints: IB-01 Blue print")
    assert entry["data-process"] == "blue"
    assert entry["data-stage"] == "wash"
    assert entry["data-words"] == "washed out weak"
    assert one(entry, 'a[href="../recipes/blue/index.html#stage-1-step-1"]').get_text() == "IB-01 Coat, step 1"


def test_it_is_drawn_into_the_recipes_own_page(soups: Soups) -> None:
    section = one(soups["recipes/blue/troubles.html"], "#pale-overall")
    assert one(section, 'a[href="../../recipes/blue/index.html#stage-1-step-1"]').get_text() == "Coat, step 1"


def test_each_process_has_its_page_and_is_led_to(soups: Soups) -> None:
    page = soups["troubles/blue/index.html"]
    assert page.select("#pale-overall")
    assert soups["processes/blue/index.html"].select('a[href="../../troubles/blue/index.html"]')
    assert not soups["processes/stock/index.html"].select('a[href^="../../troubles/stock"]')


def test_a_step_of_a_recipe_is_the_first_it_has() -> None:
    cause = Cause(cause="x", remedy="y", steps=("Expose", "Coat"))
    assert step_link(cause, recipe_with()) is None


def recipe_with() -> Recipe:
    return Recipe(
        slug="bare", title="Bare", code="BA-01", summary="", process="blue", edition="", revision=1,
        revised=None, mixtures=(), hazards=None, at=None,  # type: ignore[arg-type]  # not looked at
    )  # fmt: skip
