"""Pairs in one mixture, sub-mixtures resolved, cold or warmed.

A pair is said where its two come together, not again in what that mixture goes into; only warmth that is
added there brings it up again.
"""

from collections.abc import Iterator
from itertools import combinations

from sitegen.check.pairs.finding import Finding, groups_of
from sitegen.check.pairs.judge import verdicts
from sitegen.check.pairs.kitchen import Kitchen


def in_one_mixture(kitchen: Kitchen) -> Iterator[Finding]:
    """Every pair within each mixture of the recipe."""
    for mixture in kitchen.recipe.mixtures:
        meeting = kitchen.meeting(mixture)
        for one, other in combinations(kitchen.held[mixture.id], 2):
            inner = one.lines == other.lines and len(one.lines) == 1
            for verdict in verdicts(one, other, meeting):
                if inner and verdict.cause != "warmed":
                    continue
                yield Finding(
                    id=verdict.id,
                    rule=verdict.rule,
                    where="mixture",
                    names=(one.name, other.name),
                    groups=groups_of(one, other),
                    mixtures=(mixture.id,),
                    severity=verdict.severity,
                    cause=verdict.cause,
                    at=mixture.at,
                )
