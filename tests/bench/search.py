"""`python -m tests.bench.search [100 1000 10000]`: sizes and times of the search index, as a table.

Sizes are gzipped (level 6) shard by shard, as a host would send them. A query's load is everything beyond the
client: the index, words, postings and the texts of the first results. The client is measured without comments
and indentation. Seconds are of this process alone, so that a busy machine matters less. A compile is counted as
plans, index, pages and printed sheets (pages and sheets those of the first recipes, and as many times more as there
are recipes), without reading and checking. In Chromium, the time runs from the arrival of the last shard (the
last keystroke, where all shards were there) to the results on the page.
"""

import gzip
import re
import statistics
import sys
import tempfile
import time
from collections.abc import Iterator, Mapping
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from multiprocessing import get_context
from pathlib import Path
from typing import get_args

from playwright.sync_api import Page, sync_playwright

from sitegen.compute.whole import Computed, compute
from sitegen.labels.archive import labels_of
from sitegen.problems import Problems
from sitegen.read.theme import read_theme
from sitegen.render.frame import frame
from sitegen.render.listing import home_page
from sitegen.render.search_index import script, shards
from sitegen.render.sheet import sheet_pdf
from sitegen.render.sheet_data import sheet_data
from sitegen.render.site import pages
from sitegen.render.typesetting import Paper
from sitegen.search.query import parse_query
from sitegen.search.rank import Finder
from sitegen.search.shards import Shard
from tests.bench.many import CONTENT, many
from tests.chromium import launch
from tests.search.conftest import count_of
from tests.search.judged import graded

SHOWN = 8
FEW = len(list((CONTENT / "recipes").glob("*.yaml")))
"""The demo's own recipes, which come first."""
SAMPLE = 68
CLIENTS = {
    "until results show": ("search-words.js", "search-rank.js", "search.js"),
    "narrowing, once opened": ("search-narrow.js",),
}
WATCH = """() => {
  window.took = [];
  let last = performance.now();
  for (const what of ["load", "input"]) document.addEventListener(what, () => { last = performance.now(); }, true);
  const list = document.getElementById("found");
  new MutationObserver(() => took.push(performance.now() - last)).observe(list, { childList: true });
}"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One size of archive."""

    recipes: int
    documents: int
    files: int
    index_mb: float
    median_kb: float
    most_kb: float
    worst: str
    narrow_kb: float
    index_s: float
    compile_s: float
    shown_ms: float
    most_ms: float


def packed(data: bytes) -> int:
    """Bytes as a host sends them."""
    return len(gzip.compress(data, 6, mtime=0))


def stripped(source: str) -> str:
    """A script without comments, indentation and empty lines; names and line ends stay."""
    bare = re.sub(r"^\s*/\*.*?\*/|^\s*//[^\n]*|\s//\s[^\n]*$", "", source, flags=re.DOTALL | re.MULTILINE)
    return "\n".join(line.strip() for line in bare.splitlines() if line.strip())


def client() -> Iterator[str]:
    """The client's sizes."""
    assets = read_theme().assets
    for name, files in CLIENTS.items():
        text = "\n".join(stripped(assets[file].decode()) for file in files).encode()
        yield f"client, {name}: {len(text) / 1024:.1f} KB stripped, {packed(text) / 1024:.1f} KB gzipped"


def loads(held: Mapping[str, Shard], sizes: Mapping[str, int]) -> Iterator[tuple[float, str]]:
    """What each judged query loads, in KB."""
    for query in graded():
        used: set[str] = set()

        def shelf(name: str, used: set[str] = used) -> object:
            used.add(name)
            return held[name].data

        finder = Finder(shelf)
        for number, _ in finder.rank(parse_query(query.text)).order[:SHOWN]:
            finder.document(number)
        yield sum(sizes[name] for name in used) / 1024, query.text


def shown(site: Path) -> list[float]:
    """Milliseconds from the last shard to the results, in Chromium, for judged queries typed one after the other."""
    with sync_playwright() as playwright:
        browser = launch(playwright)
        page = browser.new_page()
        page.goto((site / "index.html").as_uri())
        page.wait_for_load_state()
        page.evaluate(WATCH)
        times = [took for query in graded()[::4] for took in _asked(page, query.text)]
        browser.close()
    return times


def _asked(page: Page, text: str) -> list[float]:
    page.evaluate("window.took.length = 0; document.getElementById('said').textContent = ''")
    page.fill("#words", text)
    page.locator("#said:not(:empty)").wait_for(timeout=60_000)
    times: list[float] = page.evaluate("window.took")
    return times[:1]


