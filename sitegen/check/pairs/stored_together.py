"""Pairs of bottles: which must not stand on one shelf. For the cupboard, never an error of a recipe."""

from collections.abc import Iterable

from sitegen.check.pairs.finding import groups_of
from sitegen.check.pairs.judge import Meeting, Verdict, verdicts
from sitegen.check.pairs.present import Present
from sitegen.check.pairs.table import RANK


def must_stand_apart(first: Iterable[Present], second: Iterable[Present]) -> tuple[Verdict, ...]:
    """The rules by which what leaks from one bottle must not meet what leaks from another, the worst first.

    Notes are left out: they are about results, not about safety.
    """
    first, second = tuple(first), tuple(second)
    meeting = Meeting(company=groups_of(*first, *second), wet=False)  # what is spilled dries
    found: dict[str, Verdict] = {}
    for one in first:
        for other in second:
            for verdict in verdicts(one, other, meeting):
                had = found.get(verdict.id)
                if verdict.severity != "note" and (had is None or RANK[verdict.severity] > RANK[had.severity]):
                    found[verdict.id] = verdict
    return tuple(sorted(found.values(), key=lambda verdict: -RANK[verdict.severity]))
