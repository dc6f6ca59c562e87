"""Pairs of a mixture and the metal that `needs` names: plates that are etched, trays, pans and spoons."""

import re
from collections.abc import Iterator
from functools import cache

from sitegen.check.pairs.finding import Finding, groups_of
from sitegen.check.pairs.judge import verdicts
from sitegen.check.pairs.kitchen import Kitchen
from sitegen.check.pairs.present import Present
from sitegen.check.pairs.table import table
from sitegen.check.pairs.texts import denied


@cache
def _metal_things() -> re.Pattern[str]:
    metals, things = ("|".join(words) for words in (table().metals, table().things))
    return re.compile(rf"\b(?P<metal>{metals})[\s-]+(?:\w+[\s-]+)?(?P<thing>{things})\b")


def metals_needed(needs: tuple[str, ...]) -> tuple[Present, ...]:
    """Things of metal that a list of needs names and does not forbid, such as `copper plate`."""
    found: dict[str, Present] = {}
    for text in (need.casefold() for need in needs):
        for match in _metal_things().finditer(text):
            if not denied(text[: match.start()]):
                name = f"{match['metal']} {match['thing']}"
                groups = frozenset(table().metals[match["metal"]])
                found[name] = Present(substance=match["metal"], name=name, groups=groups)
    return tuple(found.values())


def with_metal(kitchen: Kitchen) -> Iterator[Finding]:
    """Every pair of a metal thing and what a mixture of the recipe holds."""
    metals = metals_needed(kitchen.recipe.needs)
    for mixture in kitchen.recipe.mixtures if metals else ():
        meeting = kitchen.meeting(mixture)
        for metal in metals:
            for one in kitchen.held[mixture.id]:
                for verdict in verdicts(metal, one, meeting):
                    yield Finding(
                        id=verdict.id,
                        rule=verdict.rule,
                        where="metal",
                        names=(metal.name, one.name),
                        groups=groups_of(metal, one),
                        mixtures=(mixture.id,),
                        severity=verdict.severity,
                        cause=verdict.cause,
                        at=mixture.at,
                    )
