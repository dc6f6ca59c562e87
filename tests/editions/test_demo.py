"""The whole demo with its supporters' edition sealed, in a real browser: from the disk and from a host on loopback.

Loopback is a secure context, as https is; without one a browser keeps its cipher back.
"""

import re
import shutil
import threading
from collections.abc import Callable, Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser, BrowserContext, Page, expect

from sitegen.cli import main
from tests.browser.test_light import within
from tests.editions.conftest import BEFORE, WORDS

CONTENT = Path(__file__).parents[2] / "content"
SEALED = "editions: [public, {id: supporters, name: supporters, sealed: yes, address: https://mill.example/friends/}]"
LEFT = "net::ERR_ABORTED"
"""A request that ended because the page was left."""
OPENED = ".foot button"
Visit = Callable[[str], Page]


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: Any) -> None:
        """Say nothing."""


@pytest.fixture(scope="module")
def sealed_demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The sealed edition of the demo, by `trayside compile`."""
    folder = tmp_path_factory.mktemp("demo")
    shutil.copytree(CONTENT, folder / "archive")
    settings = folder / "archive" / "archive.yaml"
    settings.write_text(re.sub(r"(?m)^editions: .*$", SEALED, settings.read_text()))
    command = ["compile", "--archive", str(folder / "archive"), "--out", str(folder / "build"), "--on", BEFORE]
    done = CliRunner().invoke(main, command, env={"TRAYSIDE_PASSPHRASES": WORDS})
    assert done.exit_code == 0, done.output
    return folder / "build" / "supporters"


@pytest.fixture(scope="module")
def host(sealed_demo: Path) -> Iterator[str]:
    """The same folder, served."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(sealed_demo)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_address[1]}"
    server.shutdown()
    server.server_close()
    thread.join()


@pytest.fixture(params=["from the disk", "from a host"])
def root(request: pytest.FixtureRequest, sealed_demo: Path) -> str:
    """Where the edition is opened from."""
    if request.param == "from the disk":
        return sealed_demo.as_uri()
    found: str = request.getfixturevalue("host")
    return found


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A reader's browser that has seen nothing yet, on a small phone."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context
    context.close()


@pytest.fixture
def visit(context: BrowserContext, root: str) -> Iterator[Visit]:
    """Open an address of the edition; nothing else may be asked for, and nothing be complained about."""
    wrong: list[str] = []
    near = (root, "blob:", "data:", "about:")

    def visit(after: str) -> Page:
        page = context.new_page()
        page.on("request", lambda r: None if r.url.startswith(near) else wrong.append(f"request {r.url}"))
        page.on("requestfailed", lambda r: wrong.append(f"failed {r.url}") if r.failure != LEFT else None)
        page.on("pageerror", lambda e: wrong.append(f"error {e}"))
        page.on("console", lambda m: wrong.append(f"{m.type} {m.text}") if m.type in ("error", "warning") else None)
        page.goto(f"{root}/index.html{after}")
        return page

    yield visit
    assert wrong == []


def open_with(page: Page, passphrase: str) -> Page:
    page.get_by_label("Your passphrase").fill(passphrase)
    page.get_by_role("button", name="Open").click()
    expect(page.locator(OPENED)).to_be_visible(timeout=30_000)
    return page


def test_the_passphrase_opens_it_and_a_wrong_one_does_not(visit: Visit) -> None:
    page = visit("")
    page.get_by_label("Your passphrase").fill("tide mill feather")
    page.get_by_role("button", name="Open").click()
    expect(page.get_by_role("alert")).to_contain_text("do not open this edition")
    assert "Two-bath" not in page.content()
    open_with(page, WORDS)
    expect(page).to_have_title("The Tide Mill Archive")


def test_a_sheets_own_code_is_answered_once_the_words_are_typed(visit: Visit) -> None:
    page = open_with(visit("#/sheets/index.html#TN-01.2"), WORDS)
    expect(page.locator("#answer h2")).to_have_text("Do not use this sheet", ignore_case=True)
    expect(page.locator("#answer h2")).to_be_in_viewport()
    page.get_by_role("link", name="Open TN-01").click()
    expect(page.get_by_role("heading", level=1)).to_contain_text("Oak-bark and tea toner")


