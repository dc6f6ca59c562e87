"""The recipe page beyond its arithmetic: the address, refusals, ticks, paper, small screens, no scripts."""

import re
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from sitegen.compute.scale import as_written
from sitegen.compute.whole import Computed
from sitegen.model.quantity import parse_number
from sitegen.problems import Refusal
from sitegen.render.wording import shown_text
from tests.browser.conftest import Open
from tests.browser.desk import ask, seen

BLUE = "recipes/iron-blue/index.html"


def pages_of(site: Path) -> list[str]:
    return sorted(path.relative_to(site).as_posix() for path in site.rglob("*.html"))


def test_no_page_asks_anything_of_a_network_or_breaks_its_own_policy(site: Path, visit: Open) -> None:
    """Every page but most cards, which are all of one template; `visit` listens."""
    paths = pages_of(site)
    cards = [path for path in paths if path.startswith("substances/")]
    page = visit("index.html")
    for path in [path for path in paths if path not in cards[5:]]:
        page.goto((site / path).as_uri())
        policy = page.locator("meta[http-equiv=Content-Security-Policy]").get_attribute("content")
        assert policy is not None
        assert policy.startswith("default-src 'none'"), path


@pytest.mark.parametrize(
    "blanks",
    [
        pytest.param({"mix": "working", "ask": "make", "amount": "350", "unit": "ml"}, id="make"),
        pytest.param({"mix": "part-a", "ask": "factor", "times": "3 1/2", "measures": "US"}, id="factor"),
        pytest.param(
            {"mix": "first-bath", "ask": "tray", "tray-long": "12", "tray-wide": "10", "depth": "0.5",
             "tray-unit": "in", "measures": "imp"},
            id="tray",
        ),
        pytest.param(
            {"mix": "working", "ask": "sheets", "sheets": "12", "long": "24", "wide": "30", "coats": "2",
             "coverage": "0.5", "coverage-unit": "ml/100 cm²"},
            id="sheets",
        ),
        pytest.param(
            {"mix": "working", "ask": "have",
             "left": [
                 {"of": "ferric-ammonium-citrate-green", "amount": "1 1/2", "unit": "oz av"},
                 {"of": "potassium-ferricyanide", "amount": "18", "unit": "g"},
             ]},
            id="have",
        ),
        pytest.param(
            {"mix": "working", "ask": "people", "people": "14", "each": "sheets", "sheets": "3", "paper": "A4"},
            id="people",
        ),
    ],
)  # fmt: skip
def test_the_address_asks_the_same_again(blanks: dict[str, object], visit: Open) -> None:
    page = visit(BLUE)
    expect(page.locator("[data-reset]")).to_be_hidden()  # there is nothing to go back from
    [first] = ask(page, {"measures": "metric", **blanks})
    expect(page.locator("[data-reset]")).to_be_visible()
    page.wait_for_url("**#mix=*")
    fragment = "#" + page.url.partition("#")[2]
    assert f"mix={blanks['mix']}&ask={blanks['ask']}" in fragment
    again = visit(BLUE, fragment)
    assert seen(again) == first
    again.locator("#calculator [data-reset]").click()
    again.wait_for_url(lambda url: "#" not in url)
    again.evaluate("fragment => { location.hash = fragment; }", fragment)
    expect(again.locator("#asked")).to_have_text(first.asked)
    assert seen(again) == first


def test_the_address_of_the_handbook_works(visit: Open) -> None:
    page = visit(BLUE, "#mix=working&ask=make&amount=350&unit=ml&measures=US")
    assert page.inner_text("#asked") == "For 350 ml of Working sensitiser"
    assert seen(page).mixtures["iron-blue/part-a"]["lines"]["ferric-ammonium-citrate-green"] == {
        "measure": "1.54 oz av 43.8 g", "exact": "43.75 g", "notes": "",
    }  # fmt: skip


@pytest.mark.parametrize(
    "fragment", ["#mix-part-a", "#mix=nothing&ask=magic&amount=<b>&unit=ell", "#=", "#%", "#left=a:b:c&ask=have"]
)
def test_an_address_that_asks_nothing_leaves_the_recipe_as_written(fragment: str, visit: Open) -> None:
    written = seen(visit(BLUE))
    page = visit(BLUE, fragment)
    shown = seen(page)
    assert shown.refused or shown == written


def test_a_link_to_a_mixture_keeps_what_was_asked(visit: Open) -> None:
    page = visit(BLUE)
    [asked] = ask(page, {"mix": "working", "ask": "make", "measures": "metric", "amount": "350"})
    page.wait_for_url("**#mix=working*")
    fragment = page.url.partition("#")[2]
    page.evaluate("location.hash = 'mix-part-a'")
    expect(page.locator("#mix-part-a")).to_be_in_viewport()
    assert seen(page) == asked
    page.wait_for_url(f"**#{fragment}")  # a reload must not show other amounts
    expect(page.locator("#mix-part-a")).to_be_in_viewport()
    page.reload()
    assert seen(page) == asked


