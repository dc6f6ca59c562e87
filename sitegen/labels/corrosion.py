"""Skin corrosion and irritation: sums, ingredients for which sums do not hold, extreme pH, specific limits.

CLP Annex I 3.2.3.3 with Tables 3.2.3 and 3.2.4. Every limit, generic or specific, enters one sum of
share ÷ limit, which with generic limits alone is the table's own arithmetic. Where the pH rule and a
specific limit disagree, the limit decides and the other reading is shown.
"""

from fractions import Fraction
from typing import Final

from sitegen.labels.classes import HazardClass
from sitegen.labels.ingredient import Ingredient, Mixture
from sitegen.labels.limits import Ratio, at_strength, ratio, specific
from sitegen.labels.reason import Classified, Finding, Reason, names, percent, shown

ACID: Final = Fraction(2)
"""pH at which and below which a solution is extreme."""
BASE: Final = Fraction(23, 2)
CORROSIVE: Final = HazardClass(name="Skin Corr.", category="1")
IRRITANT: Final = HazardClass(name="Skin Irrit.", category="2")
_JUDGED: Final = ("harmonised", "national")


def extreme(ph: Fraction | None) -> bool:
    """Whether a pH is 2 or less, or 11.5 or more."""
    return ph is not None and (ph <= ACID or ph >= BASE)


def governed(ingredient: Ingredient) -> bool:
    """Whether its specific limits settle the skin: they reach down to irritation.

    Limits that stop at corrosion (nitric acid) leave the general rules in force below them.
    """
    return specific(ingredient, "Skin Irrit.") is not None


def pH_corrosive(mixture: Mixture) -> tuple[tuple[str, ...], tuple[str, ...]]:  # noqa: N802  # a pH is written so
    """What makes the mixture corrosive by pH alone, and the readings that were not followed.

    An acid or base of extreme pH counts from 1 % (Table 3.2.4), unless its specific limits settle it, or a
    tested entry of its own names no corrosion. A measured extreme pH of the mixture counts (3.2.3.1.2)
    unless specific limits settle every acid and base in it.
    """
    causes, readings = [], []
    for part in _extreme_parts(mixture):
        says = f"{part.name}, {percent(part.high)}, makes pH {shown(part.ph or Fraction(0))}"
        if governed(part):
            readings.append(f"By pH alone ({says}) this would be Skin Corr. 1; its specific limits were followed.")
        elif part.of("Skin Corr.") or part.data not in _JUDGED:
            causes.append(part.name)
        else:
            readings.append(f"By pH alone ({says}) this would be Skin Corr. 1; its own entry names no skin corrosion.")
    if extreme(mixture.ph):
        parts = [p for p in mixture.ingredients if p.kind and p.high >= Fraction(1, 10)]
        if parts and all(governed(p) for p in parts):
            readings.append(
                f"The measured pH {shown(mixture.ph or Fraction(0))} alone would make this Skin Corr. 1; "
                "the specific limits of its ingredients were followed."
            )
        else:
            causes.append(f"pH {shown(mixture.ph or Fraction(0))}")
    return tuple(causes), tuple(readings)


def _extreme_parts(mixture: Mixture) -> list[Ingredient]:
    return [p for p in mixture.ingredients if p.kind and extreme(p.ph) and p.high >= 1]


def skin(mixture: Mixture) -> Finding:
    """The finding for the skin."""
    by_ph, readings = pH_corrosive(mixture)
    corrosive = ratio(mixture.ingredients, _corrosion_limit)
    irritant = ratio(mixture.ingredients, _irritation_limit)
    reasons = [_reason("Skin Corr. 1", corrosive), _reason("Skin Irrit. 2", irritant)]
    classified: tuple[Classified, ...] = ()
    if by_ph:
        reasons.append(_ph_reason(by_ph))
    if corrosive.reached or by_ph:
        hazard = _sub_category(mixture, corrosive) if corrosive.reached else CORROSIVE
        causes = tuple(dict.fromkeys([*(names(corrosive.parts) if corrosive.reached else ()), *by_ph]))
        classified = (Classified(hazard=hazard, causes=causes),)
    elif irritant.reached:
        classified = (Classified(hazard=IRRITANT, causes=names(irritant.parts)),)
    asked = () if corrosive.reached or by_ph else _measure(mixture)
    return Finding(family="skin", classified=classified, reasons=tuple(reasons), readings=(*readings, *asked))


def _corrosion_limit(part: Ingredient) -> Fraction | None:
    """5 %, or 1 % where sums do not hold (Tables 3.2.3, 3.2.4), or its own."""
    if (own := specific(part, "Skin Corr.")) is not None:
        return own
    if not part.of("Skin Corr."):
        return None
    return Fraction(5) if part.additive else Fraction(1)


def _irritation_limit(part: Ingredient) -> Fraction | None:
    """10 % of an irritant (3 % of an acid, a base or where sums do not hold), 1 % of a corrosive, or its own."""
    if (own := specific(part, "Skin Irrit.")) is not None:
        return own
    if part.of("Skin Corr."):
        return Fraction(1)
    if not part.of("Skin Irrit.", category="2"):
        return None
    return Fraction(10) if part.additive and not part.kind else Fraction(3)


def _sub_category(mixture: Mixture, corrosive: Ratio) -> HazardClass:
    """A sub-category only where all contributors share it."""
    inside = {name for name, _ in corrosive.parts}
    found = {at_strength(p, "Skin Corr.") for p in mixture.ingredients if p.name in inside}
    only = found.pop() if len(found) == 1 else None
    return only or CORROSIVE


def _reason(text: str, one: Ratio) -> Reason:
    return Reason(
        family="skin",
        rule=f"Σ (percent ÷ limit) for {text}",
        source="CLP Annex I Tables 3.2.3, 3.2.4; specific limits",
        terms=one.terms,
        value=one.total,
        unit="",
        threshold="≥ 1",
        result=text if one.reached else f"not {text}",
    )


def _ph_reason(causes: tuple[str, ...]) -> Reason:
    return Reason(
        family="skin",
        rule="extreme pH",
        source="CLP Annex I 3.2.3.1.2, Table 3.2.4",
        terms=causes,
        value=None,
        unit="",
        threshold="pH ≤ 2 or ≥ 11.5, of an ingredient from 1 %",
        result="Skin Corr. 1",
    )


def _measure(mixture: Mixture) -> tuple[str, ...]:
    """A request for the pH where an acid or base of unknown pH could make it extreme."""
    if mixture.ph is not None:
        return ()
    return tuple(
        f"Measure the pH: {p.name} is {'an acid' if p.kind == 'acid' else 'a base'} whose pH is not given; at "
        "pH 2 or less, or 11.5 or more, the mixture is Skin Corr. 1."
        for p in mixture.ingredients
        if p.kind and p.ph is None and p.high >= 1 and not governed(p)
    )
