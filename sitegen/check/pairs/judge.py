"""Judging: whether a rule holds for two substances where they meet, and how bad it is there."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sitegen.check.pairs.present import Present
from sitegen.check.pairs.table import RANK, Gate, Rule, Severity, sides, table
from sitegen.check.pairs.texts import told

Cause = Literal["", "warmed", "worse"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Meeting:
    """How two substances meet: in what company, in a liquid, in warmth, kept, or carried between baths."""

    company: frozenset[str]
    """Groups of everything else there."""
    wet: bool = True
    warmed: bool = False
    kept: bool = False
    carried: bool = False
    texts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """A rule that holds, how bad it is, and what made it worse than it is by itself."""

    id: str
    rule: Rule
    severity: Severity
    cause: Cause = ""


def verdicts(one: Present, other: Present, meeting: Meeting) -> Iterator[Verdict]:
    """Every rule that holds between two substances, in the order of the table."""
    if one.substance == other.substance:
        return
    (a, b), (c, d) = sides(one.substance, one.groups), sides(other.substance, other.groups)
    either = (a & d) | (b & c)
    for id_, rule in table().rules.items() if either else ():
        if id_ in either and (verdict := _judge(id_, rule, (one, other), meeting)):
            yield verdict


def _judge(id_: str, rule: Rule, pair: tuple[Present, Present], meeting: Meeting) -> Verdict | None:
    groups = pair[0].groups | pair[1].groups
    if groups & set(rule.except_) or _too_weak(id_, rule, pair):
        return None
    level = _base(rule, pair, meeting)
    if level and rule.wet and meeting.wet:
        level = rule.wet
    if level and meeting.carried:
        level = _carried(rule, level)
    cause: Cause = ""
    if meeting.warmed and rule.warmed and _rank(rule.warmed) > _rank(level):
        level, cause = rule.warmed, "warmed"
    if rule.worse and not meeting.carried and _rank(rule.worse.to) > _rank(level) and _is_worse(rule, meeting):
        level, cause = rule.worse.to, "worse"
    return Verdict(id=id_, rule=rule, severity=level, cause=cause) if level else None


def _rank(level: Severity | None) -> int:
    return RANK[level] if level else 0


def _is_worse(rule: Rule, meeting: Meeting) -> bool:
    assert rule.worse
    return (rule.worse.kept and meeting.kept) or bool(told(meeting.texts, rule.worse.words))


def _too_weak(id_: str, rule: Rule, pair: tuple[Present, Present]) -> bool:
    """Whether the rule is met only by a group that does not count at this strength."""
    for one in pair:
        for group, figure in table().active_from.items():
            gated = rule.gate and rule.gate.of == group
            if group in one.groups and not gated and one.percent is not None and one.percent < figure:
                first, second = sides(one.substance, one.groups - {group})
                if id_ not in first | second:
                    return True
    return False


def _base(rule: Rule, pair: tuple[Present, Present], meeting: Meeting) -> Severity | None:
    if rule.beside and meeting.company & set(rule.beside):
        return rule.severity
    if rule.gate and (meeting.carried or not rule.gate.baths):
        return _by_gate(rule.gate, pair)
    return rule.otherwise if rule.beside else rule.severity


def _by_gate(gate: Gate, pair: tuple[Present, Present]) -> Severity | None:
    strengths = [one.percent for one in pair if gate.of in one.groups]
    known = [figure for figure in strengths if figure is not None]
    strongest = max(known) if len(known) == len(strengths) else Fraction(100)
    return next((severity for severity, figure in gate.steps() if strongest >= figure), None)


def _carried(rule: Rule, level: Severity) -> Severity | None:
    """What is left of it on a sheet that goes from one bath to the next."""
    if rule.carried == "as written":
        return level
    lower: dict[Severity, Severity | None] = {"error": "warning", "warning": "note", "note": None}
    return rule.carried or lower[level]
