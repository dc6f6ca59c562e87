"""Hazards to water: the summation method, acute and long-term.

CLP Annex I 4.1.3.5.5 with Tables 4.1.1 and 4.1.2. A missing M-factor is unknown: the sum is made with 1, what
it classifies stands and is marked provisional, and what it does not classify is "not enough data".
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.labels.classes import Family, HazardClass
from sitegen.labels.ingredient import Ingredient, Mixture
from sitegen.labels.limits import specific
from sitegen.labels.reason import Classified, Finding, Lack, Reason, percent

LIMIT: Final = Fraction(25)
_SOURCE: Final = "CLP Annex I 4.1.3.5.5"
# How much does an ingredient of chronic category 1, 2, 3, 4 weigh in the sum for each class?
# 0 is left out; category 1 is multiplied by M except in the last row (Table 4.1.2).
WEIGHTS: Final[dict[str, tuple[int, int, int, int]]] = {
    "1": (1, 0, 0, 0),
    "2": (10, 1, 0, 0),
    "3": (100, 10, 1, 0),
    "4": (1, 1, 1, 1),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Part:
    """An ingredient's term in one sum."""

    name: str
    value: Fraction
    text: str
    assumed: bool


def aquatic(mixture: Mixture) -> tuple[Finding, Finding]:
    """The findings for acute and for long-term hazard."""
    return _acute(mixture), _chronic(mixture)


def _acute(mixture: Mixture) -> Finding:
    hazard = HazardClass(name="Aquatic Acute", category="1")
    parts = [_part(p, 1, p.m_acute) for p in mixture.ingredients if p.of("Aquatic Acute", category="1") and p.high]
    reached = _total(parts) >= LIMIT
    lacks = _no_factor("aquatic-acute", mixture, parts)
    found = Classified(hazard=hazard, causes=tuple(p.name for p in parts))
    return Finding(
        family="aquatic-acute",
        classified=(found,) if reached else (),
        lacks=lacks if not reached else (),
        reasons=(_reason("aquatic-acute", hazard, "Σ (M × Acute 1)", parts),),
    )


def _chronic(mixture: Mixture) -> Finding:
    reasons, found = [], None
    for category in WEIGHTS:
        hazard = HazardClass(name="Aquatic Chronic", category=category)
        parts = _chronic_parts(mixture, category)
        reasons.append(_reason("aquatic-chronic", hazard, _rule(category), parts))
        if _total(parts) >= LIMIT and found is None:
            found = (hazard, tuple(p.name for p in parts))
    lacks = _no_factor("aquatic-chronic", mixture, _chronic_parts(mixture, "1"))
    worst = found is not None and found[0].category == "1"
    classified = (Classified(hazard=found[0], causes=found[1], provisional=bool(lacks) and not worst),) if found else ()
    return Finding(
        family="aquatic-chronic",
        classified=classified,
        lacks=() if worst else lacks,
        reasons=tuple(reasons),
    )


def _chronic_parts(mixture: Mixture, category: str) -> list[_Part]:
    parts = []
    for part in mixture.ingredients:
        own = part.of("Aquatic Chronic")
        if not own or not part.high:
            continue
        has = min(own, key=lambda c: c.rank).category
        weight = WEIGHTS[category][int(has) - 1]
        if not weight or (has != "1" and part.high < 1 and specific(part, "Aquatic Chronic") is None):
            continue
        factor = part.m_chronic if has == "1" and category != "4" else Fraction(1)
        parts.append(_part(part, weight, factor))
    return parts


def _part(part: Ingredient, weight: int, factor: Fraction | None) -> _Part:
    """The term; a specific limit of the class scales the share so that it reaches 25 at its own limit."""
    own = specific(part, "Aquatic Chronic")
    scale = LIMIT / own if own else Fraction(1)
    m = factor if factor is not None else Fraction(1)
    shown_m = f" × M {m}" if factor is not None and m != 1 else " × M unknown, 1 taken" if factor is None else ""
    return _Part(
        name=part.name,
        value=part.high * weight * m * scale,
        text=f"{part.name} {percent(part.high)}"
        + (f" × {weight}" if weight != 1 else "")
        + shown_m
        + (f" × 25 ÷ {percent(own)}" if own else ""),
        assumed=factor is None,
    )


def _no_factor(family: Family, mixture: Mixture, parts: list[_Part]) -> tuple[Lack, ...]:
    assumed = {p.name for p in parts if p.assumed}
    return tuple(
        Lack(family=family, ingredient=p.name, what="no M-factor") for p in mixture.ingredients if p.name in assumed
    )


def _total(parts: list[_Part]) -> Fraction:
    return sum((p.value for p in parts), Fraction(0))


def _rule(category: str) -> str:
    return {
        "1": "Σ (M × Chronic 1)",
        "2": "Σ (10 × M × Chronic 1) + Σ Chronic 2",
        "3": "Σ (100 × M × Chronic 1) + Σ (10 × Chronic 2) + Σ Chronic 3",
        "4": "Σ Chronic 1 to 4",
    }[category]


def _reason(family: Family, hazard: HazardClass, rule: str, parts: list[_Part]) -> Reason:
    reached = _total(parts) >= LIMIT
    return Reason(
        family=family,
        rule=rule,
        source=_SOURCE,
        terms=tuple(p.text for p in parts),
        value=_total(parts),
        unit="%",
        threshold="≥ 25 %",
        result=hazard.text if reached else f"not {hazard.text}",
    )
