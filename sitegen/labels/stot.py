"""Damage to organs, once or repeated, and irritation of the airways or drowsiness.

CLP Annex I Tables 3.8.3 and 3.9.4: categories 1 and 2 by one ingredient alone, category 3 by a sum from 20 %,
irritation and drowsiness summed apart.
"""

from fractions import Fraction
from typing import Final

from sitegen.labels.classes import Family, HazardClass
from sitegen.labels.ingredient import Ingredient, Mixture
from sitegen.labels.limits import Ratio, ratio, specific
from sitegen.labels.reason import Classified, Finding, Reason, names, percent, term

_ORGANS: Final[dict[Family, str]] = {"organs-once": "STOT SE", "organs-repeated": "STOT RE"}
_EFFECTS: Final[dict[Family, str]] = {
    "respiratory-irritation": "respiratory irritation",
    "narcotic-effects": "narcotic effects",
}


def stot(mixture: Mixture) -> tuple[Finding, ...]:
    """The four findings."""
    return (
        *(_organs(mixture, family, name) for family, name in _ORGANS.items()),
        *(_effect(mixture, family, effect) for family, effect in _EFFECTS.items()),
    )


def _organs(mixture: Mixture, family: Family, name: str) -> Finding:
    reasons: list[Reason] = []
    met: dict[str, list[tuple[str, str]]] = {"1": [], "2": []}
    for part in mixture.ingredients:
        for category, limit in _organ_limits(part, name):
            reached = part.high >= limit
            reasons.append(_reason(family, part, f"{name} {category}", limit, reached=reached))
            if reached:
                met[category].append((part.name, _organ(part, name)))
    for category in ("1", "2"):
        if found := met[category]:
            organs = {organ for _, organ in found}
            detail = organs.pop() if len(organs) == 1 else ""
            hazard = HazardClass(name=name, category=category, detail=detail)
            one = Classified(hazard=hazard, causes=names(found))
            return Finding(family=family, classified=(one,), reasons=tuple(reasons))
    return Finding(family=family, reasons=tuple(reasons))


def _organ_limits(part: Ingredient, name: str) -> list[tuple[str, Fraction]]:
    """From which percent the ingredient makes category 1 and 2: 10 % of its own, 1 % for one below."""
    first, second = part.of(name, category="1"), part.of(name, category="2")
    limits = []
    if first:
        limits.append(("1", specific(part, name, category="1") or Fraction(10)))
    if first or second:
        generic = Fraction(1) if first else Fraction(10)
        limits.append(("2", specific(part, name, category="2") or generic))
    return limits


def _organ(part: Ingredient, name: str) -> str:
    return next((c.detail for c in part.of(name) if c.category in "12" and c.detail), "")


def _effect(mixture: Mixture, family: Family, effect: str) -> Finding:
    def limit_of(part: Ingredient) -> Fraction | None:
        if not part.of("STOT SE", category="3", detail=effect):
            return None
        return specific(part, "STOT SE", category="3", detail=effect) or Fraction(20)

    one = ratio(mixture.ingredients, limit_of)
    hazard = HazardClass(name="STOT SE", category="3", detail=effect)
    classified = (Classified(hazard=hazard, causes=names(one.parts)),) if one.reached else ()
    return Finding(family=family, classified=classified, reasons=(_summed(family, hazard, one),))


def _reason(family: Family, part: Ingredient, text: str, limit: Fraction, *, reached: bool) -> Reason:
    return Reason(
        family=family,
        rule=f"one ingredient at its limit for {text}",
        source="CLP Annex I Tables 3.8.3, 3.9.4; specific limits",
        terms=(term(part.name, part.high),),
        value=part.high,
        unit="%",
        threshold=f"≥ {percent(limit)}",
        result=text if reached else f"not {text}",
    )


def _summed(family: Family, hazard: HazardClass, one: Ratio) -> Reason:
    return Reason(
        family=family,
        rule=f"Σ (percent ÷ limit) for {hazard.text}",
        source="CLP Annex I 3.8.3.4.5; specific limits",
        terms=one.terms,
        value=one.total,
        unit="",
        threshold="≥ 1 (20 % where no specific limit)",
        result=hazard.text if one.reached else f"not {hazard.text}",
    )
