"""Ticks on a recipe page, the card before each exposure, and stages that fold away once they are done."""

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import Open

BLUE = "recipes/iron-blue/index.html"
LAYERED = "recipes/tide-chart-and-net/index.html"


def test_a_tick_is_kept_by_its_words_and_no_other_box_gets_it(visit: Open) -> None:
    page = visit(BLUE)
    page.locator("[data-tick]").nth(1).check()
    [key] = page.evaluate("Object.keys(localStorage).filter((key) => key.startsWith('trayside-ticks'))")
    [name] = page.evaluate("key => JSON.parse(localStorage.getItem(key))", key)
    for kept in ([1], [name.replace("is in", "was in")]):
        page.evaluate("([key, kept]) => localStorage.setItem(key, JSON.stringify(kept))", [key, kept])
        page.reload()
        assert page.locator("main :checked:is([data-tick], [data-need], [data-check], [data-done])").count() == 0


def test_boxes_that_say_the_same_are_kept_apart(visit: Open) -> None:
    page = visit(LAYERED)
    needs, cards = page.locator(".needs [data-need]").count(), page.locator(".flight [data-need]")
    assert needs > 0
    for nth in (0, cards.count() - 1):
        cards.nth(nth).check()
    page.reload()
    assert [nth for nth in range(cards.count()) if cards.nth(nth).is_checked()] == [0, cards.count() - 1]


@pytest.mark.parametrize(("number", "stage"), [(1, 3), (2, 7)])
def test_the_card_of_a_layer_stands_before_the_steps_that_expose_it(number: int, stage: int, visit: Open) -> None:
    page = visit(LAYERED)
    card = page.locator(f"#stage-{stage} .flight#card-{number}")
    assert card.get_by_role("img").count() == 2
    below = page.locator(f"#stage-{stage}-step-1").bounding_box()
    here = card.bounding_box()
    assert here is not None
    assert below is not None
    assert here["y"] + here["height"] <= below["y"]
    assert page.locator(f"#layer-{number} fieldset").count() == 0  # nothing stands twice
    page.locator(f"#layer-{number} a[href='#card-{number}']").click()
    expect(card).to_be_in_viewport()
    page.locator(f"#stage-{stage} a[href='#layer-{number}']").click()
    expect(page.locator(f"#layer-{number} > h3")).to_be_in_viewport()


def test_the_size_of_the_next_film_is_at_hand_where_it_has_to_be_printed(visit: Open) -> None:
    page = visit(LAYERED)
    ways = page.locator("a[href='#layer-2']", has_text="the size of its film")
    assert ways.count() == 1
    assert page.locator("#stage-5 > .checks + p").locator(ways).count() == 1
    assert "179.5 × 238.8 mm" in page.locator("#layer-2").inner_text()


def done(page: Page, *stages: int) -> None:
    for stage in stages:
        for box in page.locator(f"#stage-{stage} [data-done]").all():
            box.check()


def test_what_is_done_is_folded_when_the_page_opens_again_but_never_its_wait_and_checks(visit: Open) -> None:
    page = visit(LAYERED)
    done(page, 1)
    page.locator("#stage-2 [data-done]").first.check()
    assert page.locator("#stage-1-step-1").is_visible()  # nothing moves under a thumb
    page.reload()
    assert not page.locator("#stage-1-step-1").is_visible()
    assert page.locator("#stage-1 .wait").is_visible()
    assert page.locator("#stage-1 .checks").is_visible()
    assert page.locator("#stage-2-step-1").is_visible()
    assert page.locator("details.doing:not([open])").count() == 1
    assert page.locator(".page-jumps .far").all_inner_texts() == ["done", "1 of 3 done", *[""] * 6]
    page.evaluate("location.hash = '#stage-1-step-2'")
    expect(page.locator("#stage-1-step-2")).to_be_in_viewport()
    page.reload()
    page.locator("#clear-ticks").click()
    assert page.locator("details.doing:not([open])").count() == 0


def test_paper_shows_folded_stages_too(visit: Open) -> None:
    page = visit(LAYERED)
    done(page, 1)
    page.reload()
    assert not page.locator("#stage-1-step-1 .do").is_visible()
    page.emulate_media(media="print")
    assert page.locator("#stage-1-step-1 .do").is_visible()
    assert not page.locator("#stage-1 summary").first.is_visible()


def test_hazards_lie_in_no_fold(visit: Open) -> None:
    page = visit(LAYERED)
    assert page.locator(":is(#hazards, .derived, .gate, .wait, .checks:not(.preflight))").count() > 10
    assert page.locator("details :is(#hazards, .derived, .gate, .wait, .checks:not(.preflight))").count() == 0


def test_without_scripts_every_stage_stands_open(browser: Browser, visit: Open) -> None:
    here = visit(LAYERED).url
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(here)
    assert page.locator(".step:visible").count() == page.locator(".step").count() > 20
    context.close()


def test_a_stage_says_at_its_head_what_wait_comes_before_it(visit: Open) -> None:
    page = visit(LAYERED)
    said = [text.replace("\u00a0", " ") for text in page.locator(".stage > .quiet").all_inner_texts()]
    assert said == [f"Begun after a wait of {wait}." for wait in ("8–24 h", "12–24 h", "12–24 h")]


def test_once_the_work_is_done_the_ticks_are_to_be_cleared_for_the_next_print(visit: Open) -> None:
    page = visit(BLUE)
    button = page.locator("#clear-ticks")
    page.locator("[data-done]").first.check()
    expect(button).to_have_text("Clear the ticks")
    page.locator("[data-done]").last.check()
    expect(button).to_have_text("The work is done: clear the ticks before the next print")
    page.reload()
    expect(button).to_have_text("The work is done: clear the ticks before the next print")
    button.click()
    page.locator("[data-done]").first.check()
    expect(button).to_have_text("Clear the ticks")
