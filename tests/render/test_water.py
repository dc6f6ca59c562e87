"""Water on pages: the first water of the archive, every state in words, and nothing that is not known as harmless."""

import json

import pytest
from bs4 import BeautifulSoup

from sitegen.check import check_archive
from sitegen.compute.whole import compute
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import Theme, read_theme
from sitegen.render.sheet_data import sheet_data
from sitegen.render.site import pages

SETTINGS = """
title: The mill
editions: [public, supporters]
processes: {blue: {name: Blue prints}}
WATER
"""
WATERS = """
water:
  yard: {name: Pump in the yard, pH: 6.4-7.2, hardness: 12 °dH, source: Drop test, note: Rusty <b>by morning</b>.}
  hall: {name: Hall tap, pH: 6.2, chlorine: 0.4 mg/l, alkalinity: 4 mmol/l, edition: supporters}
"""
BLUE = """
title: Blue print
code: IB-01
summary: A blue print.
process: blue
revision: 1
revised: 2026-03-02
credits: [{work: The mill, relation: own}]
mixtures:
  coat: {name: Coat, coverage: 40 ml/m², contains: {potassium-ferricyanide: 8 g, water: to make 100 ml}}
hazards:
  {wear: Gloves and goggles., air: No dust., never: "No acid, no heat.", first aid: Rinse., disposal: Local rules.}
stages:
  - title: Wash
    steps:
      - {do: "Brush on [the coat](mixture:coat)."}
      - {do: Wash., for: 40 min, water: wash}
"""


@pytest.fixture(scope="module")
def theme() -> Theme:
    return read_theme()


def soups(theme: Theme, waters: str, edition: str = "public", recipe: str = BLUE) -> dict[str, BeautifulSoup]:
    problems = Problems()
    texts = {"archive.yaml": SETTINGS.replace("WATER", waters), "recipes/blue.yaml": recipe}
    archive = check_archive(compose_sources(base_cards() | texts, problems), problems)
    assert archive is not None
    assert not problems.failed, problems.in_order()
    computed = compute(archive.edition(edition), problems)
    kept = ("recipes/blue/index.html", "water/index.html")
    found = {page.path: page.content for page in pages(computed, theme, edition) if page.path in kept}
    return {path: BeautifulSoup(content, "html.parser") for path, content in found.items()}


def told(soup: BeautifulSoup) -> dict[str, tuple[str, bool]]:
    """Each piece of advice of a step by its title: the words of its state, and whether more is shown."""
    return {
        one.select_one("strong").get_text(): (  # type: ignore[union-attr]
            one.select_one("[data-words]").get_text(),  # type: ignore[union-attr]
            not one.select_one("[data-more]").has_attr("hidden"),  # type: ignore[union-attr]
        )
        for one in soup.select(".water-step [data-water-item]")
    }


def test_advice_is_for_the_first_water_and_says_what_is_not_known(theme: Theme) -> None:
    soup = soups(theme, WATERS)["recipes/blue/index.html"]
    assert told(soup) == {
        "Alkaline water takes the blue down": ("pH 6.4–7.2, above 7 at times", True),
        "Hard water dries into the sheet": ("hardness 12 °dH, above 180 mg/l CaCO3", True),
        "Chlorine adds to what a long wash costs": ("chlorine not known; it matters above 0 mg/l", True),
    }
    step = " ".join(soup.select_one(".water-step").get_text(" ").split())  # type: ignore[union-attr]
    assert "Only the hardness is known, and hardness is not carbonate hardness: no acid is worked out." in step
    assert "At most 20 min; as written, this step may take longer." in step
    assert "safe" not in step


def test_what_is_not_reached_is_said_without_a_promise(theme: Theme) -> None:
    soup = soups(theme, WATERS.replace("6.4-7.2", "6.1"))["recipes/blue/index.html"]
    words, shown = told(soup)["Alkaline water takes the blue down"]
    assert words == "pH 6.1, not above 7 when it was measured. Supplies change, so this is no promise."
    assert not shown


def test_without_a_water_everything_that_depends_on_one_is_unknown(theme: Theme) -> None:
    found = soups(theme, "")
    assert all("not known" in words and shown for words, shown in told(found["recipes/blue/index.html"]).values())
    assert "names no water yet" in found["water/index.html"].get_text()


def test_a_step_that_no_rule_speaks_of_is_not_called_harmless(theme: Theme) -> None:
    recipe = BLUE.replace("water: wash", "water: mixing")
    wash = "  - {title: Rinse, steps: [{do: Rinse., water: wash}]}\n"
    soup = soups(theme, WATERS, recipe=recipe + wash)["recipes/blue/index.html"]
    assert "not the same as harmless" in soup.select("#stage-1-step-2 .water-step")[0].get_text()


def test_a_recipe_that_uses_no_water_has_no_panel(theme: Theme) -> None:
    soup = soups(theme, WATERS, recipe=BLUE.replace(", water: wash", ""))["recipes/blue/index.html"]
    assert soup.select("#water, #water-data, .water-step") == []


def test_a_water_of_a_higher_edition_is_nowhere_in_a_lower_one(theme: Theme) -> None:
    for soup in soups(theme, WATERS).values():
        assert "Hall tap" not in str(soup)
        assert '"hall"' not in str(soup)
    higher = soups(theme, WATERS, "supporters")
    assert "Hall tap" in str(higher["recipes/blue/index.html"])
    assert higher["water/index.html"].select_one("section#hall") is not None


def test_the_page_of_waters_gives_other_units_and_every_rule(theme: Theme) -> None:
    soup = soups(theme, WATERS)["water/index.html"]
    # 12 °dH are 214 mg/l of calcium carbonate (17.85 each) and 2.1 mmol/l (0.1783 each).
    facts = " ".join(soup.select_one("#yard .facts").get_text(" ").split())  # type: ignore[union-attr]
    for text in ("214 mg/l CaCO3", "2.1 mmol/l", "21 °fH", "15 °e", "13 gpg US", "86 mg/l Ca"):
        assert text in facts
    assert len(soup.select("#rules h3")) >= 10
    assert "Rusty <b>by morning</b>." in soup.select_one("#yard").get_text()  # type: ignore[union-attr]


def test_the_data_block_holds_plain_numbers(theme: Theme) -> None:
    soup = soups(theme, WATERS)["recipes/blue/index.html"]
    data = json.loads(soup.select_one("#water-data").get_text())  # type: ignore[union-attr]
    assert data["items"][0]["over"] == ["7", "7"]
    assert data["waters"][0]["readings"]["pH"] == ["32/5", "36/5", "6.4–7.2"]


def test_a_sheet_has_a_line_for_the_first_water_at_each_step_that_uses_it(theme: Theme) -> None:
    problems = Problems()
    texts = {"archive.yaml": SETTINGS.replace("WATER", WATERS.replace("12 °dH", "12 °dH, alkalinity: 4 mmol/l"))}
    archive = check_archive(compose_sources(base_cards() | texts | {"recipes/blue.yaml": BLUE}, problems), problems)
    assert archive is not None
    data = sheet_data(compute(archive.edition("public"), problems), archive.recipes[0])
    brushed, washed = data.stages[0].steps
    assert "Water" not in dict(brushed.remarks)
    assert dict(washed.remarks)["Water"].replace("\N{NO-BREAK SPACE}", " ") == (
        "Pump in the yard: alkaline, still changes (at times); at most 20 min; it takes up 0.48 g of citric acid "
        "(monohydrate) a litre (reckoned, not tried); hard, last 5 min distilled for cloth; chlorine not known "
        "(if above 0 mg/l: chlorinated, let it stand)."
    )
