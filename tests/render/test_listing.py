"""Listings: the home page, processes, troubles and substances lead to everything, once and in order."""

import json
from collections.abc import Mapping

import pytest
from bs4 import BeautifulSoup

from sitegen.render.substance_page import first_letter

Pages = Mapping[str, bytes]
Soups = Mapping[str, BeautifulSoup]


def texts(soup: BeautifulSoup, selector: str) -> list[str]:
    return [" ".join(tag.get_text(" ", strip=True).split()) for tag in soup.select(selector)]


def found(public: Pages) -> list[dict[str, object]]:
    script = public["search/index.js"].decode()
    head, tail = "globalThis.traysideSearch = Object.freeze(", ");\n"
    assert script.startswith(head)
    assert script.endswith(tail)
    listed: list[dict[str, object]] = json.loads(script[len(head) : -len(tail)])
    return listed


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
    assert texts(page, ".entry")[0].startswith("Blues wash away Blue prints: IB-01 Blue print")
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


def test_search_finds_a_recipe_by_household_formula_and_number(public: Pages) -> None:
    blue = next(e for e in found(public) if e["c"] == "IB-01" and e["k"] == "recipe")
    words = blue["w"]
    assert isinstance(words, list)
    for word in (
        "sun print",
        "green salt of iron",
        "1185 57 5",
        "blues wash away",
        "blue prints",
        "k3[fe(cn)6]",
    ):
        assert word in words
    assert blue["u"] == "recipes/blue/index.html"


def test_search_holds_substances_and_troubles_and_only_pages_there_are(public: Pages) -> None:
    listed = found(public)
    assert {e["k"] for e in listed} == {"recipe", "substance", "trouble"}
    assert all(str(e["u"]).partition("#")[0] in public for e in listed)
