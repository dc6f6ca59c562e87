"""Search on the home page: half words, household names, the keyboard, from the disk."""

import pytest
from playwright.sync_api import Page

from tests.browser.conftest import Open


@pytest.fixture
def home(visit: Open) -> Page:
    return visit("index.html")


def titles(page: Page, words: str) -> list[str]:
    page.fill("#search input", words)
    return page.locator("#found .entry-title").all_inner_texts()


def test_half_a_word_is_enough(home: Page) -> None:
    assert titles(home, "iron-bl")[0] == "Iron-blue print"
    assert "Iron-blue print" in titles(home, "ferricyan")


@pytest.mark.parametrize("words", ["washing soda", "washing-soda", "WASHING SODA", "soda washing", "washingsoda"])
def test_household_names_are_found_however_they_are_written(words: str, home: Page) -> None:
    assert any("sodium carbonate" in title.lower() for title in titles(home, words))


def test_a_code_is_found(home: Page) -> None:
    assert titles(home, "ib-01")[0] == "Iron-blue print"
    assert titles(home, "IB01")[0] == "Iron-blue print"


def test_accents_do_not_count(home: Page) -> None:
    assert titles(home, "írön blüe") == titles(home, "iron blue") != []


def test_every_word_must_be_found(home: Page) -> None:
    assert titles(home, "iron-blue zebra") == []
    assert home.locator("[role=status]").inner_text() == "Nothing found"


def test_a_title_comes_before_a_name_and_a_name_before_a_mention(home: Page) -> None:
    found = home.evaluate(
        """() => {
          const { find, prepare } = traysideFind;
          const entry = (t, c, w, s) => ({ t, c, w, s, u: t, k: "recipe" });
          const index = [entry("d", "", [], "tea"), entry("c", "", ["tea"], ""), entry("b", "TEA-1", [], ""),
            entry("Tea toner", "", [], ""), entry("Tea", "", [], "")];
          return find("tea", index.map(prepare)).map((found) => found.t);
        }"""
    )
    assert found == ["Tea", "Tea toner", "b", "c", "d"]


def test_keys_walk_through_what_is_found_and_open_it(home: Page) -> None:
    home.locator("h1").click()
    home.keyboard.press("/")
    assert home.evaluate("document.activeElement.type") == "search"
    home.keyboard.type("iron-blue print")
    home.keyboard.press("ArrowDown")
    first = home.locator("#found a").first
    assert first.evaluate("node => node === document.activeElement")
    home.keyboard.press("ArrowUp")
    assert home.evaluate("document.activeElement.type") == "search"
    home.keyboard.press("Enter")
    home.wait_for_url("**/recipes/iron-blue/index.html")


def test_a_slash_in_a_field_is_only_a_slash(home: Page) -> None:
    home.fill("#search input", "1")
    home.keyboard.press("/")
    assert home.input_value("#search input") == "1/"


def test_results_are_counted_aloud(home: Page) -> None:
    count = len(titles(home, "toner"))
    assert home.locator("[role=status]").inner_text() == f"{count} found"


def test_nothing_typed_shows_nothing(home: Page) -> None:
    titles(home, "tea")
    assert titles(home, "") == []
    assert home.locator("[role=status]").inner_text() == ""
