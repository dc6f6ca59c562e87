"""Pages of the journal: figures, ages, failures, and where they are led to from the recipe and its troubles."""

from pathlib import Path

import pytest
from bs4 import BeautifulSoup

from sitegen.cli.shell import load
from sitegen.compute.whole import compute
from sitegen.problems import Problems
from sitegen.read.theme import read_theme
from sitegen.render.site import pages

CONTENT = Path(__file__).parents[2] / "content"
IRON, BARK = "2026-06-06-more-iron-in-part-a", "2026-10-10-bark-bath-of-last-weekend"


@pytest.fixture(scope="module")
def demo() -> dict[str, BeautifulSoup]:
    archive = load(CONTENT).archive
    assert archive is not None
    found = pages(compute(archive.edition("public"), Problems()), read_theme(), "public")
    wanted = ("journal/", "recipes/iron-blue/", "recipes/oak-bark-toner/", "index.html", "archive.json", "water/")
    return {p.path: BeautifulSoup(p.content, "html.parser") for p in found if p.path.startswith(wanted)}


def words(page: BeautifulSoup, where: str) -> list[str]:
    return [node.get_text(" ", strip=True).replace("\N{NO-BREAK SPACE}", " ") for node in page.select(where)]


def test_figures_stand_beside_those_of_the_revision(demo: dict[str, BeautifulSoup]) -> None:
    page = demo[f"journal/{IRON}/index.html"]
    assert words(page, ".tried tbody tr") == ["Ferric ammonium citrate, green in Part A, iron 50 g 60 g +20 %"]
    assert page.select('.tried a[href="../../recipes/iron-blue/index.html#mix-part-a"]')
    assert words(page, ".edition-line .verdict") == ["failed"]


def test_old_stock_is_said_plainly(demo: dict[str, BeautifulSoup]) -> None:
    page = demo[f"journal/{BARK}/index.html"]
    assert "7 days old, past its keeping" in words(page, ".bottles li")[0]
    assert words(page, ".plain-note")[-1].startswith("Old stock. This trouble can come from old stock, and")
    trouble = demo["recipes/oak-bark-toner/troubles.html"]
    assert "Bark bath of last weekend" in " ".join(words(trouble, "#no-change-in-the-tannin .trial-entry"))
    assert "Old Oak-bark bath can cause this." in " ".join(words(trouble, "#no-change-in-the-tannin dd"))


def test_the_recipe_shows_its_trials_newest_first_with_what_has_moved_on(demo: dict[str, BeautifulSoup]) -> None:
    shown = words(demo["recipes/iron-blue/index.html"], ".tried-here .trial-entry")
    assert [text[:10] for text in shown] == ["2026-06-06", "2026-03-15", "2026-02-27"]
    assert "which became revision 5" in shown[1]
    assert "the recipe is at revision 5 now" in shown[2]


def test_a_water_of_the_archive_is_named_and_linked_to(demo: dict[str, BeautifulSoup]) -> None:
    page = demo["journal/2026-03-15-still-water/index.html"]
    (link,) = page.select('.facts a[href="../../water/index.html#tap"]')
    assert link.get_text() == "Town tap at the mill"
    assert demo["water/index.html"].select("section#tap")
    words_only = demo["journal/2026-10-24-longer-weak-bleach/index.html"]
    assert "Water Rain water from the butt" in words(words_only, ".facts div")
    assert not words_only.select('.facts a[href*="water/"]')


def test_home_leads_to_the_journal_and_failures_have_a_page(demo: dict[str, BeautifulSoup]) -> None:
    assert demo["index.html"].select('a[href="journal/index.html"]')
    assert demo["index.html"].select('a[href="journal/failed/index.html"]')
    assert len(words(demo["journal/failed/index.html"], ".trial-entry")) >= 4
    assert set(words(demo["journal/failed/index.html"], ".verdict")) == {"failed"}


def test_a_solved_failure_leads_to_what_solved_it_and_back(demo: dict[str, BeautifulSoup]) -> None:
    failed = demo["journal/2026-02-27-an-hour-under-the-tap/index.html"]
    assert failed.select('#solved ~ .trials a[href="../../journal/2026-03-15-still-water/index.html"]')
    solved = demo["journal/2026-03-15-still-water/index.html"]
    assert words(solved, "#solved") == ["What this solved"]


def test_an_entry_of_the_supporters_is_not_in_the_public_journal(demo: dict[str, BeautifulSoup]) -> None:
    assert "half-bath" not in " ".join(demo)
    assert "half-bath" not in str(demo["archive.json"])