def test_a_link_to_a_place_leaves_its_address_while_nothing_is_asked(visit: Open) -> None:
    page = visit(BLUE, "#mix-part-a")
    page.wait_for_timeout(400)  # longer than the address waits for the reader
    assert page.url.endswith("#mix-part-a")


@pytest.mark.parametrize(
    "typed",
    ["1,5", "1,500", "1,500.5", "1,500,000", "1:9", "2:1", "1e3", "1.5e-2", "010", "abc", "1/0", "½", "--", "1 / 2"],
)
def test_numbers_are_refused_in_the_words_of_the_program(typed: str, visit: Open) -> None:
    page = visit(BLUE)
    with pytest.raises(Refusal) as said:
        parse_number(typed)
    page.fill("#calculator [name=amount]", typed)
    assert page.inner_text("#refused").startswith(f"{said.value.message}: {said.value.help}".replace("`", ""))


def test_while_a_question_is_refused_no_number_stands(visit: Open) -> None:
    page = visit(BLUE)
    page.fill("#calculator [name=amount]", "350")
    page.fill("#calculator [name=amount]", "3,5")
    working = seen(page).mixtures["iron-blue/working"]
    assert working["makes"] == "–"
    assert {line["measure"] for line in working["lines"].values()} == {"–"}
    assert {text for _, text, _ in working["live"]} <= {"–"}
    assert page.get_attribute("#refused", "role") == "alert"


def test_one_press_takes_a_reading_that_a_refusal_offers(visit: Open) -> None:
    page = visit(BLUE)
    page.fill("#calculator [name=amount]", "1,500")
    assert page.locator("#refused button").all_inner_texts() == ["Use 1500", "Use 1.500"]
    page.get_by_role("button", name="Use 1500").click()
    assert page.inner_text("#asked") == "For 1500 ml of Working sensitiser"
    assert page.inner_text("#refused") == ""


@pytest.mark.parametrize(
    ("blanks", "says"),
    [
        pytest.param({"ask": "make", "amount": "0"}, "not more than nothing", id="nothing"),
        pytest.param({"ask": "make", "amount": "-5"}, "not more than nothing", id="less than nothing"),
        pytest.param({"ask": "factor", "times": "-1"}, "not more than nothing", id="factor"),
        pytest.param({"ask": "people", "people": "2.5"}, "not a number of people", id="half a person"),
        pytest.param({"ask": "sheets", "sheets": "1.5", "paper": "A4"}, "not a number of sheets", id="half a sheet"),
        pytest.param({"ask": "sheets", "sheets": "1", "paper": "A4", "coats": ""}, "number is missing", id="no coats"),
        pytest.param({"ask": "sheets", "sheets": "1", "paper": "A4", "extra": "301"}, "not an allowance", id="extra"),
    ],
)
def test_questions_are_refused_in_words(blanks: dict[str, str], says: str, visit: Open) -> None:
    page = visit(BLUE)
    [shown] = ask(page, {"mix": "working", "measures": "metric", **blanks})
    assert says in shown.refused
    assert shown.asked == ""


def test_sheets_without_any_coverage_are_refused(visit: Open) -> None:
    page = visit(BLUE)
    [shown] = ask(page, {"mix": "part-a", "ask": "sheets", "measures": "metric", "sheets": "1", "paper": "A4"})
    assert shown.refused == "part-a does not say how much liquid a sheet takes: give a coverage, such as 40 ml/m²"


def test_without_scripts_everything_stands_as_written(browser: Browser, site: Path, computed: Computed) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    for slug in computed.targets:
        page.goto((site / f"recipes/{slug}/index.html").as_uri())
        assert not page.locator("#calculator").is_visible()
        assert page.locator("#asked").inner_text() == ""
        cells = page.locator("td[data-measure]")
        assert cells.first.is_visible()
        assert [text.replace("\n", " ").strip() for text in cells.all_inner_texts()] == as_written_in(slug, computed)
    context.close()


def as_written_in(slug: str, computed: Computed) -> list[str]:
    """The measures of a page in its order: each mixture at the size of its own recipe."""
    measuring = computed.archive.settings.measuring
    every = {t.id: t for targets in computed.targets.values() for t in targets}
    ids = dict.fromkeys(m.id for target in computed.targets[slug] for m in target.mixtures)
    lines = [line for i in ids for line in as_written(every[i], measuring).mixtures[-1].lines]
    return [shown_text(line.shown) if line.shown else line.line.written for line in lines]


def test_ticks_are_kept_until_they_are_cleared(visit: Open) -> None:
    page = visit(BLUE)
    assert not page.locator("#clear-ticks").is_visible()
    page.locator("[data-tick]").nth(1).check()
    page.reload()
    assert page.locator("[data-tick]").nth(1).is_checked()
    assert page.locator("input:checked[data-tick]").count() == 1
    page.locator("#clear-ticks").click()
    assert page.locator("input:checked[data-tick]").count() == 0
    page.reload()
    assert page.locator("input:checked[data-tick]").count() == 0


