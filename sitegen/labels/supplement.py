"""Supplemental statements (EUH): carried from the ingredients at their limits, and EUH208.

CLP Annex II part 1 and 2. EUH210 (a safety data sheet on request) is left out on purpose: a studio's own
mixture has none.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from sitegen.labels.ingredient import Ingredient, Mixture, Supplement
from sitegen.labels.reason import Finding, percent
from sitegen.labels.sensitisation import elicitors

AIRWAYS: Final = "EUH071"
ALLERGY: Final = "EUH208"
DRY_SKIN: Final = "EUH066"


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplemental:
    """A statement to print, the ingredients it comes from, and why."""

    code: str
    causes: tuple[str, ...]
    why: str


def supplemental(mixture: Mixture, findings: tuple[Finding, ...]) -> tuple[Supplemental, ...]:
    """The supplemental statements, by code."""
    skin = {c.hazard.name for f in findings if f.family == "skin" for c in f.classified}
    found: dict[str, list[tuple[str, str]]] = {}
    for part, one in _reached(mixture):
        if one.code == AIRWAYS and "Skin Corr." not in skin:
            continue  # its mechanism is corrosion: a mixture that is not corrosive does not have it
        if one.code == DRY_SKIN and skin:
            continue
        sign = ">" if one.over else "≥"
        found.setdefault(one.code, []).append((part.name, f"{percent(part.high)} {sign} {percent(one.above)}"))
    for name in elicitors(mixture, findings):
        found.setdefault(ALLERGY, []).append((name, "at or above its elicitation limit"))
    return tuple(
        Supplemental(
            code=code,
            causes=tuple(name for name, _ in parts),
            why="; ".join(f"{name} {why}" for name, why in parts),
        )
        for code, parts in sorted(found.items())
    )


def _reached(mixture: Mixture) -> Iterable[tuple[Ingredient, Supplement]]:
    for part in mixture.ingredients:
        for one in part.supplements:
            reached = part.high > one.above if one.over else part.high >= one.above
            if reached and one.when in ("", mixture.state):
                yield part, one
