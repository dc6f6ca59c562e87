"""Pages held against the rules of axe-core for WCAG 2.2 A and AA, on a small phone, in light and in dark."""

import pytest
from axe_playwright_python.sync_playwright import Axe

from tests.browser.conftest import Open

RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
OPTIONS = {"runOnly": {"type": "tag", "values": RULES}, "preload": False}  # the pages forbid fetching style sheets
PAGES = (
    "search/index.html",
    "recipes/iron-blue/index.html",  # water panel, timeline, trials, batch dates, revisions
    "recipes/salted-paper/index.html",  # baths
    "recipes/tide-chart-and-net/index.html",  # layers
    "journal/index.html",
    "journal/2026-03-15-still-water/index.html",
    "water/index.html",
    "disputes/index.html",
    "sheets/index.html",
    "bench/index.html",
)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("path", PAGES)
def test_a_page_breaks_no_rule_of_axe(path: str, visit: Open, *, dark: bool) -> None:
    page = visit(path)
    page.emulate_media(color_scheme="dark" if dark else "light")
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    found = Axe().run(page, options=OPTIONS).response["violations"]
    told = [(rule["id"], node["target"], node["failureSummary"]) for rule in found for node in rule["nodes"]]
    assert told == []
