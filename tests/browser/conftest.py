"""A browser over the compiled demo archive, opened from the disk as a reader opens it.

Never skipped: where there is no Chromium, these tests fail and say how to name one.
"""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page

from sitegen.check import check_archive
from sitegen.cli.pictures import load_pictures
from sitegen.compute.whole import Computed
from sitegen.problems import Problems
from sitegen.read import read_folder
from sitegen.read.theme import read_theme
from sitegen.render.edition import editions
from sitegen.render.links import picture_path
from sitegen.render.page import Page as File
from sitegen.render.site import pages

CONTENT = Path(__file__).parents[2] / "content"
OFFLINE = ("file://", "data:", "about:")

Open = Callable[..., Page]


@pytest.fixture(scope="session")
def computed() -> Computed:
    """The demo archive as the readers of its last edition see it: every recipe."""
    problems = Problems()
    archive = check_archive(read_folder(CONTENT, problems), problems)
    assert archive is not None
    assert not problems.failed, problems.in_order()
    return editions(archive)[-1].computed


@pytest.fixture(scope="session")
def site(computed: Computed, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The folder of that edition's pages and pictures."""
    folder = tmp_path_factory.mktemp("site")
    pictures = load_pictures(computed.archive, CONTENT, Problems())
    written = list(pages(computed, read_theme(), computed.archive.settings.editions[-1], pictures))
    written += [File(path=picture_path(v.path), content=v.content) for p in pictures.values() for v in p.files]
    for page in written:
        path = folder / page.path
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(page.content)
    return folder


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A reader's browser that has seen nothing yet, on a small phone."""
    context = browser.new_context(viewport={"width": 360, "height": 740})
    yield context
    context.close()


@pytest.fixture
def visit(context: BrowserContext, site: Path) -> Iterator[Open]:
    """Open a page of the site; at the end nothing may have been requested or complained about."""
    wrong: list[str] = []

    def visit(path: str, fragment: str = "") -> Page:
        page = context.new_page()
        page.on("request", lambda r: None if r.url.startswith(OFFLINE) else wrong.append(f"request {r.url}"))
        page.on("requestfailed", lambda r: None if r.failure == LEFT else wrong.append(f"failed {r.url}"))
        page.on("pageerror", lambda e: wrong.append(f"error {e}"))
        page.on("console", lambda m: wrong.append(f"{m.type} {m.text}") if m.type in LOUD else None)
        page.goto((site / path).as_uri() + fragment)
        return page

    yield visit
    assert wrong == []


LOUD = ("error", "warning")
LEFT = "net::ERR_ABORTED"
"""A page was left before all of it had come."""
