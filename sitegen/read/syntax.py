"""Syntax: what the YAML parser refuses, in our own words.

The parser's English is matched only to choose among our messages; none of it is shown. Both parsers
(the C library and the pure one) are covered; what is not recognised gets a general message.
"""

import re
from dataclasses import dataclass
from typing import Final

import yaml

from sitegen.problems import Problem, Span


@dataclass(frozen=True, slots=True, kw_only=True)
class _Words:
    code: str
    message: str
    help: str


MAX_DEPTH: Final = 32
"""Lists and groups within each other; a recipe needs six."""

DEEP: Final = _Words(
    code="too-deep",
    message=f"this is nested more than {MAX_DEPTH} levels deep",
    help="a recipe needs six levels; check the brackets and the indentation",
)
_TAB: Final = _Words(
    code="yaml-tab",
    message="a tab stands where only spaces are read",
    help="indent with spaces, two for a level",
)
_SPECIAL: Final = _Words(
    code="yaml-special-start",
    message="a text cannot start with this character",
    help='put the text in quotes: "…"',
)
_LINE_UP: Final = _Words(
    code="yaml-line-up",
    message="this line does not fit the lines before it",
    help="start it in the same column as its neighbours; put a text with `: `, quotes or brackets in quotes",
)
_COLON: Final = _Words(
    code="yaml-colon",
    message="a second `: ` stands in this value",
    help='put the text in quotes: "Note: stir", or write it below a `>-`',
)
_NAME: Final = _Words(
    code="yaml-colon-missing",
    message="a name without its `:` ends here",
    help="write `name: value`, or indent the line if it continues the text above",
)
_BRACKET: Final = _Words(
    code="yaml-bracket-open",
    message="a list or a group in brackets is not closed, or a comma is missing, before this place",
    help="close it with `]` or `}`, put commas between its values, and quotes around texts with commas",
)
_QUOTE: Final = _Words(
    code="yaml-quote-open",
    message="the text that starts with a quote is not closed",
    help="add the closing quote; inside '…' write '' for an apostrophe",
)
_QUOTE_EARLY: Final = _Words(
    code="yaml-quote-early",
    message="the text in quotes ends before this place",
    help="put quotes around the whole text: '\"Blue\" print'; inside '…' write '' for an apostrophe",
)
_DEEPER: Final = _Words(
    code="yaml-line-up",
    message="this line is indented as if it continued the text above",
    help="start it in the same column as its neighbours; put a text of several lines with `: ` in quotes",
)
_ESCAPE: Final = _Words(
    code="yaml-escape",
    message='this backslash is not one that "…" knows',
    help="write `\\\\` for a backslash, or use '…' instead of \"…\"",
)
_BLOCK: Final = _Words(
    code="yaml-block-start",
    message="this is not a way to start a text of several lines",
    help="write `|` or `>-` alone at the end of the line, and the text indented below it",
)
_OTHER: Final = _Words(
    code="yaml-not-read",
    message="this cannot be read as YAML",
    help="check quotes, colons and indentation here and in the line above",
)

# Which words of the parser's own message tell which mistake? The first row that fits is taken.
_SIGNS: Final = (
    ("nesting depth", DEEP),
    ("violates indentation", _TAB),
    ("violate indentation", _TAB),
    ("invalid leading utf", _OTHER),
    ("mapping values are not allowed", _COLON),
    ("could not find expected ':'", _NAME),
    ("simple key", _NAME),
    ("',' or '", _BRACKET),
    ("flow", _BRACKET),
    ("escape", _ESCAPE),
    ("hexdecimal", _ESCAPE),
    ("hexadecimal", _ESCAPE),
    ("quoted scalar", _QUOTE),
    ("block scalar", _BLOCK),
    ("chomping", _BLOCK),
    ("alphabetic or numeric", _SPECIAL),
    ("cannot start any token", _SPECIAL),
    ("tag", _SPECIAL),
    ("directive", _SPECIAL),
    ("expected key", _LINE_UP),
    ("'-' indicator", _LINE_UP),
    ("<block end>", _LINE_UP),
    ("not allowed in this context", _LINE_UP),
    ("document start", _LINE_UP),
)


def syntax_problem(
    error: yaml.MarkedYAMLError, text: str, file: str, quoted: tuple[yaml.Mark, yaml.Mark] | None = None
) -> Problem:
    """The parser's error as a problem at its place; `quoted` is where the last text in quotes begins and ends."""
    said = f"{error.context or ''} {error.problem or ''}".casefold()
    words = next((words for sign, words in _SIGNS if sign in said), _OTHER)
    # An open quote or a lone name is found out further down: its beginning is what helps.
    opened = words in (_QUOTE, _NAME)
    mark = (error.context_mark if opened else None) or error.problem_mark or error.context_mark
    line, column = (mark.line, mark.column) if mark else (0, 0)
    lines = re.split(r"\r\n|\r|\n", text.rstrip("\r\n"))
    if line >= len(lines):
        # Found out past the last line: the end of that line is the nearest place to show.
        line = len(lines) - 1
        column = max(len(lines[line]) - 1, 0)
    notes: tuple[str, ...] = ()
    if words in (_LINE_UP, _COLON, _BRACKET) and quoted and quoted[1].line == line and quoted[1].column <= column:
        words = _QUOTE_EARLY
        if quoted[0].line < line:  # it ran on to where another text begins
            words, notes = _QUOTE, (f"it runs on to the next quote, in line {line + 1}",)
            line, column = quoted[0].line, quoted[0].column
    elif words is _COLON and ": " not in lines[line][:column]:
        words, column = _DEEPER, len(lines[line]) - len(lines[line].lstrip())
    if words is _SPECIAL and lines[line][column : column + 1] == "\t":
        words = _TAB
    return Problem(
        code=words.code,
        at=Span(file=file, line=line, column=column, end=column + 1),
        message=words.message,
        help=words.help,
        notes=notes,
    )
