"""Problems look the same everywhere: the first line, the author's line, the caret, facts, remedy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from rich.cells import cell_len

from sitegen.problems import Level, Problem, Span
from sitegen.report import as_json, show, styled, summary


def problem(column: int = 7, end: int = 11, line: int = 1, *, level: Level = "error", file: str = "r.yaml") -> Problem:
    return Problem(
        code="ratio-two-readings",
        at=Span(file=file, line=line, column=column, end=end),
        message="`1:10` can be read in two ways",
        help="write `1+10` or `1+9`",
        notes=("1 part to 10 parts, or 1 part in 10",),
        level=level,
    )


def test_the_shape_of_a_problem() -> None:
    assert show(problem(), {"r.yaml": "title: x\nstock: 1:10\n"}) == (
        "r.yaml:2:8: error[ratio-two-readings] `1:10` can be read in two ways\n"
        " 2 | stock: 1:10\n"
        "   |        ^^^^\n"
        "   = note: 1 part to 10 parts, or 1 part in 10\n"
        "   = help: write `1+10` or `1+9`"
    )


def test_tabs_are_kept_before_the_caret() -> None:
    _, source, caret, *_ = show(problem(1, 3, 0), {"r.yaml": "\tab"}).split("\n")
    assert (source, caret) == (" 1 | \tab", "   | \t^^")


def test_the_caret_stands_below_wide_characters() -> None:
    _, source, caret, *_ = show(problem(2, 4, 0), {"r.yaml": "藍染: x"}).split("\n")
    assert source == " 1 | 藍染: x"
    assert caret == "   |     ^^"


def test_a_file_without_text_has_no_excerpt() -> None:
    assert show(problem(0, 1, 0), {}).split("\n")[:2] == [
        "r.yaml: error[ratio-two-readings] `1:10` can be read in two ways",
        "  = note: 1 part to 10 parts, or 1 part in 10",
    ]


def test_a_place_past_the_last_line_has_no_excerpt() -> None:
    assert show(problem(line=9), {"r.yaml": "a\n"}).startswith("r.yaml:10:8: error")


def test_what_a_terminal_would_obey_is_never_passed_on() -> None:
    text = "stock: \x1b[31m1:10\u202e"
    shown = show(problem(0, 5, 0), {"r.yaml": text})
    assert "\x1b" not in shown
    assert "\u202e" not in shown


def test_code_in_a_remedy_is_not_broken_over_lines() -> None:
    long = Problem(code="x-y", at=Span(file="r"), message="m", help="write " + "word " * 12 + "`percent means: w/v`")
    assert any(line.endswith("`percent means: w/v`") for line in show(long, {}).split("\n"))


def test_lines_to_paste_stand_as_they_are() -> None:
    paste = Problem(code="x-y", at=Span(file="r"), message="m", help="paste:\nhazards:\n  wear: gloves")
    assert show(paste, {}).split("\n")[1:] == [
        "  = help: paste:",
        "          hazards:",
        "            wear: gloves",
    ]


@given(
    st.text(alphabet=st.characters(codec="utf-8", exclude_characters="\n\r\t")),
    st.integers(0, 300),
    st.integers(1, 90),
)
def test_long_lines_are_cut_around_the_caret(text: str, column: int, marked: int) -> None:
    column = min(column, max(len(text) - 1, 0))
    shown = show(problem(column, column + marked, 0), {"r.yaml": text}).split("\n")
    source, caret = shown[1], shown[2]
    assert cell_len(source) <= 80
    assert cell_len(caret) <= 81
    assert caret.strip("| ").strip("^") == ""


def test_a_cut_line_still_shows_what_is_marked() -> None:
    text = "a" * 100 + "MARKED" + "b" * 100
    _, source, caret, *_ = show(problem(100, 106, 0), {"r.yaml": text}).split("\n")
    assert source.startswith(" 1 | …aaa")
    assert source.endswith("bbb…")
    assert source[caret.index("^") : caret.rindex("^") + 1] == "MARKED"


def test_styled_text_has_the_same_characters() -> None:
    texts = {"r.yaml": "title: x\nstock: 1:10\n"}
    assert styled(problem(), texts).plain == show(problem(), texts)
    assert "bold red" in {str(span.style) for span in styled(problem(), texts).spans}


def test_json_counts_from_one() -> None:
    assert as_json(problem()) == {
        "file": "r.yaml",
        "line": 2,
        "column": 8,
        "end column": 12,
        "level": "error",
        "code": "ratio-two-readings",
        "message": "`1:10` can be read in two ways",
        "help": "write `1+10` or `1+9`",
        "notes": ["1 part to 10 parts, or 1 part in 10"],
    }


@pytest.mark.parametrize(
    ("found", "said"),
    [
        ([], "no problems"),
        ([problem()], "1 error in 1 file"),
        ([problem(), problem(0), problem(level="warning", file="s.yaml")], "2 errors, 1 warning in 2 files"),
        ([problem(level="warning")], "1 warning in 1 file"),
    ],
)
def test_the_summary_counts(found: list[Problem], said: str) -> None:
    assert summary(found) == said
