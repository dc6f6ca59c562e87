"""All findings of a recipe, and how its declared intentions and answers stand to them."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Final

from sitegen.check.pairs.bath_order import in_bath_order
from sitegen.check.pairs.conditions import under_conditions
from sitegen.check.pairs.finding import Finding, worst
from sitegen.check.pairs.kitchen import Kitchen, kitchen_of
from sitegen.check.pairs.metal import with_metal
from sitegen.check.pairs.one_mixture import in_one_mixture
from sitegen.check.pairs.present import draws_on
from sitegen.check.pairs.table import RANK, Severity
from sitegen.check.pairs.waste import in_waste
from sitegen.model.archive import Archive
from sitegen.model.once import once
from sitegen.model.recipe import Answer, Mixture, Recipe

# What is said of a pair where it is closest is not said again of the next baths, or of the waste.
_LOOKED_AT: Final[tuple[tuple[Callable[[Kitchen], Iterator[Finding]], ...], ...]] = (
    (in_one_mixture, with_metal, under_conditions),
    (in_bath_order,),
    (in_waste,),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A finding as it stands in its recipe: how bad, and declared or answered."""

    finding: Finding
    severity: Severity
    intended: str = ""
    answer: Answer | None = None


def findings(recipe: Recipe, archive: Archive) -> tuple[Finding, ...]:
    """Every dangerous pair of a recipe."""
    kitchen = kitchen_of(recipe, archive)
    found: list[Finding] = []
    for looks in _LOOKED_AT:
        known: dict[str, int] = {}
        for one in found:
            known[one.id] = max(known.get(one.id, 0), RANK[one.severity])
        more = [one for look in looks for one in look(kitchen)]
        found += worst([one for one in more if RANK[one.severity] > known.get(one.id, 0)])
    return tuple(found)


@once
def standings(recipe: Recipe, archive: Archive) -> tuple[Standing, ...]:
    """Every finding with what the recipe says to it."""
    return tuple(_standing(one, recipe) for one in findings(recipe, archive))


def _standing(finding: Finding, recipe: Recipe) -> Standing:
    intention = finding.intention
    severity = finding.severity
    if intention in recipe.intends:
        return Standing(finding=finding, severity=severity, intended=intention)
    if intention and severity == "warning":
        severity = "error"  # a process that is not declared is not meant
    if finding.where == "waste" and severity == "error":
        severity = "warning"  # nothing of the recipe pours them together: it only fails to part them
    answer = next((a for a in recipe.answers if a.pair == finding.id), None) if severity == "warning" else None
    return Standing(finding=finding, severity=severity, answer=answer)


def tainted(recipe: Recipe, archive: Archive) -> tuple[tuple[Mixture, str], ...]:
    """Mixtures of the recipe that hold an intended pair, their own or of what they draw on, with the intention."""
    held: dict[str, str] = {}
    for owner in (one for one in (recipe, *_drawn(recipe, archive)) if one.intends):
        for one in standings(owner, archive):
            if one.intended and one.finding.where == "mixture":
                held.setdefault(one.finding.mixtures[0], one.intended)
    found = []
    for mixture in recipe.mixtures:
        names = [held[id_] for id_ in (mixture.id, *sorted(draws_on(mixture, archive))) if id_ in held]
        if names:
            found.append((mixture, names[0]))
    return tuple(found)


def _drawn(recipe: Recipe, archive: Archive) -> list[Recipe]:
    """Other recipes whose mixtures go into this one."""
    slugs = {id_.partition("/")[0] for mixture in recipe.mixtures for id_ in draws_on(mixture, archive)}
    return [archive.recipe_named[slug] for slug in sorted(slugs) if slug != recipe.slug]
