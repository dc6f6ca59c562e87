"""`trayside find`: the order of the pages, in words and as data."""

import json
import os
import pty
import subprocess
import sys

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
    assert "nothing found\n  = help: half a word" in result.stderr


def test_a_word_is_left_out_as_on_the_pages(public: Computed) -> None:
    answer = json.loads(find("print", "-silver", "--edition", "public", "--json", "--number", "1000"))
    assert answer["query"] == "print -silver"
    silver = Finder(shelf(public).__getitem__).rank(parse_query("print -silver")).order
    assert 0 < answer["count"] == len(silver) < json.loads(find("print", "--edition", "public", "--json"))["count"]


@pytest.mark.parametrize(
    ("words", "help_"),
    [(["-silver"], "write a word to be found"), (['"silver tea bath"'], "without quotes and minuses there are ")],
)
def test_where_nothing_is_found_it_says_what_to_write(words: list[str], help_: str) -> None:
    result = CliRunner().invoke(find_command, [*words, "--archive", str(CONTENT)])
    assert f"nothing found\n  = help: {help_}" in result.stderr


def test_a_misspelt_option_is_no_word() -> None:
    result = CliRunner().invoke(find_command, ["tea", "--jsn", "--archive", str(CONTENT)])
    assert result.exit_code == 2
    assert "--json" in result.stderr


def test_it_says_how_many_more_there_are() -> None:
    result = CliRunner().invoke(find_command, ["soda", "--number", "2", "--archive", str(CONTENT)])
    assert len(result.stdout.splitlines()) == 4
    count = json.loads(find("soda", "--json"))["count"]
    assert result.stderr == f"2 of {count} found; `--number {count}` shows more\n"


def test_passages_are_broken_at_the_width_of_a_terminal() -> None:
    inside, outside = pty.openpty()
    words = [sys.executable, "-m", "sitegen", "find", "washing", "soda", "--number", "3", "--archive", str(CONTENT)]
    subprocess.run(words, stdout=outside, env={**os.environ, "COLUMNS": "40"}, check=True, stderr=subprocess.DEVNULL)
    lines = os.read(inside, 10_000).decode().splitlines()
    os.close(inside)
    os.close(outside)
    passages = [line for line in lines if line.startswith("    ")]
    assert len(passages) > 3
    assert max(map(len, passages)) <= 40
