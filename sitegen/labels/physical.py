"""Physical hazards: carried over from the ingredients, never computed from percentages.

Oxidising, flammable and metal-corrosive classes come from tests. A class of a solid ends when it dissolves
and returns when the solution dries; a class of a liquid is carried from the strength its data name, else from
a cautious one that says so. A measured flash point decides (CLP Annex I 2.6).
"""

from fractions import Fraction
from typing import Final

from sitegen.labels.classes import Family, HazardClass
from sitegen.labels.ingredient import Ingredient, Mixture
from sitegen.labels.limits import specific
from sitegen.labels.reason import Classified, Finding, Lack, Reason, percent, term

METAL_FROM: Final = Fraction(1)
FLAMMABLE_FROM: Final = Fraction(5)
"""Percent of a flammable liquid from which its class is carried where no flash point is known: policy."""
OXIDISER_FROM: Final = Fraction(5)
_SOLID: Final = ("Ox. Sol.", "Flam. Sol.", "Self-heat.", "Water-react.", "Pyr. Sol.")
_LIQUID: Final = ("Ox. Liq.", "Flam. Liq.", "Pyr. Liq.")
_FAMILIES: Final[tuple[Family, ...]] = ("metal-corrosive", "oxidising", "flammable", "other-physical")


def physical(mixture: Mixture) -> tuple[Finding, ...]:
    """The findings, one a family."""
    return tuple(_finding(mixture, family) for family in _FAMILIES)


def _finding(mixture: Mixture, family: Family) -> Finding:
    if family == "flammable" and mixture.flash_point is not None:
        return _measured(mixture, mixture.flash_point)
    carried: list[tuple[HazardClass, str]] = []
    reasons: list[Reason] = []
    readings: list[str] = []
    lacks: list[Lack] = []
    for part in mixture.ingredients:
        for hazard in _classes(part, family):
            if hazard.name in _SOLID and mixture.state == "liquid":
                if part.high >= 1:
                    readings.append(f"{part.name} is {hazard.text} when dry: so is what dries of this.")
                continue
            limit, why = _carried_from(part, hazard)
            reached = part.high >= limit
            reasons.append(_reason(family, part, hazard, (limit, why), reached=reached))
            if reached:
                carried.append((hazard, part.name))
                if family == "flammable" and part.high < 90 and specific(part, hazard.name) is None:
                    lacks.append(Lack(family=family, ingredient=mixture.name, what="flash point not known"))
    return Finding(
        family=family,
        classified=_worst(carried),
        lacks=tuple(dict.fromkeys(lacks)),
        reasons=tuple(reasons),
        readings=tuple(dict.fromkeys(readings)),
    )


def _classes(part: Ingredient, family: Family) -> tuple[HazardClass, ...]:
    """Its classes of the family; of those with limits, the one at its own strength."""
    found = [c for c in part.classes if c.family == family]
    found += [b.hazard for b in part.limits if b.hazard.family == family]
    kept: dict[str, HazardClass] = {}
    for name in dict.fromkeys(c.name for c in found):
        bands = sorted((b for b in part.limits if b.hazard.name == name), key=lambda b: b.above)
        inside = [b.hazard for b in bands if b.above <= part.high]
        lowest = bands[0].hazard if bands else min((c for c in found if c.name == name), key=lambda c: c.rank)
        kept[name] = inside[-1] if inside else lowest
    return tuple(kept.values())


def _carried_from(part: Ingredient, hazard: HazardClass) -> tuple[Fraction, str]:
    own = specific(part, hazard.name, category=hazard.category)
    if own is not None:
        return own, "its own limit"
    if hazard.name == "Met. Corr.":
        return METAL_FROM, "no limit known, carried from 1 %"
    if hazard.name in _LIQUID:
        return (FLAMMABLE_FROM if hazard.name == "Flam. Liq." else OXIDISER_FROM), "no limit known, carried from 5 %"
    return Fraction(1), "carried from the ingredient"


def _worst(carried: list[tuple[HazardClass, str]]) -> tuple[Classified, ...]:
    """Each class once, at its most severe category."""
    kept = []
    for name in sorted({h.name for h, _ in carried}):
        same = [(h, n) for h, n in carried if h.name == name]
        worst = min((h for h, _ in same), key=lambda h: h.rank)
        kept.append(Classified(hazard=worst, causes=tuple(sorted(n for _, n in same))))
    return tuple(kept)


def _measured(mixture: Mixture, flash: Fraction) -> Finding:
    """By the flash point alone: below 23 °C category 2 (a boiling point under 35 °C is not known), to 60 °C 3."""
    category = "2" if flash < 23 else "3" if flash <= 60 else ""
    hazard = HazardClass(name="Flam. Liq.", category=category) if category else None
    reason = Reason(
        family="flammable",
        rule="flash point as measured",
        source="CLP Annex I Table 2.6.1",
        terms=(f"{float(flash):g} °C",),
        value=None,
        unit="",
        threshold="< 23 °C category 2, ≤ 60 °C category 3",
        result=hazard.text if hazard else "not classified",
    )
    causes = tuple(p.name for p in mixture.ingredients if p.of("Flam. Liq.")) or (mixture.name,)
    found = (Classified(hazard=hazard, causes=causes),) if hazard else ()
    return Finding(family="flammable", classified=found, reasons=(reason,))


def _reason(
    family: Family, part: Ingredient, hazard: HazardClass, carried: tuple[Fraction, str], *, reached: bool
) -> Reason:
    return Reason(
        family=family,
        rule=f"{hazard.text} of an ingredient, a class that comes from tests",
        source=carried[1],
        terms=(term(part.name, part.high),),
        value=part.high,
        unit="%",
        threshold=f"≥ {percent(carried[0])}",
        result=f"{hazard.text} is carried over" if reached else f"{hazard.text} is not carried over",
    )
