"""Pairs in waste that is poured together: baths of one recipe that must not meet in one can.

A recipe whose `never` or `disposal` says that waste is kept apart has said it; see `apart` in the table.
"""

from collections.abc import Iterator
from itertools import combinations

from sitegen.check.pairs.finding import Finding, groups_of
from sitegen.check.pairs.judge import Meeting, verdicts
from sitegen.check.pairs.kitchen import Kitchen
from sitegen.check.pairs.table import table
from sitegen.check.pairs.texts import named


def in_waste(kitchen: Kitchen) -> Iterator[Finding]:
    """Every pair between two mixtures of the recipe, as bad as in one vessel; none where the recipe parts them."""
    block = kitchen.recipe.hazards
    if named((*block.never, *block.disposal), table().apart):
        return
    for first, second in combinations(kitchen.recipe.mixtures, 2):
        if first.id in kitchen.drawn[second.id] or second.id in kitchen.drawn[first.id]:
            continue
        company = groups_of(*kitchen.held[first.id], *kitchen.held[second.id])
        for one in kitchen.held[first.id]:
            for other in kitchen.held[second.id]:
                for verdict in verdicts(one, other, Meeting(company=company)):
                    yield Finding(
                        id=verdict.id,
                        rule=verdict.rule,
                        where="waste",
                        names=(one.name, other.name),
                        groups=groups_of(one, other),
                        mixtures=(first.id, second.id),
                        severity=verdict.severity,
                        at=block.at,
                    )