def test_the_page_leads_on_from_the_last_step_that_is_done(visit: Open) -> None:
    page = visit(BLUE)
    expect(page.locator("#go-on")).to_be_hidden()
    page.locator("[data-done]").nth(0).check()
    page.locator("[data-done]").nth(2).check()
    page.locator("[data-check]").first.check()
    page.reload()
    assert page.locator("[data-check]").first.is_checked()
    expect(page.locator("#go-on")).to_have_text("Go on: 2 Expose, step 1")  # the stage of coating has three steps
    page.locator("#go-on").click()
    assert page.url.endswith("#stage-2")  # not past the card and the checks that come before its first step
    expect(page.locator("#stage-2-name")).to_be_in_viewport()
    page.locator("#stage-2 [data-done]").first.check()
    assert page.locator("#go-on").get_attribute("href") == "#stage-2-step-2"
    page.locator("#clear-ticks").click()
    expect(page.locator("#go-on")).to_be_hidden()


def test_open_checks_are_said_once_a_stage_is_begun(visit: Open) -> None:
    page = visit(BLUE)
    gate = page.locator("#stage-2 .gate")
    assert not gate.is_visible()
    page.locator("[data-done]").first.check()
    assert gate.is_visible()
    for check in page.locator("#stage-1 [data-check]").all():
        check.check()
    assert not gate.is_visible()
    page.locator("#stage-1 [data-check]").first.uncheck()
    page.locator("[data-done]").first.uncheck()
    page.locator("#stage-2 [data-done]").first.check()
    assert gate.is_visible()


def test_where_storage_is_refused_boxes_still_tick(context_page: Page, site: Path) -> None:
    context_page.goto((site / BLUE).as_uri())
    context_page.locator("[data-tick]").first.check()
    assert context_page.locator("[data-tick]").first.is_checked()
    context_page.locator("#clear-ticks").click()
    assert not context_page.locator("[data-tick]").first.is_checked()


@pytest.fixture
def context_page(browser: Browser) -> Page:
    context = browser.new_context()
    context.add_init_script(
        "Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('refused'); } });"
    )
    page = context.new_page()
    page.on("pageerror", lambda error: pytest.fail(str(error)))
    return page


def test_paper_carries_what_was_asked_and_no_control(visit: Open) -> None:
    page = visit(BLUE, "#mix=working&ask=make&amount=350&unit=ml")
    page.emulate_media(media="print")
    assert page.locator("#asked").is_visible()
    assert not page.locator("#calculator").is_visible()
    assert not page.locator("#clear-ticks").is_visible()


@pytest.mark.parametrize("way", ["make", "factor", "sheets", "tray", "have", "people"])
def test_on_a_small_phone_every_control_is_large_and_nothing_runs_over(way: str, visit: Open) -> None:
    page = visit(BLUE)
    page.locator(f"#calculator [name=ask][value={way}]").check()
    controls = page.locator("#calculator :is(input:not([type=radio]), select, button, label):visible")
    for control in controls.all():
        box = control.bounding_box()
        assert box is not None
        assert box["height"] >= 44, control.evaluate("node => node.outerHTML")
        assert control.evaluate("node => parseFloat(getComputedStyle(node).fontSize)") >= 16
    width = page.evaluate("document.documentElement.scrollWidth")
    assert width <= 360


def test_on_a_small_phone_what_to_look_for_has_room_to_be_read(visit: Open) -> None:
    page = visit(BLUE)
    facts = page.locator(".step .facts dd:visible")
    assert facts.count() > 10
    for fact in facts.all():
        box = fact.bounding_box()
        assert box is not None
        assert box["width"] >= 130, fact.inner_text()


def test_every_blank_has_a_name_and_the_keyboard_reaches_it(visit: Open) -> None:
    page = visit(BLUE)
    fields = page.locator("#calculator :is(input:not([type=radio]), select)")
    assert all(field.get_attribute("aria-label") for field in fields.all())
    page.locator("#calculator [name=amount]").focus()
    names = []
    for _ in range(3):
        page.keyboard.press("Tab")
        names.append(page.evaluate("document.activeElement.name"))
    assert names == ["unit", "mix", "ask"]
    page.keyboard.press("ArrowRight")
    assert page.locator("#calculator [name=ask]:checked").get_attribute("value") == "factor"


def test_only_the_sentence_is_read_out_while_typing(visit: Open) -> None:
    page = visit(BLUE)
    assert page.locator("output[data-makes]:not([aria-live=off])").count() == 0
    assert page.locator("output#asked").count() == 1


def test_scripts_hold_no_inline_styles_and_need_no_module(site: Path) -> None:
    for script in (site / "assets").glob("*.js"):
        text = script.read_text(encoding="utf-8")
        assert text.startswith('"use strict";'), script.name
        if script.name == "light.js":  # the ground must be black before any style sheet has come
            text = text.replace("document.documentElement.style.backgroundColor", "", 1)
        assert not re.search(r"\bfetch\(|\bimport\b\s*[({\"']|^export |\.style\b|innerHTML|\beval\(", text, re.M), (
            script.name
        )
