"""Low light: no pixel above a stated limit, no flash, text that can still be read, and no word that calls it safe."""

import base64
import functools
import io
import threading
import time
from collections.abc import Iterator
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, expect

from tests.browser.conftest import Open
from tests.render.test_look import luminance

LIGHTS = ("red", "amber")
# The most a pixel may have: of the green and blue channels, and of relative luminance (WCAG 2.2), where white has 1.
MOST_GREEN = {"red": 0, "amber": 96}
MOST_BLUE = {"red": 0, "amber": 0}
MOST_LUMINANCE = 0.21
PAGES = (
    "index.html",
    "recipes/iron-blue/index.html",
    "recipes/iron-blue/troubles.html",
    "recipes/tide-chart-and-net/index.html",
    "substances/silver-nitrate/index.html",
    "search/index.html",
    "bench/index.html",
    "water/index.html",
    "cupboard/index.html",
)


def brightest(png: bytes) -> tuple[int, int, int, float]:
    """The most red, green and blue of any pixel, and the most luminance."""
    image = Image.open(io.BytesIO(png)).convert("RGB")
    colours: list[tuple[int, int, int]] = [colour for _, colour in image.getcolors(1 << 24) or []]  # type: ignore[misc]
    light = max(luminance(f"#{r:02x}{g:02x}{b:02x}") for r, g, b in colours)
    return max(c[0] for c in colours), max(c[1] for c in colours), max(c[2] for c in colours), light


def within(png: bytes, light: str) -> bool:
    _, green, blue, most = brightest(png)
    return green <= MOST_GREEN[light] and blue <= MOST_BLUE[light] and most <= MOST_LUMINANCE


def lit(visit: Open, light: str) -> None:
    """Choose a light by the switch, as a reader does."""
    page = visit("index.html")
    page.locator(".light-switch > summary").click()
    page.check(f".light-switch input[value={light}]")
    assert page.locator("[data-light-now]").text_content() == light


@pytest.mark.parametrize("light", LIGHTS)
def test_no_pixel_is_brighter_than_the_limit(visit: Open, light: str) -> None:
    lit(visit, light)
    for path in PAGES:
        page = visit(path)
        page.set_viewport_size({"width": 360, "height": min(page.evaluate("document.body.scrollHeight"), 9000)})
        assert within(page.screenshot(), light), path
    page = visit("recipes/salted-paper/index.html")
    page.locator(".hazards-switch").first.click()
    page.evaluate("document.querySelector('#main').focus(); getSelection().selectAllChildren(document.body)")
    assert within(page.screenshot(), light), "selected text and an open band"


def test_without_a_light_pages_are_as_they_were(visit: Open) -> None:
    page = visit("index.html")
    assert page.evaluate("document.documentElement.dataset.light") is None
    assert brightest(page.screenshot())[3] > 0.9


# Every text with its colour and the ground under it, as they come out under the sheet of colour.
READABLE = r"""
() => {
  const rgba = (text) => (text.match(/[\d.]+/g) ?? []).map(Number);
  const over = rgba(getComputedStyle(document.documentElement, "::after").backgroundColor);
  const seen = (colour) => colour.slice(0, 3).map((part, at) => part * over[at] / 255);
  const linear = (part) => (part /= 255) <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  const light = (colour) => [0.2126, 0.7152, 0.0722].reduce((sum, share, at) => sum + share * linear(colour[at]), 0);
  const groundOf = (element) => {
    for (let at = element; at; at = at.parentElement) {
      const ground = rgba(getComputedStyle(at).backgroundColor);
      if (ground.length === 3 || ground[3] > 0) return ground;
    }
    return [0, 0, 0];
  };
  const found = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walker.nextNode()) {
    const element = walker.currentNode.parentElement;
    const said = walker.currentNode.data.trim().slice(0, 40);
    if (!said || !element.checkVisibility() || element.closest("script, option, svg")) continue;
    const [text, ground] = [rgba(getComputedStyle(element).color), groundOf(element)].map(seen).map(light);
    found.push([(Math.max(text, ground) + 0.05) / (Math.min(text, ground) + 0.05), said]);
  }
  return found;
}
"""


@pytest.mark.parametrize("light", LIGHTS)
def test_text_can_be_read(visit: Open, light: str) -> None:
    lit(visit, light)
    for path in PAGES[:5]:
        page = visit(path)
        page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
        found = page.evaluate(READABLE)
        assert len(found) > 20
        assert [text for ratio, text in found if ratio < 4.5] == [], path


@pytest.mark.parametrize("light", LIGHTS)
def test_pictograms_stand_off_from_the_ground_and_from_their_symbol(visit: Open, light: str) -> None:
    lit(visit, light)
    page = visit("substances/silver-nitrate/index.html")
    sign = page.locator("svg.ghs").first
    image = Image.open(io.BytesIO(sign.screenshot())).convert("RGB")
    colours = sorted(image.getcolors(1 << 16) or [], reverse=True)
    shades = sorted({luminance("#{:02x}{:02x}{:02x}".format(*c)) for n, c in colours[:4]})  # type: ignore[misc]
    # WCAG 2.2, 1.4.11: what is needed to understand a graphic stands off by 3 to 1.
    assert (shades[-1] + 0.05) / (shades[0] + 0.05) >= 3, shades


