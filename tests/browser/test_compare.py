"""Before and after: a slider that the keyboard moves, two pictures side by side without scripts."""

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.conftest import Open

CHART = "recipes/tide-chart-and-net/index.html"

CLIP = "node => getComputedStyle(node).clipPath"


def after(page: Page) -> str:
    return str(page.locator(".compare-after .compare-picture").evaluate(CLIP))


def test_the_keyboard_uncovers_the_picture_after(visit: Open) -> None:
    page = visit(CHART)
    slider = page.locator(".compare input")
    slider.scroll_into_view_if_needed()
    assert after(page) == "inset(0px 50% 0px 0px)"
    slider.focus()
    page.keyboard.press("ArrowRight")
    assert after(page) == "inset(0px 48% 0px 0px)"
    assert slider.get_attribute("aria-valuetext") == "52 % of the picture after"
    page.keyboard.press("Home")
    assert after(page) == "inset(0px 100% 0px 0px)"
    page.keyboard.press("End")
    assert after(page) in ("inset(0px)", "inset(0px 0% 0px 0px)")


def test_both_pictures_lie_on_each_other_and_the_slider_has_a_name(visit: Open) -> None:
    page = visit(CHART)
    page.locator(".compare").scroll_into_view_if_needed()
    boxes = [page.locator(f".compare-{side} .compare-picture").bounding_box() for side in ("before", "after")]
    assert boxes[0] == boxes[1]
    assert page.get_by_role("slider", name="How much of the picture after is shown").count() == 1
    track = page.locator(".compare input").bounding_box()
    assert track is not None
    assert track["height"] >= 44
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.fixture
def plain(browser: Browser, site: Path) -> Page:
    """The page in a browser that runs no scripts."""
    context = browser.new_context(java_script_enabled=False, viewport={"width": 900, "height": 700})
    page = context.new_page()
    page.goto((site / CHART).as_uri())
    return page


def test_without_scripts_both_pictures_stand_side_by_side_with_their_names(plain: Page) -> None:
    boxes = [plain.locator(f".compare-{side} .compare-picture").bounding_box() for side in ("before", "after")]
    assert boxes[0] is not None
    assert boxes[1] is not None
    assert boxes[0]["y"] == boxes[1]["y"]
    assert boxes[0]["x"] + boxes[0]["width"] <= boxes[1]["x"]
    assert plain.locator(".compare figcaption").all_inner_texts() == ["Before", "After"]
    assert not plain.locator(".compare-slider").is_visible()


def test_on_paper_both_pictures_are_whole(visit: Open) -> None:
    page = visit(CHART)
    page.emulate_media(media="print")
    assert after(page) == "none"


def test_pictures_keep_their_place_before_they_arrive_and_come_late(visit: Open) -> None:
    page = visit(CHART)
    pictures = page.locator(".work img")  # the opening picture is in sight, and comes at once
    assert pictures.count() > 3
    for picture in pictures.all():
        assert int(picture.get_attribute("width") or 0) > 0
        assert int(picture.get_attribute("height") or 0) > 0
        assert picture.get_attribute("loading") == "lazy"
    pictures.last.scroll_into_view_if_needed()
    pictures.last.evaluate("node => node.decode()")
    assert pictures.last.evaluate("node => node.currentSrc").endswith(".webp")


def test_a_moving_picture_is_linked_with_its_times_and_nothing_of_it_is_loaded(visit: Open) -> None:
    page = visit(CHART)
    links = [a.get_attribute("href") for a in page.locator(".moving a").all()]
    assert links[1:] == [f"{links[0]}#t={seconds}" for seconds in (10, 45, 80)]
    assert page.locator("iframe, video, embed, object").count() == 0
