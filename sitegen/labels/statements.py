"""Statements: the official texts and what class they belong to, read from `data/hazards/statements.yaml`.

The text of the file is given, the file is not touched. Labels use the wording of CLP and never mix it with
that of the UN GHS, which is kept for reference. A text with a blank is never handed out unfilled.
"""

import re
from dataclasses import dataclass
from typing import Final, Literal

from sitegen.labels.classes import HazardClass, parse_class
from sitegen.problems import Problem, Problems, Refusal, Span, did_you_mean
from sitegen.read.compose import compose
from sitegen.read.nodes import ListNode, MapNode, Node, TextNode, fields_at, text_at

Signal = Literal["", "Warning", "Danger"]
PICTOGRAMS: Final = tuple(f"GHS0{n}" for n in range(1, 10))
_CODE: Final = re.compile(r"(?:H\d{3}[FDfdi]{0,2}|EUH\d{3}A?|P\d{3})(?:\+(?:H|P)\d{3})*(?:\[\+P\d{3}\])?")
_BRACKET: Final = re.compile(r" ?<[^<>]*>")


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A class with its statement, signal word, pictograms and precautionary codes."""

    code: str
    signal: Signal
    pictograms: tuple[str, ...]
    p_codes: tuple[str, ...]
    checked: bool
    """Whether signal word and pictograms were compared with a source, rather than remembered."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """A code and its wording. `text` is CLP's, '' where only the UN GHS has the code."""

    code: str
    text: str
    un: str
    read: bool
    """Whether the wording was read in its source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Statements:
    """All statements by code, and the row of each class by the class's text."""

    by_code: dict[str, Statement]
    rows: dict[str, Row]

    def row(self, hazard: HazardClass) -> Row | None:
        """The row of a class; an organ or route that has no row of its own takes that of the plain class."""
        plain = HazardClass(name=hazard.name, category=hazard.category)
        return self.rows.get(hazard.text) or self.rows.get(plain.text)

    def text(self, code: str) -> str:
        """The CLP wording; `Refusal` (`statement-unknown`) for a code that is none of CLP's."""
        found = self.by_code.get(code)
        if found is None or not found.text:
            raise Refusal(
                "statement-unknown",
                f"there is no statement `{code}`" + (" in CLP; the UN GHS alone has it" if found else ""),
                did_you_mean(code, (c for c, s in self.by_code.items() if s.text))
                or "codes and their wording are those of CLP Annex III and IV",
            )
        return found.text

    def hazard_text(self, code: str, *, detail: str = "") -> str:
        """The wording of an H statement with its brackets filled from `detail` (organs) or dropped."""
        text = self.text(code)
        if detail and "organs affected" in text:
            text = text.replace("organs <or state all organs affected, if known>", f"the {detail}")
        text = _BRACKET.sub("", text)
        return text if text.endswith(".") else f"{text}."


def read_statements(text: str, file: str, problems: Problems) -> Statements | None:
    """The table, or None when a problem was added; every problem has its line."""
    root = compose(text, file, problems)
    if root is None:
        return None
    before = len(problems.found)
    by_code: dict[str, Statement] = {}
    for section in ("hazard", "combined", "supplemental", "precautionary"):
        for key, fields in _section(root, section, problems):
            if not _CODE.fullmatch(key.text):
                _add(
                    problems, "statement-code", key.at, f"`{key.text}` is not a statement code", "write it like `H302`"
                )
            by_code[key.text] = _statement(key.text, fields)
    rows: dict[str, Row] = {}
    for key, fields in _section(root, "hazard", problems):
        for row in _list(fields.get("rows")):
            if isinstance(row, MapNode):
                _read_row(key.text, row, rows, by_code, problems)
    return Statements(by_code=by_code, rows=rows) if len(problems.found) == before else None


def _section(root: MapNode, name: str, problems: Problems) -> list[tuple[TextNode, MapNode]]:
    found = fields_at(root, name)
    if found is None:
        _add(problems, "field-missing", root.at, f"the section `{name}` is missing", f"write `{name}:`")
        return []
    return list(found.maps())


def _statement(code: str, fields: MapNode) -> Statement:
    def of(name: str) -> str:
        node = text_at(fields, name)
        return node.text if node else ""

    return Statement(code=code, text=of("text"), un=of("un"), read=of("flag") == "READ")


def _read_row(code: str, row: MapNode, rows: dict[str, Row], by_code: dict[str, Statement], problems: Problems) -> None:
    signal = text_at(row, "signal")
    word: Signal = "Danger" if signal and signal.text == "Danger" else "Warning" if signal else ""
    if signal and signal.text != word:
        _add(
            problems,
            "unknown-choice",
            signal.at,
            f"`{signal.text}` is not a signal word",
            "write `Danger` or `Warning`",
        )
    for picture in _texts(row.get("pictograms")):
        if picture.text not in PICTOGRAMS:
            _add(problems, "unknown-choice", picture.at, f"there is no pictogram `{picture.text}`", "GHS01 to GHS09")
    for p in _texts(row.get("p")):
        if p.text not in by_code:
            remedy = did_you_mean(p.text, by_code)
            _add(problems, "statement-unknown", p.at, f"there is no statement `{p.text}`", remedy)
    flag = text_at(row, "map")
    found = Row(
        code=code,
        signal=word,
        pictograms=tuple(t.text for t in _texts(row.get("pictograms"))),
        p_codes=tuple(t.text for t in _texts(row.get("p"))),
        checked=bool(flag and flag.text == "checked"),
    )
    for node in _texts(row.get("classes")):
        with problems.at(node.at):
            # Two statements of one class (H222 and H229 of an aerosol): the first is the class's own.
            rows.setdefault(parse_class(node.text).text, found)


def _list(node: Node | None) -> tuple[Node, ...]:
    return node.items if isinstance(node, ListNode) else ()


def _texts(node: Node | None) -> tuple[TextNode, ...]:
    return tuple(item for item in _list(node) if isinstance(item, TextNode))


def _add(problems: Problems, code: str, at: Span, message: str, remedy: str) -> None:
    problems.add(Problem(code=code, at=at, message=message, help=remedy))
