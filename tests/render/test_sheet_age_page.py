"""The lookup page: every code of the edition with its revisions in words, and none that the edition lacks."""

from dataclasses import replace

from bs4 import BeautifulSoup, Tag

from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.model.origin import Change
from sitegen.problems import Problems, Span
from sitegen.read.theme import Theme
from sitegen.render.frame import frame
from sitegen.render.links import SHEETS
from sitegen.render.recipe_page import recipe_page
from sitegen.render.sheet_age_page import ANCHORED, sheet_age_page
from tests.render.conftest import Pages
from tests.render.test_recipe_page import one, words

CHANGES = (
    Change(revision=3, what="Less soda.", at=Span(file="x")),
    Change(
        revision=4, what="The salt is named.", corrects="The salt was <b>ten</b> times too much.", at=Span(file="x")
    ),
)


def soup(archive: Archive, theme: Theme, edition: str = "public", **changed: object) -> BeautifulSoup:
    """The page, with the blue print changed."""
    page = sheet_age_page(frame(compute(altered(archive, **changed).edition(edition), Problems()), theme, edition))
    assert page.path == SHEETS
    return BeautifulSoup(page.content, "html.parser")


def altered(archive: Archive, **changed: object) -> Archive:
    recipes = tuple(replace(r, **changed) if r.slug == "blue" else r for r in archive.recipes)  # type: ignore[arg-type]
    return replace(archive, recipes=recipes)


def rows(page: BeautifulSoup, code: str) -> list[list[str]]:
    return [[words(cell) for cell in row.select("td")] for row in page.select(f"[id='{code}'] tr[data-last]")]


def test_each_revision_is_told_in_words_by_hand(archive: Archive, theme: Theme) -> None:
    page = soup(archive, theme, revision=5, changes=CHANGES)
    assert rows(page, "IB-01") == [
        ["5", "Current", "Not written down"],
        [
            "4",
            "Superseded",
            "The salt is named. Mistake in the sheets before it: The salt was <b>ten</b> times too much.",
        ],
        ["3", "Do not use: it held a mistake", "Less soda."],
        ["2 to 1", "Do not use: it held a mistake", "Not written down"],
    ]
    assert words(one(page, "[id='IB-01'] .of")).endswith("revision 5, 2 March 2026")
    assert rows(page, "ST-01") == [["1", "Current", "The first"]]


def test_every_code_and_every_revision_is_a_place_on_the_page(archive: Archive, theme: Theme) -> None:
    page = soup(archive, theme, revision=5, changes=CHANGES)
    ids = [node["id"] for node in page.select("[id]")]
    assert len(ids) == len(set(ids))
    assert {f"IB-01.{n}" for n in range(1, 6)} | {"IB-01", "ST-01", "ST-01.1"} <= set(ids)


def test_a_long_run_of_revisions_has_anchors_for_its_newest(archive: Archive, theme: Theme) -> None:
    ids = {str(node["id"]) for node in soup(archive, theme, revision=999_999).select("[id^='IB-01.']")}
    assert len(ids) == ANCHORED + 1
    assert {"IB-01.999999", "IB-01.999998"} <= ids


def test_a_code_of_another_edition_is_answered_like_one_that_never_was(public: Pages, supporters: Pages) -> None:
    assert b"KX-99" in supporters[SHEETS]
    assert b"KX" not in public[SHEETS]
    assert b"Planted" not in public[SHEETS]


def test_a_retired_recipe_says_so(archive: Archive, theme: Theme) -> None:
    retired = one(soup(archive, theme, status="retired"), "[id='IB-01']")
    assert retired["data-status"] == "retired"
    assert "Retired: kept so that old prints can be traced" in words(one(retired, ".of"))


def test_recipes_and_home_lead_to_it_and_a_mistake_is_said_on_the_recipe(archive: Archive, theme: Theme) -> None:
    framed = frame(compute(altered(archive, revision=5, changes=CHANGES), Problems()), theme, "supporters")
    recipe = framed.computed.archive.recipe_named["blue"]
    page = BeautifulSoup(recipe_page(recipe, framed).content, "html.parser")
    assert words(link(page, "../../sheets/index.html#IB-01")) == "Is my printed sheet current?"
    note = next(p for p in page.select(".from .plain-note"))
    assert words(note).startswith("Do not use sheets printed before revision 4: they hold a mistake. The salt was")
    assert not page.select(".from b")


def test_the_home_page_leads_to_it(public: Pages) -> None:
    assert words(link(BeautifulSoup(public["index.html"], "html.parser"), SHEETS)) == "Is my printed sheet current?"


def link(page: BeautifulSoup, way: str) -> Tag:
    return one(page, f'a[href="{way}"]')
