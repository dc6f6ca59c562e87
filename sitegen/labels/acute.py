"""Acute toxicity: the estimate of the mixture (ATE) by route, with the rule for unknown ingredients.

100 ÷ ATEmix = Σ share ÷ ATE, CLP Annex I 3.1.3.6; where more than 10 % is of unknown toxicity, the left side
is 100 less that share (3.1.3.6.2.3). Inhalation is summed apart for gas, vapour and dust or mist. A value
equal to a limit belongs to the more severe category.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.labels.classes import Family, HazardClass
from sitegen.labels.ingredient import AcutePoint, Ingredient, Inhaled, Mixture, Route
from sitegen.labels.limits import CUT_OFF
from sitegen.labels.reason import Classified, Finding, Lack, Reason, percent, shown

Scale = tuple[Route, Inhaled]
NO_EFFECT_ABOVE: Final = Fraction(5000)
"""mg/kg: the top of the UN's category 5. Above it an ingredient adds nothing (UN worked example 3)."""
UNKNOWN_MATTERS: Final = Fraction(10)

# What is an ingredient's estimate when only its category is known? CLP Annex I Table 3.1.2; category 5: UN.
POINTS: Final[dict[Scale, tuple[str, ...]]] = {
    ("oral", "dust-mist"): ("0.5", "5", "100", "500", "2500"),
    ("dermal", "dust-mist"): ("5", "50", "300", "1100", "2500"),
    ("inhalation", "gas"): ("10", "100", "700", "4500"),
    ("inhalation", "vapour"): ("0.05", "0.5", "3", "11"),
    ("inhalation", "dust-mist"): ("0.005", "0.05", "0.5", "1.5"),
}
# Up to which estimate does a category reach? CLP Annex I Table 3.1.1.
BOUNDS: Final[dict[Scale, tuple[str, ...]]] = {
    ("oral", "dust-mist"): ("5", "50", "300", "2000"),
    ("dermal", "dust-mist"): ("50", "200", "1000", "2000"),
    ("inhalation", "gas"): ("100", "500", "2500", "20000"),
    ("inhalation", "vapour"): ("0.5", "2", "10", "20"),
    ("inhalation", "dust-mist"): ("0.05", "0.5", "1", "5"),
}
_UNITS: Final[dict[Scale, str]] = {
    ("oral", "dust-mist"): "mg/kg",
    ("dermal", "dust-mist"): "mg/kg",
    ("inhalation", "gas"): "ppm",
    ("inhalation", "vapour"): "mg/l",
    ("inhalation", "dust-mist"): "mg/l",
}
_ROUTES: Final[dict[Family, Route]] = {
    "acute-oral": "oral",
    "acute-dermal": "dermal",
    "acute-inhalation": "inhalation",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sum:
    """Σ share ÷ ATE on one scale."""

    scale: Scale
    total: Fraction
    names: tuple[str, ...]
    terms: tuple[str, ...]


def acute(mixture: Mixture) -> tuple[Finding, ...]:
    """The findings of the three routes."""
    return tuple(_route(mixture, family, route) for family, route in _ROUTES.items())


def point(ingredient: Ingredient, route: Route) -> AcutePoint | None:
    """The ingredient's estimate: its own figure, else that of its category; None when it has neither."""
    own = [p for p in ingredient.ate if p.route == route]
    if own:
        return min(own, key=lambda p: p.value if p.value is not None else NO_EFFECT_ABOVE + 1)
    found = [c for c in ingredient.classes if c.name == "Acute Tox." and c.detail == route]
    if not found:
        return None
    worst = min(found, key=lambda c: c.rank)
    inhaled: Inhaled = ingredient.inhaled if route == "inhalation" else "dust-mist"
    value = Fraction(POINTS[(route, inhaled)][worst.rank])
    source = "converted from the category" + (", a minimum" if worst in ingredient.minimum else "")
    return AcutePoint(route=route, value=value, inhaled=inhaled, source=source)


def unknown_share(mixture: Mixture, family: Family) -> Fraction:
    """Percent of the mixture whose acute toxicity nobody has judged, never more than is left over."""
    unknown = [p for p in mixture.ingredients if p.lacks(family) and point(p, _ROUTES[family]) is None]
    known = sum((p.percent.low for p in mixture.ingredients if p.percent and p not in unknown), Fraction(0))
    share = sum((p.high for p in unknown if p.high >= CUT_OFF[family]), Fraction(0))
    return max(Fraction(0), min(share, 100 - known))


def unknown_sentence(share: Fraction, family: Family) -> str:
    """The sentence CLP asks for (3.1.3.6.2.2) when more than 10 % is unknown."""
    way = {"acute-oral": "oral", "acute-dermal": "dermal", "acute-inhalation": "inhalation"}[family]
    return f"{percent(share)} of the mixture consists of ingredient(s) of unknown acute {way} toxicity."


def _route(mixture: Mixture, family: Family, route: Route) -> Finding:
    unknown = unknown_share(mixture, family)
    classified, reasons = [], []
    for one in _sums(mixture, route):
        left = 100 - unknown if unknown > UNKNOWN_MATTERS else Fraction(100)
        estimate = left / one.total if one.total else None
        hazard = _category(estimate, one.scale)
        reasons.append(_reason(family, one, estimate, left, hazard))
        if hazard:
            only_mist = one.scale[1] == "dust-mist" and route == "inhalation"
            when = "sprayed" if only_mist and mixture.state == "liquid" and not mixture.sprayed else ""
            classified.append(Classified(hazard=hazard, causes=one.names, when="sprayed" if when else ""))
    lacks = tuple(
        Lack(family=family, ingredient=p.name, what="no acute toxicity data")
        for p in mixture.ingredients
        if p.lacks(family) and p.high >= CUT_OFF[family] and point(p, route) is None
    )
    readings = (unknown_sentence(unknown, family),) if unknown > UNKNOWN_MATTERS else ()
    return Finding(
        family=family,
        classified=_worst(classified),
        lacks=lacks,
        reasons=tuple(reasons),
        readings=readings,
    )


def _sums(mixture: Mixture, route: Route) -> Iterable[_Sum]:
    """One sum for each scale on which an ingredient has a figure."""
    for scale in (s for s in POINTS if s[0] == route):
        counted = []
        for part in mixture.ingredients:
            found = point(part, route)
            if found is None or found.value is None or (route == "inhalation" and found.inhaled != scale[1]):
                continue
            if part.high < CUT_OFF["acute-oral"] and not _potent(found.value, scale, part.high):
                continue
            if route != "inhalation" and found.value > NO_EFFECT_ABOVE:
                continue
            counted.append((part, found))
        if counted:
            yield _Sum(
                scale=scale,
                total=sum((p.high / f.value for p, f in counted if f.value), Fraction(0)),
                names=tuple(p.name for p, _ in counted),
                terms=tuple(
                    f"{p.name} {percent(p.high)} ÷ {shown(f.value)} {_UNITS[scale]}"
                    + (f" ({f.source})" * bool(f.source))
                    for p, f in counted
                    if f.value
                ),
            )


def _potent(value: Fraction, scale: Scale, share: Fraction) -> bool:
    """Categories 1 to 3 count from 0.1 % (CLP Annex I Table 1.1)."""
    return value <= Fraction(BOUNDS[scale][2]) and share >= Fraction(1, 10)


def _category(estimate: Fraction | None, scale: Scale) -> HazardClass | None:
    if estimate is None:
        return None
    for rank, bound in enumerate(BOUNDS[scale], start=1):
        if estimate <= Fraction(bound):
            return HazardClass(name="Acute Tox.", category=str(rank), detail=scale[0])
    return None


def _reason(family: Family, one: _Sum, estimate: Fraction | None, left: Fraction, hazard: HazardClass | None) -> Reason:
    inhaled = f", {one.scale[1].replace('-', ' or ')}" if one.scale[0] == "inhalation" else ""
    return Reason(
        family=family,
        rule=f"ATE of the mixture, {one.scale[0]}{inhaled}: {shown(left)} ÷ Σ (percent ÷ ATE)",
        source="CLP Annex I 3.1.3.6",
        terms=one.terms,
        value=estimate,
        unit=_UNITS[one.scale],
        threshold=f"≤ {' / '.join(BOUNDS[one.scale])} {_UNITS[one.scale]} for category 1 / 2 / 3 / 4",
        result=hazard.text if hazard else "not classified",
    )


def _worst(found: list[Classified]) -> tuple[Classified, ...]:
    """The most severe printed class, and a more severe one that holds only when sprayed."""
    kept: list[Classified] = []
    for one in sorted(found, key=lambda c: (c.hazard.rank, c.when)):
        if not kept or (kept[0].when and not one.when):
            kept.append(one)
    return tuple(kept[:2])
