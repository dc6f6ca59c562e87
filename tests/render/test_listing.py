"""Listings: the home page, processes, troubles and substances lead to everything, once and in order."""

import re
from collections.abc import Mapping
from html import unescape

import pytest
from bs4 import BeautifulSoup

from sitegen.render.substance_page import first_letter

Pages = Mapping[str, bytes]
Soups = Mapping[str, BeautifulSoup]


def texts(soup: BeautifulSoup, selector: str) -> list[str]:
    return [" ".join(tag.get_text(" ", strip=True).split()) for tag in soup.select(selector)]


def test_home_shows_what_is_new_what_there_is_and_where_to_search(soups: Soups) -> None:
    home = soups["index.html"]
    assert texts(home, ".recent .code") == ["KX-99", "IB-01", "ST-01"]
    assert texts(home, ".recipes .code") == ["IB-01", "KX-99", "ST-01"]
    assert texts(home, ".processes li") == ["Blue prints 2 recipes", "Stock bottles 1 recipe"]
    assert home.select("form#search[role=search] input[type=search]#words")
    assert home.select("ol#found")


def test_a_process_lists_its_recipes(soups: Soups) -> None:
    assert texts(soups["processes/blue/index.html"], ".recipes .code") == ["IB-01", "KX-99"]


def test_troubles_name_their_process_and_lead_to_recipe_and_cause(soups: Soups) -> None:
    page = soups["troubles/index.html"]
    found = [text for text in texts(page, ".entry") if text.startswith("Blues wash away")]
    assert len(found) == 1
    assert found[0].startswith("Blues wash away Blue prints: IB-01 Blue print")
    assert page.select('a[href="../recipes/blue/troubles.html#blues-wash-away"]')


def test_every_name_of_a_substance_is_in_the_index(soups: Soups) -> None:
    names = texts(soups["substances/index.html"], ".names li")
    assert "washing soda: sodium carbonate" in names
    assert "sodium carbonate" in names


def test_a_substance_shows_its_forms_with_formula_and_molar_mass(soups: Soups) -> None:
    row = soups["substances/sodium-carbonate/index.html"].select_one("#sodium-carbonate-decahydrate")
    assert row
    # 286.14 g/mol: shared/check-values, CIAAW weights
    assert "286.14" in row.get_text()
    assert "Na<sub>2</sub>CO<sub>3</sub>·10H<sub>2</sub>O" in str(row)


def test_no_data_is_not_said_to_be_harmless(soups: Soups) -> None:
    page = soups["substances/plantedcard/index.html"].get_text()
    assert "Not enough data, which is not the same as harmless." in page
    assert "nobody looked" in page


@pytest.mark.parametrize("beside", ["also called", "Reacts as", "Store", "Dispose"])
def test_what_is_not_yet_checked_is_marked(soups: Soups, beside: str) -> None:
    page = soups["substances/sodium-carbonate/index.html"]
    marked = [tag.parent.get_text(" ") for tag in page.select(".unchecked") if tag.parent]
    assert len(marked) == 4
    assert any(beside in text for text in marked)


def test_names_are_filed_under_their_first_letter_whatever_stands_before_it() -> None:
    assert [first_letter(name) for name in ("alum", "Écume", "(R)-limonene", "1,2-diol", "·")] == [
        "A", "E", "R", "0–9", "0–9"
    ]  # fmt: skip


def test_a_substance_names_its_look_alikes_and_its_recipes(soups: Soups) -> None:
    page = soups["substances/ferric-ammonium-citrate/index.html"]
    assert "Not to be mistaken for" in page.get_text()
    assert page.select('a[href="../../recipes/blue/index.html"]')


def test_every_way_to_look_through_is_a_page_of_links(soups: Soups) -> None:
    ways = texts(soups["search/index.html"], ".browse a")
    assert ways == [
        "All recipes, A to Z", "Processes", "Substances", "Symptoms", "Keywords and seasons",
        "Where sources disagree", "Recently revised",
    ]  # fmt: skip
    assert texts(soups["recipes/index.html"], ".recipes .code") == ["IB-01", "KX-99", "ST-01"]
    assert texts(soups["processes/index.html"], ".entry-link") == ["Blue prints", "Stock bottles"]
    assert "sun print" in texts(soups["keywords/index.html"], ".own-name")
    assert texts(soups["revised/index.html"], ".code") == ["KX-99", "IB-01", "ST-01"]


def test_a_browser_can_add_the_search_where_there_is_an_address(public: Pages, soups: Soups) -> None:
    text = public["search/opensearch.xml"]
    assert b'template="https://mill.example/search/index.html#q={searchTerms}"' in text
    name = re.search(rb"<ShortName>([^<]+)<", text)
    assert name
    assert len(unescape(name[1].decode())) <= 16  # OpenSearch 1.1, ShortName
    assert soups["recipes/blue/index.html"].select('link[rel=search][href="../../search/opensearch.xml"]')


def test_search_loads_its_scripts_in_order_and_nothing_of_the_index_but_its_head(soups: Soups) -> None:
    scripts = [str(tag["src"]) for tag in soups["index.html"].select("script[src]")]
    assert [name for name in scripts if "search" in name] == [
        "search/index.js",
        "assets/search-words.js",
        "assets/search-rank.js",
        "assets/search.js",
    ]
