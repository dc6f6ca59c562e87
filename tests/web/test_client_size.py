"""The search stays small: its scripts by esbuild's minifier (npm `esbuild`), counted without compression.
Other than Latin letters stay as they are, since the scripts are sent in UTF-8.

Counted is every script of the theme that a page loads before the first results of a typed query show. What narrows
is loaded by those who open it, and has a limit of its own. The shards of the index are data, which `tests/bench`
measures; a sealed edition's own scripts open it, whether anybody searches or not.
"""

import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
KEPT = ROOT / ".cache" / "npm-esbuild"
MINIFIER = "esbuild@0.28.2"
PROGRAM = KEPT / "node_modules" / ".bin" / "esbuild"
ASSETS = ROOT / "themes" / "card" / "assets"
SEARCHING = ("search-words.js", "search-rank.js", "search.js")


@pytest.fixture(scope="module")
def minifier() -> Path:
    """The minifier, fetched once; a machine without npm fails here, it does not skip."""
    if not PROGRAM.is_file():
        KEPT.mkdir(parents=True, exist_ok=True)
        wanted = ["install", "--prefix", str(KEPT), "--no-audit", "--no-fund", MINIFIER]
        subprocess.run(["npm", *wanted], check=True, capture_output=True)
    return PROGRAM


@pytest.mark.parametrize(
    ("names", "most"), [(SEARCHING, 12_000), (("search-narrow.js",), 5_600)], ids=["searching", "narrowing"]
)
def test_the_search_is_no_more_than_it_may_be(names: tuple[str, ...], most: int, minifier: Path) -> None:
    made = (
        subprocess.run([minifier, "--minify", "--charset=utf8", ASSETS / name], check=True, capture_output=True)
        for name in names
    )
    assert sum(len(each.stdout) for each in made) <= most


def test_a_page_loads_no_other_script_of_the_search() -> None:
    pages = (ASSETS.parent / "templates" / name for name in ("home.html", "search.html"))
    scripts = ", ".join(f'"{name.removesuffix(".js")}"' for name in SEARCHING)
    assert all(f"with scripts = [{scripts}]" in page.read_text(encoding="utf-8") for page in pages)
