"""The troubles of the archive, narrowed by what is seen, by process and by part of the work."""

from pathlib import Path

from playwright.sync_api import Browser, Page

from tests.browser.conftest import Open

TROUBLES = "troubles/index.html"


def left(page: Page) -> list[str]:
    return [text.strip() for text in page.locator(".symptom:not([hidden]) > h3").all_inner_texts()]


def test_a_beginners_words_find_the_symptom(visit: Open) -> None:
    page = visit(TROUBLES)
    every = len(left(page))
    page.locator("#narrow [name=words]").fill("foggy")
    assert "Blue in the whites" in left(page)
    assert len(left(page)) < every / 4
    assert page.locator("#narrow output").inner_text() == f"{len(left(page))} of {every}"
    page.locator("#narrow [name=words]").fill("")
    assert len(left(page)) == every


def test_process_and_part_narrow_together_and_stand_in_the_address(visit: Open) -> None:
    page = visit(TROUBLES)
    page.locator("#narrow [name=process]").select_option("salted-paper")
    page.locator("#narrow [name=stage]").select_option("expose")
    assert left(page) == ["Bare patches appear while printing", "Soft, blurred outlines"]
    assert page.evaluate("location.hash") == "#process=salted-paper&stage=expose"
    again = visit(TROUBLES, "#process=salted-paper&stage=expose")
    assert left(again) == left(page)
    assert page.locator("[data-part]:not([hidden])").count() == 1


def test_what_fits_nothing_says_so(visit: Open) -> None:
    page = visit(TROUBLES)
    page.locator("#narrow [name=words]").fill("zebra (")
    assert left(page) == []
    assert page.locator("#narrow-none").is_visible()


def test_a_cause_leads_to_the_step_where_it_lies(visit: Open) -> None:
    page = visit(TROUBLES)
    page.locator("#doubled-edges").get_by_role("link", name="IB-03 Print the net, step 1").first.click()
    step = page.locator("#stage-7-step-1")
    assert "look at all four corners" in step.inner_text()
    assert page.url.endswith("recipes/tide-chart-and-net/index.html#stage-7-step-1")


def test_controls_are_large_and_the_page_fits_a_small_phone(visit: Open) -> None:
    page = visit(TROUBLES)
    for control in page.locator("#narrow :is(input, select)").all():
        box = control.bounding_box()
        assert box is not None
        assert box["height"] >= 44
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_without_scripts_each_process_has_a_page_of_its_own(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / TROUBLES).as_uri())
    assert not page.locator("#narrow").is_visible()
    page.get_by_role("navigation", name="Processes").get_by_role("link", name="Toning blue prints").click()
    assert page.url.endswith("troubles/toning/index.html")
    assert "Lovely wet, dull dry" in left(page)
    assert "Blue in the whites" not in left(page)
    page.get_by_role("navigation", name="Parts of the work").get_by_role("link", name="In the bleach").click()
    assert page.url.endswith("#part-bleach")
    context.close()
