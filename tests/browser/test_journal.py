"""The journal narrowed in place, read without scripts, and the batch code of a bottle, in a real browser."""

from datetime import date
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from sitegen.compute.use_by import use_by
from sitegen.model.batch_code import parse_batch_code
from sitegen.model.quantity import parse_quantity
from tests.browser.conftest import Open

JOURNAL = "journal/index.html"
IRON_BLUE = "recipes/iron-blue/index.html"


def left(page: Page) -> list[str]:
    return page.locator(".trial-entry:not([hidden]) .entry-title").all_inner_texts()


def test_failures_of_a_recipe_are_found_and_stand_in_the_address(visit: Open) -> None:
    page = visit(JOURNAL)
    every = left(page)
    page.locator("#narrow [name=verdict]").select_option("failed")
    page.locator("#narrow [name=recipe]").select_option("iron-blue")
    assert left(page) == ["More iron in Part A", "An hour under the tap"]
    assert page.evaluate("location.hash") == "#verdict=failed&recipe=iron-blue"
    assert page.locator("#narrow output").inner_text() == f"2 of {len(every)}"
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_without_scripts_failures_have_a_page_and_the_bottle_its_words(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / JOURNAL).as_uri())
    assert not page.locator("#narrow").is_visible()
    page.get_by_role("navigation", name="How it came out").get_by_role("link", name="Failed").click()
    assert page.url.endswith("journal/failed/index.html")
    assert set(page.locator(".verdict").all_inner_texts()) == {"failed"}
    page.goto((site / IRON_BLUE).as_uri())
    words = page.locator("#mix-part-a .batch-words")
    assert "IB-01.5 part-a and the day it was mixed" in words.inner_text()
    assert not page.locator("#mix-part-a .batch-asked").is_visible()
    context.close()


@pytest.mark.parametrize("mixed", ["2026-11-03", "2026-12-31", "2027-12-31", "2028-02-29"])
def test_the_code_of_a_bottle_is_read_back_and_its_end_is_that_of_the_label(visit: Open, mixed: str) -> None:
    page = visit(IRON_BLUE)
    field = page.locator("#mix-part-a .batch-asked")
    field.locator("input").fill(mixed)
    code, _, end = field.locator("output").inner_text().partition(" · use by ")
    batch = parse_batch_code(code)
    assert (batch.code, batch.revision, batch.mixture) == ("IB-01", 5, "part-a")
    assert batch.mixed == date.fromisoformat(mixed)
    soonest = use_by(batch.mixed, parse_quantity("2-6 months")).soonest
    assert soonest is not None
    assert end == soonest.isoformat()


def test_the_day_is_that_of_the_reader_to_begin_with(visit: Open) -> None:
    page = visit(IRON_BLUE)
    today = page.evaluate("new Date().toLocaleDateString('sv')")
    assert page.locator("#mix-part-a .batch-asked input").input_value() == today
    assert today in page.locator("#mix-part-a output.batch-code").inner_text()
