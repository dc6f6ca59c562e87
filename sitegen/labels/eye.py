"""Serious eye damage and eye irritation: sums, specific limits, and what follows from the skin.

CLP Annex I 3.3.3.3 with Tables 3.3.3 and 3.3.4. What is corrosive to the skin damages the eye; the class is
kept in the result though its statement is not printed beside H314.
"""

from fractions import Fraction
from typing import Final

from sitegen.labels.classes import HazardClass
from sitegen.labels.ingredient import Ingredient, Mixture
from sitegen.labels.limits import Ratio, ratio, specific
from sitegen.labels.reason import Classified, Finding, Reason, names

DAMAGE: Final = HazardClass(name="Eye Dam.", category="1")
IRRITANT: Final = HazardClass(name="Eye Irrit.", category="2")


def eye(mixture: Mixture, skin: Finding) -> Finding:
    """The finding for the eye; `skin` is that of the same mixture."""
    damage = ratio(mixture.ingredients, _damage_limit)
    irritant = ratio(mixture.ingredients, _irritation_limit)
    reasons = [_reason("Eye Dam. 1", damage), _reason("Eye Irrit. 2", irritant)]
    corrosive = next((c for c in skin.classified if c.hazard.name == "Skin Corr."), None)
    classified: tuple[Classified, ...] = ()
    if corrosive:
        reasons.append(_follows(corrosive))
        classified = (Classified(hazard=DAMAGE, causes=corrosive.causes),)
    elif damage.reached:
        classified = (Classified(hazard=DAMAGE, causes=names(damage.parts)),)
    elif irritant.reached:
        classified = (Classified(hazard=IRRITANT, causes=names(irritant.parts)),)
    return Finding(family="eye", classified=classified, reasons=tuple(reasons))


def _damages(part: Ingredient) -> bool:
    return bool(part.of("Eye Dam.") or part.of("Skin Corr."))


def _damage_limit(part: Ingredient) -> Fraction | None:
    """3 %, or 1 % where sums do not hold, or its own.

    Specific limits that grade eye irritation end where corrosion begins: that is where damage begins too.
    """
    if (own := specific(part, "Eye Dam.")) is not None:
        return own
    corrosion = specific(part, "Skin Corr.")
    if corrosion is not None and specific(part, "Eye Irrit.") is not None:
        return corrosion
    if not _damages(part):
        return None
    return Fraction(3) if part.additive else Fraction(1)


def _irritation_limit(part: Ingredient) -> Fraction | None:
    """10 % of an irritant (3 % of an acid, a base or where sums do not hold), 1 % of what damages, or its own."""
    if (own := specific(part, "Eye Irrit.")) is not None:
        return own
    if _damages(part):
        return Fraction(1)
    if not (part.of("Eye Irrit.", category="2") or part.of("Eye Irrit.", category="2A")):
        return None
    return Fraction(10) if part.additive and not part.kind else Fraction(3)


def _reason(text: str, one: Ratio) -> Reason:
    return Reason(
        family="eye",
        rule=f"Σ (percent ÷ limit) for {text}",
        source="CLP Annex I Tables 3.3.3, 3.3.4; specific limits",
        terms=one.terms,
        value=one.total,
        unit="",
        threshold="≥ 1",
        result=text if one.reached else f"not {text}",
    )


def _follows(corrosive: Classified) -> Reason:
    return Reason(
        family="eye",
        rule=f"{corrosive.hazard.text} damages the eye",
        source="CLP Annex I 3.3.3.1.2 and 3.2",
        terms=corrosive.causes,
        value=None,
        unit="",
        threshold="Skin Corr. 1",
        result="Eye Dam. 1",
    )
