"""Reading the table of entries: `data/hazards/classification.yaml`, checked, every problem at its line."""

import re
from collections.abc import Callable
from fractions import Fraction
from typing import Final, TypeVar, get_args

from sitegen.labels.classes import HazardClass, parse_class
from sitegen.labels.entries import FIELDS, Entries, Entry
from sitegen.labels.ingredient import AcutePoint, Inhaled, Kind, Limit, Route, Supplement
from sitegen.labels.limits import check_order
from sitegen.model.quantity import parse_number
from sitegen.problems import Problem, Problems, Refusal, did_you_mean
from sitegen.read.compose import compose
from sitegen.read.nodes import ListNode, MapNode, Node, TextNode, text_at

T = TypeVar("T")
# Where can a figure be from? Explained at the head of the file.
SOURCES: Final = ("annex-vi", "hcis", "gischem", "school", "clp", "computed", "memory")
READ: Final = frozenset({"annex-vi", "hcis", "gischem", "school", "clp"})
"""Sources that were opened; the others are worked out or remembered."""


def read_entries(text: str, file: str, problems: Problems) -> Entries | None:
    """The entries by id, or None when a problem was added."""
    root = compose(text, file, problems)
    if root is None:
        return None
    before = len(problems.found)
    found = {key.text: _entry(key, fields, problems) for key, fields in root.maps()}
    return found if len(problems.found) == before else None


def _entry(key: TextNode, fields: MapNode, problems: Problems) -> Entry:
    for name, node in fields.entries:
        if name.text not in FIELDS:
            _add(problems, "unknown-field", name, f"there is no field `{name.text}`", did_you_mean(name.text, FIELDS))
        elif name.text != "note":
            _sources(node, problems)
    limits = _all(fields.get("limits"), _limit, problems)
    with problems.at(key.at):
        check_order(limits)
    m, ph = fields.get("m"), fields.get("ph")
    return Entry(
        note=_said(fields, "note"),
        limits=limits,
        ate=_all(fields.get("ate"), _point, problems),
        m_acute=_one(m, "acute", problems),
        m_chronic=_one(m, "chronic", problems),
        minimum=_minimum(fields.get("minimum"), problems),
        inhaled=_choice(fields.get("inhaled"), "as", get_args(Inhaled), problems) or "dust-mist",
        supplements=_all(fields.get("euh"), _supplement, problems),
        kind=_choice(fields.get("kind"), "is", get_args(Kind), problems) or "",
        ph=_one(ph, "value", problems),
        ph_at=_one(ph, "at", problems),
        additive=_choice(fields.get("additive"), "is", ("yes", "no"), problems) != "no",
        counts_as=_one(fields.get("counts as"), "factor", problems) or Fraction(1),
        fields=frozenset(name.text for name, _ in fields.entries),
    )


def _limit(fields: MapNode) -> Limit:
    return Limit(
        hazard=parse_class(_said(fields, "class")),
        above=parse_number(_said(fields, "from")),
        below=_number(fields, "below"),
        source=_said(fields, "src"),
    )


def _point(fields: MapNode) -> AcutePoint:
    route, inhaled = _said(fields, "route"), _said(fields, "form") or "dust-mist"
    return AcutePoint(
        route=_picked(route, get_args(Route)),
        value=parse_number(_said(fields, "value")),
        inhaled=_picked(inhaled, get_args(Inhaled)),
        source=_said(fields, "src"),
    )


def _supplement(fields: MapNode) -> Supplement:
    code, over, above = _said(fields, "code"), _number(fields, "above"), _number(fields, "from")
    if not re.fullmatch(r"EUH\d{3}A?", code):
        raise Refusal("statement-code", f"`{code}` is not a supplemental statement", "write it like `EUH031`")
    when = _said(fields, "when")
    return Supplement(
        code=code,
        above=over if over is not None else above if above is not None else Fraction(1),
        over=over is not None,
        when=_picked(when, ("", "liquid", "solid")),
        source=_said(fields, "src"),
    )


def _minimum(node: Node | None, problems: Problems) -> tuple[HazardClass, ...]:
    listed = node.get("classes") if isinstance(node, MapNode) else None
    found = []
    for item in listed.items if isinstance(listed, ListNode) else ():
        if isinstance(item, TextNode):
            with problems.at(item.at):
                found.append(parse_class(item.text))
    return tuple(found)


def _all(node: Node | None, read: Callable[[MapNode], T], problems: Problems) -> tuple[T, ...]:
    """Each item of a list, those with problems left out."""
    found = []
    for item in node.items if isinstance(node, ListNode) else ():
        if isinstance(item, MapNode):
            with problems.at(item.at):
                found.append(read(item))
    return tuple(found)


def _one(node: Node | None, name: str, problems: Problems) -> Fraction | None:
    if not isinstance(node, MapNode):
        return None
    try:
        return _number(node, name)
    except Refusal as refusal:
        problems.refuse(refusal, node.at)
        return None


def _choice(node: Node | None, name: str, choices: tuple[T, ...], problems: Problems) -> T | None:
    if not isinstance(node, MapNode):
        return None
    try:
        return _picked(_said(node, name), choices)
    except Refusal as refusal:
        problems.refuse(refusal, node.at)
        return None


def _picked(text: str, choices: tuple[T, ...]) -> T:
    """The choice a text names; `Refusal` for any other."""
    for choice in choices:
        if choice == text:
            return choice
    listed = ", ".join(f"`{c}`" for c in choices if c)
    raise Refusal("unknown-choice", f"`{text}` is none of the choices here", f"write one of {listed}")


def _number(fields: MapNode, name: str) -> Fraction | None:
    node = text_at(fields, name)
    return parse_number(node.text) if node else None


def _said(fields: MapNode, name: str) -> str:
    node = text_at(fields, name)
    return node.text if node else ""


def _sources(node: Node, problems: Problems) -> None:
    """Every field, or every line of a list, says where it is from."""
    for item in node.items if isinstance(node, ListNode) else (node,):
        src = text_at(item, "src")
        if src is None or src.text not in SOURCES:
            found = f"`{src.text}` is no source" if src else "the source is missing"
            problems.add(
                Problem(
                    code="source-missing",
                    at=src.at if src else item.at,
                    message=found,
                    help=f"write `src:` with one of {', '.join(SOURCES)}",
                )
            )


def _add(problems: Problems, code: str, node: TextNode, message: str, remedy: str) -> None:
    problems.add(Problem(code=code, at=node.at, message=message, help=remedy))
