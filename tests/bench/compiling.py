"""Compile time of generated recipes against a bare loop over the same libraries.

The floor does what no compiler of such an archive can leave out: compose each YAML text, render each
recipe's Markdown, fill one plain template, set both sheets with the same data, write the same bytes.
Both run in one process, on one machine, best of the rounds; the answer is the ratio.
"""

import re
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

import jinja2
import yaml
from markdown_it import MarkdownIt

from sitegen.check.whole import check
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import read_theme
from sitegen.render.edition import edition_pages, editions
from sitegen.render.page import Page
from sitegen.render.sheet import sheet_pdf
from sitegen.render.sheet_data import sheet_data
from sitegen.render.sheet_model import SheetData
from sitegen.write import write_edition
from tests.bench.generated import generated

ROUNDS = 1
PAGE = jinja2.Environment(autoescape=True).from_string(
    "<!doctype html><title>{{ title }}</title><main>{% for part in parts %}<section>{{ part|safe }}</section>"
    "{% endfor %}<pre>{{ text }}</pre></main>"
)


def archive_of(texts: dict[str, str]) -> Archive:
    """Read and check; the texts are sound by construction."""
    problems = Problems()
    archive = check(compose_sources({**base_cards(), **texts}, problems), problems)
    assert archive is not None
    assert not problems.failed, problems.found[:3]
    return archive


def ours(texts: dict[str, str], out: Path) -> list[Page]:
    """The whole way, public edition; the pages that were written."""
    theme = read_theme()
    pages: list[Page] = []
    for edition in editions(archive_of(texts))[:1]:
        pages = list(edition_pages(edition, theme, {}))
        write_edition(pages, out / edition.name)
    return pages


def floor(texts: dict[str, str], pages: list[Page], data: list[SheetData], out: Path) -> None:
    """The same work by the libraries alone, for the same bytes written."""
    markdown, print_files = MarkdownIt("commonmark", {"html": False}), read_theme().print
    for name, text in {**base_cards(), **texts}.items():
        yaml.compose(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
        if name.startswith("recipes/"):
            prose = re.findall(r"(?:do|note|about): (.+)", text)
            PAGE.render(title=name, parts=[markdown.render(part) for part in prose], text=text)
    for one in data:
        sheet_pdf(one, "a4", print_files)
        sheet_pdf(one, "letter", print_files)
    for page in pages:
        path = out / page.path
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(page.content)


def best(work: Callable[[Path], object]) -> float:
    """Seconds of the fastest round, each in a folder of its own."""
    times = []
    for _ in range(ROUNDS):
        with tempfile.TemporaryDirectory() as folder:
            start = time.perf_counter()
            work(Path(folder) / "out")
            times.append(time.perf_counter() - start)
    return min(times)


def compiling(count: int = 200) -> dict[str, float]:
    """Seconds of ours and of the floor for `count` recipes, and their ratio."""
    texts = generated(count)
    edition = editions(archive_of(texts))[0]
    data = [sheet_data(edition.computed, recipe) for recipe in edition.computed.archive.recipes]
    pages: list[Page] = []
    mine = best(lambda out: pages.__setitem__(slice(None), ours(texts, out)))
    bare = best(lambda out: floor(texts, pages, data, out))
    return {"recipes": count, "ours": round(mine, 2), "floor": round(bare, 2), "ratio": round(mine / bare, 2)}