def test_a_light_holds_on_every_page_and_goes_off_again(visit: Open) -> None:
    lit(visit, "red")
    page = visit("bench/index.html")
    assert page.evaluate("document.documentElement.dataset.light") == "red"
    page.locator(".light-switch > summary").click()
    page.check(".light-switch input[value='']")
    assert page.evaluate(
        "[document.documentElement.dataset.light ?? null, document.documentElement.style.cssText]"
    ) == [
        None,
        "",
    ]
    assert visit("index.html").evaluate("document.documentElement.dataset.light ?? null") is None


def test_a_stage_leads_to_the_switch_and_back(visit: Open) -> None:
    page = visit("recipes/tide-chart-and-net/index.html")
    way = page.locator("#stage-2 a[href='#low-light']")
    way.click()
    expect(page.get_by_role("radio", name="dim red on black")).to_be_in_viewport()
    page.go_back()
    expect(way).to_be_in_viewport()


def test_other_open_pages_follow(visit: Open) -> None:
    other = visit("bench/index.html")
    lit(visit, "amber")
    expect(other.locator("html")).to_have_attribute("data-light", "amber")
    assert other.locator("[data-light-now]").text_content() == "amber"


def test_the_browser_is_told_too(visit: Open) -> None:
    lit(visit, "red")
    page = visit("recipes/iron-blue/index.html")
    assert page.get_attribute("meta[name=color-scheme]", "content") == "dark"
    assert page.get_attribute("meta[name=theme-color]", "content") == "#000"
    assert "rgb(0, 0, 0)" in page.evaluate("getComputedStyle(document.documentElement).scrollbarColor")
    listed = page.evaluate("[...document.querySelectorAll('option')].map((each) => getComputedStyle(each).color)")
    assert set(listed) == {"rgb(244, 0, 0)"}


def test_nothing_is_told_by_colour_alone_and_white_things_are_announced(visit: Open) -> None:
    lit(visit, "red")
    page = visit("recipes/iron-blue/index.html")
    told = "(element) => getComputedStyle(element, '::after').content"
    assert page.locator("a[href$='sheet-a4.pdf']").first.evaluate(told) == '" (opens white)"'
    plain = page.evaluate(
        "[...document.querySelectorAll('main p a, main li a, main dd a')]"
        ".filter((each) => each.checkVisibility() && getComputedStyle(each).textDecorationLine === 'none')"
        ".map((each) => each.textContent)"
    )
    assert plain == []


def test_paper_is_not_concerned(visit: Open) -> None:
    lit(visit, "red")
    page = visit("recipes/iron-blue/index.html")
    page.emulate_media(media="print")
    style = page.evaluate(
        "[getComputedStyle(document.documentElement, '::after').content,"
        " getComputedStyle(document.documentElement).backgroundColor, getComputedStyle(document.body).color]"
    )
    assert style == ["none", "rgb(255, 255, 255)", "rgb(0, 0, 0)"]
    assert page.locator(".light-switch").is_hidden()


def test_it_is_never_called_safe_and_says_how_to_test_ones_own_light(visit: Open) -> None:
    said = " ".join((visit("index.html").locator(".light-switch").text_content() or "").split())
    assert "safe" not in said.casefold().replace("safelight", "")
    assert "No screen light is known to be harmless to a coated sheet." in said
    assert "Lay a coin" in said
    for source in ("brodie-tyrrell.org", "mikeware.co.uk", "donaldtainsh", "EB9780429805974"):
        assert source in said


def test_without_scripts_there_is_no_switch(browser: Browser, site: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "index.html").as_uri())
    assert page.locator(".light-switch").is_hidden()
    context.close()


class Slow(SimpleHTTPRequestHandler):
    """A host whose style sheets take their time, so that a flash would be long enough to be caught."""

    def do_GET(self) -> None:
        if self.path.endswith(".css"):
            time.sleep(0.6)
        super().do_GET()

    def end_headers(self) -> None:
        self.send_header("Cache-Control", "no-store")
        super().end_headers()

    def log_message(self, *_: Any) -> None:
        """Silent."""


@pytest.fixture
def slow(site: Path) -> Iterator[str]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Slow, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/"
    server.shutdown()
    server.server_close()


PAINTED = "() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done())))"


def frames_of(page: Page, context: BrowserContext, addresses: list[str]) -> list[bytes]:
    """Every frame the browser shows while it goes from page to page."""
    session = context.new_cdp_session(page)
    frames: list[bytes] = []

    def keep(event: dict[str, Any]) -> None:
        frames.append(base64.b64decode(event["data"]))
        session.send("Page.screencastFrameAck", {"sessionId": event["sessionId"]})

    session.on("Page.screencastFrame", keep)
    latest = time.monotonic() + 60
    session.send("Page.startScreencast", {"format": "png", "everyNthFrame": 1})
    for address in addresses:
        before = len(frames)
        page.goto(address)
        page.wait_for_timeout(300)  # what is shown a moment later counts, too
        while len(frames) == before and time.monotonic() < latest:
            page.wait_for_timeout(50)
    session.send("Page.stopScreencast")
    return frames


@pytest.mark.parametrize("light", LIGHTS)
def test_no_frame_between_pages_is_brighter(context: BrowserContext, slow: str, light: str) -> None:
    page = context.new_page()
    page.emulate_media(color_scheme="light")
    page.goto(slow + "index.html")
    page.evaluate("(light) => traysideLight.change(light)", light)
    page.evaluate(PAINTED)
    shown = frames_of(page, context, [slow + path for path in (*PAGES[1:4], "index.html")])
    assert len(shown) >= 4
    assert [n for n, frame in enumerate(shown) if not within(frame, light)] == []