def test_a_printed_address_leads_to_its_recipe_with_calculator_pictures_and_sheet(visit: Visit) -> None:
    page = open_with(visit("#/recipes/iron-blue/index.html"), WORDS)
    expect(page.get_by_role("heading", level=1)).to_contain_text("Iron-blue print")
    expect(page.locator("#calculator")).to_be_visible()
    pictures = page.locator("main picture img")
    assert pictures.count() > 0
    for image in pictures.all():
        image.scroll_into_view_if_needed()
        expect(image).not_to_have_js_property("naturalWidth", 0)
        assert image.get_attribute("src", timeout=1000).startswith("blob:")  # type: ignore[union-attr]
        assert image.bounding_box()["width"] > 100  # type: ignore[index]
    page.evaluate("location.hash = '#mix=working&ask=make&amount=350&unit=ml'")
    expect(page.locator("#asked")).to_have_text("For 350 ml of Working sensitiser")
    page.reload()
    expect(page.locator("#asked")).to_have_text("For 350 ml of Working sensitiser")
    with page.expect_download() as saved:
        page.get_by_role("link", name="Sheet, A4").first.click()
    assert saved.value.suggested_filename == "iron-blue-sheet-a4.pdf"
    assert saved.value.url.startswith("blob:")
    assert Path(saved.value.path()).read_bytes().startswith(b"%PDF-")


def test_the_search_finds_a_word_and_leads_to_its_page(visit: Visit) -> None:
    page = open_with(visit(""), WORDS)
    page.locator("#words").fill("ferricyanide")
    found = page.locator("#found a").first
    expect(found).to_have_attribute("href", re.compile(r"\?[a-z2-7]{24}"))
    found.click()
    expect(page.locator("main")).to_contain_text("ferricyanide")


def test_the_search_page_finds_it_too(visit: Visit) -> None:
    page = open_with(visit(""), WORDS)
    page.get_by_role("link", name="Search", exact=True).click()
    # The home page has a search field of its own: wait for the other page before typing.
    expect(page.get_by_role("heading", name="Search", exact=True)).to_be_visible()
    expect(page.locator(OPENED)).to_be_visible()
    page.locator("#words").fill("onion skin")
    expect(page.locator("#found a").first).to_be_visible(timeout=10_000)


def test_a_page_of_every_kind_opens(visit: Visit) -> None:
    page = open_with(visit(""), WORDS)
    for place in ("Bench", "Troubles", "Substances"):
        page.locator("nav.places").get_by_role("link", name=place).click()
        expect(page.locator("main")).to_contain_text(re.compile(r"\w{3}"))
        expect(page.locator(OPENED)).to_be_visible()
        expect(page.locator("nav.places [aria-current=page]")).to_have_text(place)


def test_the_sealed_demo_has_no_name_of_a_recipe_outside(sealed_demo: Path) -> None:
    files = [path for path in sealed_demo.rglob("*") if path.is_file() and "assets" not in path.parts]
    whole = b"".join(path.read_bytes() for path in files) + "\n".join(map(str, files)).encode()
    assert not re.search(rb"two-bath-toner|TN-|mill\.example/friends", whole)


def test_low_light_holds_in_front_of_the_words_and_behind_them(visit: Visit) -> None:
    front = visit("")
    front.locator(".light-switch > summary").click()
    front.locator(".light-switch input[value=red]").check()
    assert within(front.screenshot(), "red")
    page = open_with(visit("#/recipes/iron-blue/index.html"), WORDS)
    assert page.locator("html").get_attribute("data-light") == "red"
    assert page.locator("[data-light-now]").text_content() == "red"
    assert within(page.screenshot(), "red")
    white = "(link) => getComputedStyle(link, '::after').content"
    assert page.get_by_role("link", name="Sheet, A4").first.evaluate(white) == '" (opens white)"'
    page.locator("nav.places").get_by_role("link", name="Bench").click()
    expect(page.locator(OPENED)).to_be_visible()
    assert within(page.screenshot(), "red")
