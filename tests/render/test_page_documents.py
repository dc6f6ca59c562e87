"""Pages in the search: each is there under its own title, and the bench under the names of its sums."""

from dataclasses import replace

import pytest
from bs4 import BeautifulSoup

from sitegen.compute.whole import Computed, compute
from sitegen.problems import Problems
from sitegen.read.theme import read_theme
from sitegen.render.page_documents import page_documents
from sitegen.render.search_index import shelf
from sitegen.render.site import pages
from sitegen.search.query import parse_query, words_of
from sitegen.search.rank import Finder
from sitegen.search.words import stem
from tests.bench.many import demo


@pytest.fixture(scope="module")
def public() -> Computed:
    return compute(demo().edition("public"), Problems())


@pytest.fixture(scope="module")
def written(public: Computed) -> dict[str, BeautifulSoup]:
    kept = {document.path for document in page_documents(public.archive)}
    found = {page.path: page.content for page in pages(public, read_theme(), "public") if page.path in kept}
    return {path: BeautifulSoup(content, "html.parser") for path, content in found.items()}


def test_every_page_is_there_under_its_title(public: Computed, written: dict[str, BeautifulSoup]) -> None:
    for document in page_documents(public.archive):
        heading = written[document.path].h1
        assert heading is not None
        assert heading.get_text() == document.title


def test_the_bench_is_found_by_every_sum(public: Computed, written: dict[str, BeautifulSoup]) -> None:
    bench = next(document for document in page_documents(public.archive) if document.title == "Bench")
    known = {stem(word) for _, text in bench.texts for word in words_of(text)}
    for heading in written["bench/index.html"].select("main h2"):
        assert {stem(word) for word in words_of(heading.get_text())} <= known, heading


@pytest.mark.parametrize(
    ("words", "path"),
    [
        ("dilution calculator", "bench"),
        ("old sheet", "sheets"),
        ("cupboard", "cupboard"),
        ("what went wrong", "troubles"),
    ],
)
def test_a_page_is_found_by_what_it_is_for(words: str, path: str, public: Computed) -> None:
    finder = Finder(shelf(public).__getitem__)
    first, _ = finder.rank(parse_query(words)).order[0]
    assert finder.document(first)[3] == f"{path}/index.html"


def test_an_edition_without_trials_or_disputes_has_no_page_of_them(public: Computed) -> None:
    quiet = tuple(replace(recipe, disputes=()) for recipe in public.archive.recipes)
    bare = replace(public.archive, trials=(), recipes=quiet)
    missing = {d.title for d in page_documents(public.archive)} - {d.title for d in page_documents(bare)}
    assert missing == {"Journal", "Where sources disagree"}
