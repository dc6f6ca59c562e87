"""Findings: a dangerous pair at its place in a recipe."""

from dataclasses import dataclass
from typing import Literal

from sitegen.check.pairs.judge import Cause
from sitegen.check.pairs.present import Present
from sitegen.check.pairs.table import RANK, Rule, Severity, table
from sitegen.problems import Span

Where = Literal["mixture", "metal", "text", "baths", "waste"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """A rule that holds: between what, in which mixtures (ids), how bad, and by what it was made worse."""

    id: str
    rule: Rule
    where: Where
    names: tuple[str, ...]
    """The two substances, or one and the word that tells of the condition."""
    groups: frozenset[str]
    """Of the two substances together."""
    mixtures: tuple[str, ...]
    severity: Severity
    cause: Cause = ""
    at: Span

    @property
    def intention(self) -> str:
        """The intention that would allow it; '' where none would."""
        name = table().intention_of(self.id)
        if not name or self.where not in ("mixture", "metal") or self.cause:
            return ""
        return name if self.groups & set(table().intentions[name].with_) else ""


def groups_of(*present: Present) -> frozenset[str]:
    """The groups of several substances together."""
    return frozenset[str]().union(*(one.groups for one in present))


def worst(findings: list[Finding]) -> list[Finding]:
    """One finding for each rule, place and mixtures: the worst, the earliest of those. Waste is one place."""
    kept: dict[tuple[str, Where, tuple[str, ...]], Finding] = {}
    for one in findings:
        key = (one.id, one.where, () if one.where == "waste" else one.mixtures)
        if key not in kept or RANK[one.severity] > RANK[kept[key].severity]:
            kept[key] = one
    return list(kept.values())
