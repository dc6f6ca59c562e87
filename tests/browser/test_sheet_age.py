"""The age of a printed sheet, asked by hand and by a sheet's QR code."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Open

SHEETS = "sheets/index.html"
MISTAKE = "The bleach named its soda without the form."


def verdict(page: Page) -> str:
    return page.locator("#answer h2").inner_text().casefold()


def ask(page: Page, code: str, revision: str = "") -> None:
    page.locator("#lookup [name=code]").fill(code)
    page.locator("#lookup [name=revision]").fill(revision)


def test_current_superseded_and_mistaken_sheets_are_told_apart_in_words(visit: Open) -> None:
    page = visit(SHEETS)
    ask(page, "TN-01", "4")
    assert verdict(page) == "current"
    ask(page, "TN-01", "3")
    assert verdict(page) == "superseded"
    assert MISTAKE not in page.locator("#answer").inner_text()
    ask(page, "TN-01", "2")
    assert verdict(page) == "do not use this sheet"
    told = page.locator("#answer").inner_text()
    assert "It holds a mistake that was found later." in told
    assert f"Put right in revision 3\n{MISTAKE}" in told
    assert "Chlorine darkened the paper." in told, "revision 4 changed something, too"


def test_every_revision_on_the_page_is_answered_as_its_row_says(visit: Open) -> None:
    page = visit(SHEETS)
    heads = {"current": "current", "corrected": "do not use this sheet", "superseded": "superseded"}
    rows = page.locator(".revisions tbody").evaluate_all(
        """bodies => bodies.flatMap(body => [...body.querySelectorAll("[data-last]")].flatMap(({ dataset }) =>
            [dataset.first, dataset.last].map(n => [body.querySelector(".code").textContent, n, dataset.standing])))"""
    )
    assert len(rows) > 60
    for code, revision, standing in rows:
        ask(page, code, revision)
        assert verdict(page) == heads[standing], (code, revision)


@pytest.mark.parametrize(
    ("code", "revision"),
    [
        ("tn01 r2", ""), ("TN-01/2", ""), ("TN 01 rev 2", ""), ("tn-1", "2"), ("TN\N{EN DASH}01.2-bleach-261125", ""),
        (" TN-01 \N{MIDDLE DOT} revision 2 \N{MIDDLE DOT} Oak-bark and tea toner", ""), ("Tn01", " rev. 2 "),
        ("TN-01.2-bleach-", ""), ("\uff34\uff2e-01, r 2", ""), ("TN-01.4", "2"),
    ],
)  # fmt: skip
def test_the_code_may_be_written_as_it_is_pencilled(visit: Open, code: str, revision: str) -> None:
    page = visit(SHEETS)
    ask(page, code, revision)
    assert verdict(page) == "do not use this sheet"
    assert page.evaluate("location.hash") == "#TN-01.2"


def test_a_revision_to_come_means_that_the_copy_is_old(visit: Open) -> None:
    page = visit(SHEETS)
    ask(page, "IB-01", "6")
    assert verdict(page) == "newer than this copy of the archive"
    assert "Your copy of the archive is old" in page.locator("#answer").inner_text()


def test_what_is_not_here_is_not_known_and_what_cannot_be_read_is_asked_for(visit: Open) -> None:
    page = visit(SHEETS)
    ask(page, "ZZ-10", "1")
    assert verdict(page) == "this edition does not know zz-10"
    assert page.locator("#answer a").count() == 0
    for code, revision, words in [
        ("blue", "", "two to four letters"), ("IB-0123", "2", "two to four letters"), ("IB-01", "", "Which revision"),
        ("IB-01", "two", "as a number"), ("IB-01", "0", "first revision is 1"),
    ]:  # fmt: skip
        ask(page, code, revision)
        assert words in page.locator("#answer").inner_text(), code
        assert page.locator("#answer h2").count() == 0
    ask(page, "")
    assert page.locator("#answer").inner_text() == ""


def test_a_sheets_own_code_leads_to_its_answer_and_the_recipe_is_one_step_on(visit: Open) -> None:
    page = visit(SHEETS, "#TN-01.2")
    assert verdict(page) == "do not use this sheet"
    box = page.locator("#answer").bounding_box()
    assert box is not None
    assert 0 <= box["y"] < 100
    assert page.evaluate("document.activeElement.id") == "answer"
    page.locator("#answer").get_by_role("link", name="Open TN-01 Oak-bark and tea toner").click()
    assert page.url.endswith("recipes/oak-bark-toner/index.html")


def test_from_a_recipe_only_the_revision_is_left_to_write(visit: Open) -> None:
    page = visit("recipes/oak-bark-toner/index.html")
    page.get_by_role("link", name="Is my printed sheet current?").click()
    expect(page.locator("#lookup [name=revision]")).to_be_focused()
    assert page.locator("#lookup [name=code]").input_value() == "TN-01"
    assert "Which revision is printed beside TN-01?" in page.locator("#answer").inner_text()
    page.keyboard.type("3")
    assert verdict(page) == "superseded"


def test_an_address_that_is_no_code_changes_nothing(visit: Open) -> None:
    for fragment in ("#main", "#%", "#series-IB", "#<b>x</b>"):
        page = visit(SHEETS, fragment)
        assert page.locator("#answer").inner_text() == ""


def test_controls_are_large_and_the_page_fits_a_small_phone(visit: Open) -> None:
    page = visit(SHEETS, "#TN-01.2")
    for control in page.locator("#lookup :is(input, button), #answer a").all():
        box = control.bounding_box()
        assert box is not None
        assert box["height"] >= 44
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.fixture
def scriptless(browser: Browser) -> Iterator[Page]:
    context = browser.new_context(java_script_enabled=False)
    yield context.new_page()
    context.close()


def test_without_scripts_the_code_leads_to_the_row_of_its_revision(scriptless: Page, site: Path) -> None:
    scriptless.goto((site / SHEETS).as_uri() + "#TN-01.1")
    assert not scriptless.locator("#lookup").is_visible()
    row = scriptless.locator("tr:has(:target), tr:target")
    assert "Do not use: it held a mistake" in row.inner_text()
    assert row.evaluate("node => getComputedStyle(node).outlineStyle") == "solid"
