"""Composing keeps every scalar as its author wrote it, and refuses what could not be read safely."""

import sys

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from sitegen.problems import Problem, Problems, Span
from sitegen.read import compose
from sitegen.read.nodes import Data, TextNode, to_data

FILE = "recipes/x.yaml"


def composed(text: str) -> tuple[Data, list[Problem]]:
    problems = Problems()
    root = compose(text, FILE, problems)
    return (to_data(root) if root else None), problems.found


@pytest.mark.parametrize(
    "scalar", ["1:10", "no", "yes", "1e3", "010", "12:30", "null", "~", "0x1F", "2026-03-02", ".inf", "1_000"]
)
def test_no_scalar_is_resolved(scalar: str) -> None:
    assert composed(f"a: {scalar}\n") == ({"a": scalar}, [])


def test_nothing_written_differs_from_an_empty_text() -> None:
    assert composed('a:\nb: ""\n') == ({"a": None, "b": ""}, [])


def test_places_count_from_nought_in_characters() -> None:
    problems = Problems()
    root = compose('µ: é\nlist:\n  - "one two"\n', FILE, problems)
    assert root is not None
    value = root.get("µ")
    assert isinstance(value, TextNode)
    assert value.at == Span(file=FILE, line=0, column=3, end=4)
    listed = root.get("list")
    assert listed is not None
    assert not isinstance(listed, TextNode)
    item = listed.items[0]  # type: ignore[union-attr]  # a list, as written above
    assert item.at == Span(file=FILE, line=2, column=4, end=13)


def test_an_alias_gives_the_value_it_refers_to() -> None:
    assert composed("a: &x [1, 2]\nb: *x\n") == ({"a": ["1", "2"], "b": ["1", "2"]}, [])


def test_a_duplicate_key_is_told_and_so_is_the_next() -> None:
    _, problems = composed("a: 1\na: 2\nb: {c: 1, c: {d: 1, d: 2}}\n")
    assert [(p.code, p.at.line, p.at.column) for p in problems] == [
        ("duplicate-key", 1, 0),
        ("duplicate-key", 2, 10),
        ("duplicate-key", 2, 20),
    ]


def test_a_bomb_of_aliases_is_refused_quickly() -> None:
    lines = ["a0: &a0 [x, x]"] + [f"a{n}: &a{n} [*a{n - 1}, *a{n - 1}]" for n in range(1, 400)]
    _, problems = composed("\n".join(lines))
    assert [p.code for p in problems] == ["too-many-values"]


@pytest.mark.parametrize("text", ["[" * 100_000, "{a: " * 50_000, "- " * 100_000, "? " * 50_000])
def test_deep_nesting_is_refused_without_overflow(text: str) -> None:
    _, problems = composed(text)
    assert [p.code for p in problems] == ["too-deep"]


def test_a_control_character_behind_an_escape_is_refused() -> None:
    _, problems = composed('a: "\\e[31mred"\n')
    assert [(p.code, p.at.column) for p in problems] == [("control-character", 3)]


@pytest.mark.parametrize("text", ["", "\n\n", "# only a comment\n", "---\n", "--- \n...\n"])
def test_an_empty_file_is_said_to_be_empty(text: str) -> None:
    assert [p.code for p in composed(text)[1]] == ["file-empty"]


@pytest.mark.parametrize("newline", ["\n", "\r\n", "\r"])
def test_lines_are_counted_alike_for_every_line_end(newline: str) -> None:
    _, problems = composed(newline.join(["a: 1", "b: 2", "a: 3"]))
    assert [(p.code, p.at.line) for p in problems] == [("duplicate-key", 2)]


BROKEN = [
    "a: b: c", "a: 'x", 'a: "x', "a: [1, 2", "a: {b: 1", "a\nb: 1", "a: 1\n  b: 2", "a: |x", "a: @b", "a: `b",
    "a: %b", "\ta: 1", "a:\n\t- 1", 'a: "\\q"', "a: *", "a: &", "a: ]", "a: - b", "%YAML 9.9\n---\na: 1", "a: 1\n- b",
    "- a\nb: 1", 'a: "\\ud800"', "a: !<x y", "? a\n? b\n- c", "a: 'x' y", "[a]: b", "%TAG", "a: 'b\n---\n",
]  # fmt: skip


@pytest.mark.parametrize("text", BROKEN)
def test_both_parsers_are_put_into_our_own_words(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    by_c = composed(text)[1]
    monkeypatch.setattr(sys.modules["sitegen.read.compose"], "_LOADER", yaml.SafeLoader)
    by_python = composed(text)[1]
    for problems in (by_c, by_python):
        assert len(problems) == 1
        assert problems[0].help
        assert problems[0].message[0] in "`" or problems[0].message[0].islower()
        assert "scanning" not in problems[0].message
        assert "expected <" not in problems[0].message


@given(st.text())
def test_any_text_gives_a_tree_or_problems(text: str) -> None:
    data, problems = composed(text)
    assert (data is None) == bool(problems)


@given(st.text(alphabet="ab:-[]{}&*!|>'\"%@`#,? \n\t0", max_size=60))
def test_any_heap_of_yaml_signs_gives_a_tree_or_problems(text: str) -> None:
    data, problems = composed(text)
    assert (data is None) == bool(problems)
    lines = text.split("\n")
    assert all(0 <= p.at.line < max(len(lines), 1) for p in problems)


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("never: Never mix #2 with #1\n", (0, 17)),
        ("never: [Never mix #2 with #1]\n", (0, 18)),
        ("a: first\nb: two lines\n  of text #3\n", (2, 10)),
        ("code: #3\n", (0, 6)),
    ],
)
def test_a_text_cut_off_at_a_number_sign_is_said(text: str, place: tuple[int, int]) -> None:
    problems = Problems()
    assert compose(text, "x.yaml", problems) is None
    (found,) = problems.in_order()
    assert (found.code, found.at.line, found.at.column) == ("yaml-number-sign", *place)


@pytest.mark.parametrize(
    "text",
    [
        'a: "tray #2"\n',
        "a: tray#2\n",
        "a: 2 g  # a remark\n",
        "#a: 1\nb: 2\n",
        "a: |\n  tray #2\n",
        "a:\n  #b: 1\n  c: 2\n",
    ],
)
def test_remarks_and_quoted_number_signs_are_read(text: str) -> None:
    problems = Problems()
    assert compose(text, "x.yaml", problems) is not None
    assert not problems.found


@pytest.mark.parametrize(
    ("text", "code", "place"),
    [
        ('title: "Blue\ncode: IB-01\ncredits: "own"\n', "yaml-quote-open", (0, 7)),
        ("store: 'don't\n", "yaml-quote-early", (0, 12)),
        ('needs: ["Two" bottles]\n', "yaml-quote-early", (0, 14)),
        ("keeps: 6 months\n  store: Dark glass.\n", "yaml-line-up", (1, 2)),
        ('a: "b"\n  c: d\n', "yaml-line-up", (1, 2)),
    ],
)
def test_quotes_and_indents_are_named_where_they_went_wrong(text: str, code: str, place: tuple[int, int]) -> None:
    problems = Problems()
    assert compose(text, "x.yaml", problems) is None
    (found,) = problems.in_order()
    assert (found.code, found.at.line, found.at.column) == (code, *place)
