"""Reports: a problem as text for a terminal, as styled text, as JSON. Three views of one value.

Lines and columns are counted from 0 everywhere else; the one is added here.
"""

import re
import textwrap
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from rich.cells import cell_len, set_cell_size
from rich.text import Text

from sitegen.problems import Problem

WIDTH: Final = 80

# What a terminal would obey instead of showing: also what turns the direction of text around.
_UNSAFE: Final = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ufeff\ud800-\udfff]")
_NEWLINE: Final = re.compile(r"\r\n|\r|\n")
_STYLES: Final = {
    "place": "bold", "error": "bold red", "warning": "bold yellow", "gutter": "blue", "caret": "bold red",
    "label": "bold", "source": "", "message": "bold", "text": "",
}  # fmt: skip

Piece = tuple[str, str]
"""What kind of text it is, a key of `_STYLES`; and the text."""


def show(problem: Problem, texts: Mapping[str, str], *, width: int = WIDTH) -> str:
    """The problem with its line and a caret; `texts` are the files by name. Plain text, no last newline.

    Source, notes and help keep within `width` columns; the first line is never broken, so that terminals
    and editors link it.
    """
    return "\n".join("".join(text for _, text in line) for line in _lines(problem, texts, width))


def styled(problem: Problem, texts: Mapping[str, str], *, width: int = WIDTH) -> Text:
    """The same characters as `show`, with colours for a terminal."""
    whole = Text()
    for n, line in enumerate(_lines(problem, texts, width)):
        whole.append("\n" if n else "")
        for kind, text in line:
            whole.append(text, style=_STYLES[kind])
    return whole


def as_json(problem: Problem) -> dict[str, object]:
    """The problem as JSON data; lines and columns count from 1, `end column` is after the last."""
    return {
        "file": problem.at.file,
        "line": problem.at.line + 1,
        "column": problem.at.column + 1,
        "end column": problem.at.end + 1,
        "level": problem.level,
        "code": problem.code,
        "message": problem.message,
        "help": problem.help,
        "notes": list(problem.notes),
    }


def summary(problems: Iterable[Problem]) -> str:
    """How many problems in how many files.

    >>> summary([])
    'no problems'
    """
    found = list(problems)
    if not found:
        return "no problems"
    counted = (_count(sum(p.level == level for p in found), level) for level in ("error", "warning"))
    return f"{', '.join(filter(None, counted))} in {_count(len({p.at.file for p in found}), 'file')}"


def _count(n: int, what: str) -> str:
    return f"{n} {what}{'' if n == 1 else 's'}" if n else ""


def _lines(problem: Problem, texts: Mapping[str, str], width: int) -> Iterator[list[Piece]]:
    at = problem.at
    source = _line_of(texts.get(at.file), at.line)
    known = source is not None or at.line or at.column
    place = f"{at.file}:{at.line + 1}:{at.column + 1}:" if known else f"{at.file}:"
    yield [
        ("place", _safe(place)),
        ("text", " "),
        (problem.level, f"{problem.level}[{problem.code}]"),
        ("message", f" {_safe(problem.message)}"),
    ]
    number = str(at.line + 1) if source is not None else ""
    margin = " " * (len(number) + 1)
    if source is not None:
        line, caret = _excerpt(_safe(source), at.column, at.end, width - len(margin) - 3)
        yield [("gutter", f" {number} | "), ("source", line)]
        yield [("gutter", f"{margin} | "), ("caret", caret)]
    for label, text in (*(("note", note) for note in problem.notes), ("help", problem.help)):
        if text:
            yield from _labelled(label, _safe(text), margin, width)


def _labelled(label: str, text: str, margin: str, width: int) -> Iterator[list[Piece]]:
    """A note or a help, wrapped; lines after the first newline stand as they are, to be pasted."""
    head = f"{margin} = {label}: "
    first, *verbatim = text.split("\n")
    room = max(width - len(head), 20)
    # Code is not broken: its spaces are hidden from the wrapping.
    whole = re.sub("`[^`]+`", lambda code: code.group().replace(" ", "\0"), first)
    wrapped = textwrap.wrap(whole, room, break_long_words=False, break_on_hyphens=False) or [""]
    for n, line in enumerate(piece.replace("\0", " ") for piece in wrapped):
        yield (
            [("gutter", f"{margin} = "), ("label", f"{label}: "), ("text", line)]
            if n == 0
            else [("text", " " * len(head) + line)]
        )
    for line in verbatim:
        yield [("text", f"{' ' * len(head)}{line}")]


def _line_of(text: str | None, line: int) -> str | None:
    if text is None:
        return None
    lines = _NEWLINE.split(text)
    return lines[line] if line < len(lines) else None


def _safe(text: str) -> str:
    return _UNSAFE.sub("\N{REPLACEMENT CHARACTER}", text)


def _excerpt(line: str, column: int, end: int, room: int) -> tuple[str, str]:
    """The line, cut to `room` cells around the caret, and the carets below it."""
    before, marked, after = line[:column], line[column:end], line[end:]
    if cell_len(line) > room:
        marked = marked if cell_len(marked) <= room - 2 else f"{set_cell_size(marked, room - 3)}…"
        left = max(room - cell_len(marked), 0)
        lead = min(cell_len(before), max(left * 2 // 3, left - cell_len(after)))
        before = before if cell_len(before) <= lead else f"…{_last_cells(before, lead - 1)}"
        rest = left - cell_len(before)
        after = after if cell_len(after) <= rest else f"{set_cell_size(after, max(rest - 1, 0)).rstrip()}…"
    # Tabs are kept so that the caret lands under the character it points at.
    pad = "".join("\t" if char == "\t" else " " * cell_len(char) for char in before)
    return before + marked + after, pad + "^" * max(cell_len(marked), 1)


def _last_cells(text: str, cells: int) -> str:
    """The end of the text that fills at most so many cells."""
    while cell_len(text) > max(cells, 0):
        text = text[1:]
    return text
