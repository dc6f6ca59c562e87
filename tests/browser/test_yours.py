"""The exposures of a recipe: sums that start from its figures, and the reader's own time beside the author's."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import Open

LAYERED = "recipes/tide-chart-and-net/index.html"
BLUE = "recipes/iron-blue/index.html"
CHART = "[data-exposure=chart]"


def opened(page: Page, which: str) -> Page:
    page.locator(f"{which} > summary").click()
    return page


def keep(page: Page, which: str, typed: str) -> None:
    page.locator(f"{which} [name=own]").fill(typed)
    page.locator(f"{which} [name=own]").press("Enter")


def test_the_sums_of_a_layer_start_from_its_figures_and_keep_the_range(visit: Open) -> None:
    page = opened(visit(LAYERED), CHART)
    strip = page.locator(f"{CHART} [data-expose=strip]")
    assert strip.locator("[name=time]").input_value() == "2-4"
    assert strip.locator("tbody td:nth-child(2)").all_inner_texts() == ["1'25", "2'00", "2'50", "4'00", "5'39"]
    assert page.locator(f"{CHART} [data-expose=lamp] [name=time]").input_value() == "2-4"
    assert not page.locator(f"{CHART} [data-printed]").is_visible()


def test_the_sun_is_refused_and_a_lamp_gives_a_range(visit: Open) -> None:
    page = opened(visit(LAYERED), CHART)
    lamp = page.locator(f"{CHART} [data-expose=lamp]")
    assert lamp.locator(".refused").inner_text() == ""
    lamp.locator("[name=source]").select_option("sun")
    assert lamp.locator(".refused").inner_text().startswith("the sun is as far off wherever the frame stands")
    lamp.locator("[name=source]").select_option("small")
    lamp.locator("[name=was]").fill("30")
    lamp.locator("[name=now]").fill("60")
    assert lamp.locator("[data-part=time]").inner_text() == "8'00 to 16'00"


def test_a_time_found_on_the_strip_is_kept_beside_the_authors(visit: Open) -> None:
    page = opened(visit(LAYERED), CHART)
    page.locator(CHART).get_by_label("3–4").check()
    page.locator(CHART).get_by_role("button", name="Keep it as my time").click()
    yours = page.locator("[data-yours=chart]:visible")
    assert yours.count() == 2  # on the card before the exposure, and at the step
    assert all(text.split("\n")[-1].startswith("3'22, found 20") for text in yours.all_inner_texts())
    card = page.locator("#layer-1").inner_text()
    assert "2–4 min" in card.replace("\u00a0", " ")
    page.reload()
    assert page.locator("[data-yours=chart]:visible").count() == 2
    assert page.locator("[data-yours=net]:visible").count() == 0
    other = visit(BLUE)
    assert other.locator("[data-yours]:visible").count() == 0


def test_a_time_is_typed_kept_and_forgotten_by_the_keyboard(visit: Open) -> None:
    page = opened(visit(BLUE), "[data-exposure]")
    keep(page, "[data-exposure]", "12")
    assert "12'00, found" in page.locator("#stage-2-step-2 [data-yours]").inner_text()
    page.locator("[data-forget]").focus()
    page.keyboard.press("Enter")
    assert not page.locator("[data-yours]").is_visible()
    assert page.evaluate("document.activeElement.name") == "own"
    assert page.evaluate("Object.keys(localStorage).filter((key) => key.startsWith('trayside-time'))") == []
    page.reload()
    assert not page.locator("[data-yours]").is_visible()


def test_an_older_revision_is_named_and_nonsense_is_passed_over(visit: Open) -> None:
    page = visit(BLUE)
    key = page.evaluate(
        """() => {
          const { recipe, exposure } = document.querySelector("[data-exposure]").dataset;
          const kept = { low: "720", high: "900", revision: "1", day: "2025-06-01" };
          localStorage.setItem(`trayside-time-${recipe}-${exposure}`, JSON.stringify(kept));
          return `trayside-time-${recipe}-${exposure}`;
        }"""
    )
    page.reload()
    said = page.locator("[data-yours] dd").inner_text()
    assert said == "12'00 to 15'00, found 2025-06-01, with revision 1"
    for nonsense in ("{", '{"low":"x","high":"1"}', "[]", '"12"', '{"low":"-1","high":"2"}'):
        page.evaluate("([key, text]) => localStorage.setItem(key, text)", [key, nonsense])
        page.reload()
        assert not page.locator("[data-yours]").is_visible(), nonsense


def test_what_is_no_time_is_refused_and_nothing_is_kept(visit: Open) -> None:
    page = opened(visit(BLUE), "[data-exposure]")
    keep(page, "[data-exposure]", "1,5")
    assert page.locator(".own .refused").inner_text() == "1,5 has a comma: write 1.5"
    assert not page.locator("[data-yours]").is_visible()


def test_where_storage_is_refused_the_time_is_still_shown(browser: Browser, site: Path) -> None:
    context = browser.new_context()
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('refused'); } });"
    )
    page = context.new_page()
    page.on("pageerror", lambda error: pytest.fail(str(error)))
    page.goto((site / BLUE).as_uri())
    opened(page, "[data-exposure]")
    keep(page, "[data-exposure]", "12")
    assert page.locator("[data-yours]").is_visible()
    context.close()


def test_on_a_small_phone_the_fold_has_large_controls_and_room(visit: Open) -> None:
    page = opened(opened(visit(LAYERED), CHART), "[data-exposure=net]")
    keep(page, CHART, "100-200")  # as long as a time of ours is said
    for control in page.locator(".exposing :is(summary, input:not([type=radio]), select, button, label):visible").all():
        box = control.bounding_box()
        assert box is not None
        assert box["height"] >= 44, control.evaluate("node => node.outerHTML")
        assert control.evaluate("node => parseFloat(getComputedStyle(node).fontSize)") >= 16
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_on_paper_a_closed_fold_shows_the_strip_around_the_authors_time(visit: Open) -> None:
    page = visit(LAYERED)
    page.emulate_media(media="print")
    printed = page.locator(f"{CHART} [data-printed]")
    assert printed.is_visible()
    assert "Half stops around 2–4 min" in printed.inner_text().replace("\u00a0", " ")
    assert not page.locator(".exposing :is(input, select, button)").first.is_visible()


def test_without_scripts_the_fold_holds_the_strip_and_no_dead_control(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / BLUE).as_uri())
    page.locator("[data-exposure] > summary").click()
    assert page.locator("[data-printed] td:nth-child(2)").all_inner_texts() == [
        "3'32", "5'00", "7'04", "10'00", "14'09",
    ]  # fmt: skip
    assert not page.locator(".exposing :is(input, select, button)").first.is_visible()
    context.close()


def test_a_recipe_that_exposes_nothing_loads_nothing_for_it(visit: Open) -> None:
    page = visit("recipes/gall-ink/index.html")
    assert page.locator("script[src*=expos]").count() == 0
