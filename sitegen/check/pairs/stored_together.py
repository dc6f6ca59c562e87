"""Pairs of bottles: which must not stand on one shelf. For the cupboard, never an error of a recipe.

Of what a bottle holds, the rules see only so much: its `spills`. Many bottles have the same, so that a cupboard of
any size is judged by the few kinds of spills in it.
"""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from itertools import combinations

from sitegen.check.pairs.finding import groups_of
from sitegen.check.pairs.judge import Meeting, Verdict, verdicts
from sitegen.check.pairs.present import Present
from sitegen.check.pairs.table import RANK, sides, table


def must_stand_apart(first: Iterable[Present], second: Iterable[Present]) -> tuple[Verdict, ...]:
    """The rules by which what leaks from one bottle must not meet what leaks from another, the worst first.

    Notes are left out: they are about results, not about safety.
    """
    first, second = tuple(first), tuple(second)
    company = groups_of(*first, *second)
    found: dict[str, Verdict] = {}
    for one in first:
        for other in second:
            for verdict in _spilled(one, other, company):
                had = found.get(verdict.id)
                if had is None or RANK[verdict.severity] > RANK[had.severity]:
                    found[verdict.id] = verdict
    return tuple(sorted(found.values(), key=lambda verdict: -RANK[verdict.severity]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Spill:
    """A substance that leaks from a bottle, as the rules see it: equal ones are judged alike.

    Its strength is the highest figure of the table that it reaches. `beside` are those groups of the whole bottle
    that a rule on it asks for.
    """

    one: Present
    beside: frozenset[str]


def spills(holds: Collection[Present]) -> frozenset[Spill]:
    """What may leak from a bottle and is named by a rule."""
    company = groups_of(*holds)
    return frozenset(Spill(one=_bare(one), beside=company & _asked(one)) for one in holds if _rules_on(one))


def clashes(every: Iterable[Spill]) -> Mapping[Spill, Mapping[Spill, tuple[Verdict, ...]]]:
    """For each of the spills those that it must not meet, and why."""
    kinds = tuple(dict.fromkeys(every))
    found: dict[Spill, dict[Spill, tuple[Verdict, ...]]] = {kind: {} for kind in kinds}
    for one, other in combinations(kinds, 2):
        if told := tuple(_spilled(one.one, other.one, one.beside | other.beside)):
            found[one][other] = found[other][one] = told
    return found


def _spilled(one: Present, other: Present, company: frozenset[str]) -> Iterable[Verdict]:
    meeting = Meeting(company=company, wet=False)  # what is spilled dries
    return (verdict for verdict in verdicts(one, other, meeting) if verdict.severity != "note")


def _bare(one: Present) -> Present:
    """Without what no rule looks at: its name, which of all with its groups it is, a strength that counts nowhere."""
    reached = None
    if one.percent is not None and one.groups & _figures().keys():
        reached = max(f for group in one.groups for f in _figures().get(group, ()) if f <= one.percent)
    return Present(substance=_one_of(one.substance, one.groups), name="", groups=one.groups, percent=reached)


def _one_of(substance: str, groups: frozenset[str]) -> str:
    """A name for all with these groups; the substance's own where a rule names it, or stands between two such."""
    alike = " & ".join(("any of", *sorted(groups)))
    first, second = sides(substance, groups)
    return substance if sides(alike, groups) != (first, second) or first & second else alike


_NOTHING = Fraction(0)


@cache
def _figures() -> Mapping[str, tuple[Fraction, ...]]:
    """The strengths, nothing among them, from which rules on a group speak otherwise."""
    gates = [rule.gate for rule in table().rules.values() if rule.gate]
    told = [*table().active_from.items(), *((gate.of, figure) for gate in gates for _, figure in gate.steps())]
    return {group: (_NOTHING, *(figure for of, figure in told if of == group)) for group, _ in told}


def _rules_on(one: Present) -> frozenset[str]:
    first, second = sides(one.substance, one.groups)
    return first | second


def _asked(one: Present) -> frozenset[str]:
    return frozenset(group for id_ in _rules_on(one) for group in table().rules[id_].beside)
