"""Compile time of generated recipes against a bare loop over the same libraries.

The floor does what no compiler of such an archive can leave out: compose each YAML text, render each
recipe's Markdown, fill one plain template, set both sheets and both booklets with the same data by the setter
itself, write the same bytes. Both run in one process, on one machine, best of the rounds; the answer is the ratio.
"""

import json
import re
import tempfile
import time
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import get_args

import jinja2
import typst
import yaml
from markdown_it import MarkdownIt

from sitegen.check.whole import check
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import read_theme
from sitegen.render.booklet import booklet_fields, has_booklet
from sitegen.render.booklet_data import booklet_data
from sitegen.render.booklet_model import BookletData
from sitegen.render.edition import Edition, edition_pages, editions
from sitegen.render.page import Page
from sitegen.render.sheet import sheet_fields
from sitegen.render.sheet_data import sheet_data
from sitegen.render.sheet_model import SheetData
from sitegen.render.typesetting import Json, Paper
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


def printed(data: list[SheetData | BookletData]) -> Iterator[tuple[str, Mapping[str, Json]]]:
    """By kind: what every sheet and booklet of both papers is set from."""
    for one in data:
        for paper in get_args(Paper):
            yield (
                ("sheet", sheet_fields(one, paper))
                if isinstance(one, SheetData)
                else (
                    "booklet",
                    booklet_fields(one, paper),
                )
            )


def floor(texts: dict[str, str], pages: list[Page], data: list[SheetData | BookletData], out: Path) -> None:
    """The same work by the libraries alone, for the same bytes written."""
    markdown, print_files = MarkdownIt("commonmark", {"html": False}), read_theme().print
    setter = typst.Compiler(ignore_system_fonts=True)
    for name, text in {**base_cards(), **texts}.items():
        yaml.compose(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
        if name.startswith("recipes/"):
            prose = re.findall(r"(?:do|note|about): (.+)", text)
            PAGE.render(title=name, parts=[markdown.render(part) for part in prose], text=text)
    for kind, fields in printed(data):
        files = {**print_files, "main.typ": print_files[f"{kind}.typ"], f"{kind}.json": json.dumps(fields).encode()}
        setter.compile(files, format="pdf", pdf_standards=["ua-1"], timestamp=0)  # type: ignore[type-var]  # documented
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


def printed_data(edition: Edition) -> list[SheetData | BookletData]:
    """The words of every sheet and booklet."""
    computed, recipes = edition.computed, edition.computed.archive.recipes
    sheets = [sheet_data(computed, recipe) for recipe in recipes]
    return [*sheets, *(booklet_data(computed, recipe, edition.name, {}) for recipe in recipes if has_booklet(recipe))]


def compiling(count: int) -> dict[str, float]:
    """Seconds of ours and of the floor for `count` recipes, and their ratio."""
    texts = generated(count)
    edition = editions(archive_of(texts))[0]
    data = printed_data(edition)
    pages: list[Page] = []
    mine = best(lambda out: pages.__setitem__(slice(None), ours(texts, out)))
    bare = best(lambda out: floor(texts, pages, data, out))
    return {"recipes": count, "ours": round(mine, 2), "floor": round(bare, 2), "ratio": round(mine / bare, 2)}