def measured(count: int, folder: Path) -> Row:
    """Everything of one size of archive."""
    archive = many(count)
    start = time.process_time()
    computed = compute(archive, Problems())
    compute_s = time.process_time() - start
    start = time.process_time()
    made = list(shards(computed))
    scripts = {shard.name: script(shard) for shard in made}
    index_s = time.process_time() - start
    site = _written(computed, scripts, folder / str(count))
    sizes = {name: packed(data) for name, data in scripts.items()}
    held = {shard.name: shard for shard in made}
    queries = sorted(loads(held, sizes))
    times = shown(site)
    return Row(
        recipes=count,
        documents=count_of({shard.name: shard.data for shard in made}),
        files=len(scripts),
        index_mb=sum(map(len, scripts.values())) / 2**20,
        median_kb=statistics.median(size for size, _ in queries),
        most_kb=queries[-1][0],
        worst=queries[-1][1],
        narrow_kb=sizes["facets"] / 1024,
        index_s=index_s,
        compile_s=compute_s + index_s + _pages(computed) + _sheets(computed),
        shown_ms=statistics.median(times),
        most_ms=max(times),
    )


def _written(computed: Computed, scripts: Mapping[str, bytes], folder: Path) -> Path:
    """The home page with everything that a search needs, on the disk."""
    theme = read_theme()
    wanted = {f"search/{name}.js": data for name, data in scripts.items()}
    wanted |= {f"assets/{name}": data for name, data in theme.assets.items()}
    home = home_page(frame(computed, theme, computed.archive.settings.editions[-1]))
    for path, data in {**wanted, home.path: home.content}.items():
        folder.joinpath(path).parent.mkdir(parents=True, exist_ok=True)
        folder.joinpath(path).write_bytes(data)
    return folder


def _pages(computed: Computed) -> float:
    """Seconds for all pages but the index, from those of the first recipes, with what does not grow counted once."""
    few, more, all_of_them = FEW, FEW + SAMPLE, len(computed.archive.recipes)
    fixed, grown = _rendered(computed, few), _rendered(computed, more)
    return fixed + (grown - fixed) * (all_of_them - few) / (more - few)


def _rendered(computed: Computed, count: int) -> float:
    first = replace(computed, archive=replace(computed.archive, recipes=computed.archive.recipes[:count]))
    seconds = 0.0
    stream = pages(first, read_theme(), computed.archive.settings.editions[-1])
    while True:
        start = time.process_time()
        page = next(stream, None)
        spent = time.process_time() - start
        if page is None:
            return seconds
        if not (page.path.startswith("search/") and page.path.endswith(".js")):
            seconds += spent


def _sheets(computed: Computed) -> float:
    """Seconds for all printed sheets, from those of the last recipes: the first stand in every size and are known."""
    recipes, files = computed.archive.recipes, read_theme().print
    labels_of(computed)  # once for all sheets
    start = time.process_time()
    for recipe in recipes[-FEW:]:
        data = sheet_data(computed, recipe)
        for paper in get_args(Paper):
            sheet_pdf(data, paper, files)
    return (time.process_time() - start) * len(recipes) / FEW


def main() -> None:
    """Print the table."""
    counts = [int(text) for text in sys.argv[1:]] or [100, 1_000, 10_000]
    sys.stdout.write("\n".join(client()) + "\n\n")
    head = ("recipes", "documents", "files", "index MB", "query KB", "most KB", "narrowing KB", "index s", "compile s")
    sys.stdout.write("| " + " | ".join((*head, "share", "shown ms", "most ms", "heaviest query")) + " |\n")
    sys.stdout.write("|" + "---|" * 13 + "\n")
    # Each size in a process of its own: what one has set or read would be remembered, and cost the next nothing.
    alone = ProcessPoolExecutor(1, mp_context=get_context("spawn"), max_tasks_per_child=1)
    with tempfile.TemporaryDirectory() as folder, alone:
        for row in alone.map(measured, counts, [Path(folder)] * len(counts)):
            cells = (
                f"{row.recipes}", f"{row.documents}", f"{row.files}", f"{row.index_mb:.1f}", f"{row.median_kb:.1f}",
                f"{row.most_kb:.1f}", f"{row.narrow_kb:.1f}", f"{row.index_s:.1f}", f"{row.compile_s:.1f}",
                f"{row.index_s / row.compile_s:.0%}", f"{row.shown_ms:.0f}", f"{row.most_ms:.0f}", row.worst,
            )  # fmt: skip
            sys.stdout.write("| " + " | ".join(cells) + " |\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
