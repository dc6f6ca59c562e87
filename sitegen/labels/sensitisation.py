"""Sensitisers: one ingredient alone at its limit; they never add up.

CLP Annex I 3.4.3 with Tables 3.4.5 (classes) and 3.4.6 (who is already allergic: EUH208).
"""

from fractions import Fraction
from typing import Final

from sitegen.labels.classes import Family, HazardClass
from sitegen.labels.ingredient import Ingredient, Mixture
from sitegen.labels.limits import specific
from sitegen.labels.reason import Classified, Finding
from sitegen.labels.single import at_limit

SOURCE: Final = "CLP Annex I Table 3.4.5; specific limits"

_NAMES: Final[dict[Family, str]] = {
    "respiratory-sensitisation": "Resp. Sens.",
    "skin-sensitisation": "Skin Sens.",
}
# At which percent does a sensitiser make the mixture one? Solids and liquids, Table 3.4.5.
LIMITS: Final = {"1": Fraction(1), "1A": Fraction(1, 10), "1B": Fraction(1)}
# At which percent must it be named for those already allergic? Table 3.4.6.
ELICITS: Final = {"1": Fraction(1, 10), "1A": Fraction(1, 100), "1B": Fraction(1, 10)}


def sensitisation(mixture: Mixture) -> tuple[Finding, ...]:
    """The findings for the lungs and for the skin."""
    return tuple(_finding(mixture, family, name) for family, name in _NAMES.items())


def _finding(mixture: Mixture, family: Family, name: str) -> Finding:
    reasons, met = [], []
    for part in mixture.ingredients:
        for hazard in _worst(part, name):
            limit = _limit(part, hazard)
            reached = part.high >= limit
            reasons.append(at_limit(part, hazard, limit=limit, source=SOURCE, reached=reached))
            if reached:
                met.append((part.name, hazard))
    if not met:
        return Finding(family=family, reasons=tuple(reasons))
    sub = {h for _, h in met}
    hazard = sub.pop() if len(sub) == 1 else HazardClass(name=name, category="1")
    found = Classified(hazard=hazard, causes=tuple(sorted(n for n, _ in met)))
    return Finding(family=family, classified=(found,), reasons=tuple(reasons))


def _worst(part: Ingredient, name: str) -> tuple[HazardClass, ...]:
    found = part.of(name)
    return (min(found, key=lambda c: c.rank),) if found else ()


def _limit(part: Ingredient, hazard: HazardClass) -> Fraction:
    own = specific(part, hazard.name)
    return own if own is not None else LIMITS[hazard.category]


def elicitors(mixture: Mixture, found: tuple[Finding, ...]) -> tuple[str, ...]:
    """Sensitisers to be named by EUH208: at a tenth of their limit, where the mixture is no sensitiser itself."""
    if any(f.classified for f in found if f.family in _NAMES):
        return ()
    named = []
    for part in mixture.ingredients:
        for name in _NAMES.values():
            for hazard in _worst(part, name):
                own = specific(part, name)
                limit = own / 10 if own is not None else ELICITS[hazard.category]
                if part.high >= limit:
                    named.append(part.name)
    return tuple(dict.fromkeys(named))
