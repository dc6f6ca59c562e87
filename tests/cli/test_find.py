"""`trayside find`: the order of the pages, in words and as data."""

import json

import pytest
from click.testing import CliRunner

from sitegen.cli.find import find_command
from sitegen.compute.whole import Computed, compute
from sitegen.problems import Problems
from sitegen.render.search_index import shelf
from sitegen.search.query import parse_query
from sitegen.search.rank import Finder
from tests.bench.many import CONTENT, demo


@pytest.fixture(scope="module")
def public() -> Computed:
    return compute(demo().edition("public"), Problems())


def find(*words: str) -> str:
    result = CliRunner().invoke(find_command, [*words, "--archive", str(CONTENT)])
    assert result.exit_code == 0, result.output
    return result.stdout


@pytest.mark.parametrize("words", [("washing", "soda"), ("ferricianide",), ('"first bath" -silver',), ("cyan",)])
def test_the_terminal_finds_in_the_order_of_the_index(words: tuple[str, ...], public: Computed) -> None:
    finder = Finder(shelf(public).__getitem__)
    order = finder.rank(parse_query(" ".join(words))).order
    answer = json.loads(find(*words, "--edition", "public", "--json", "--number", "1000"))
    assert answer["count"] == len(order)
    assert [(each["path"], each["score"]) for each in answer["found"]] == [
        (finder.document(number)[3], str(score)) for number, score in order
    ]


def test_words_show_where_they_were_found() -> None:
    first, where = find("walnut", "toner").splitlines()[:2]
    assert first.startswith("TN-02 Walnut and tannin toner  [recipe]  recipes/walnut-toner/index.html")
    assert "*" in where


def test_an_edition_that_is_not_there_is_refused_with_those_that_are() -> None:
    result = CliRunner().invoke(find_command, ["tea", "--edition", "publik", "--archive", str(CONTENT)])
    assert result.exit_code == 2
    assert "did you mean `public`" in result.stderr


def test_nothing_found_is_said_and_is_no_mistake() -> None:
    result = CliRunner().invoke(find_command, ["zzyzxq", "--archive", str(CONTENT)])
    assert result.exit_code == 0
    assert "nothing is like: " in result.stderr
    assert "nothing found" in result.stderr
