"""Aspiration: thin oils that run into the lungs when swallowed.

CLP Annex I 3.10.3: 10 % together, and a viscosity of 20.5 mm²/s or less at 40 °C. A recipe cannot tell a
viscosity; until one is measured it is taken to be low.
"""

from fractions import Fraction
from typing import Final

from sitegen.labels.classes import HazardClass
from sitegen.labels.ingredient import Mixture
from sitegen.labels.reason import Classified, Finding, Reason, term

LIMIT: Final = Fraction(10)
THIN: Final = Fraction(41, 2)
HAZARD: Final = HazardClass(name="Asp. Tox.", category="1")


def aspiration(mixture: Mixture) -> Finding:
    """The finding."""
    parts = [p for p in mixture.ingredients if p.of("Asp. Tox.", category="1") and p.high >= 1]
    total = sum((p.high for p in parts), Fraction(0))
    thin = mixture.viscosity is None or mixture.viscosity <= THIN
    reached = total >= LIMIT and thin
    assumed = total >= LIMIT and mixture.viscosity is None
    reason = Reason(
        family="aspiration",
        rule="Σ Asp. Tox. 1" + (", viscosity not measured and taken to be low" if assumed else ""),
        source="CLP Annex I 3.10.3",
        terms=tuple(term(p.name, p.high) for p in parts),
        value=total,
        unit="%",
        threshold="≥ 10 % and ≤ 20.5 mm²/s at 40 °C",
        result=HAZARD.text if reached else f"not {HAZARD.text}",
    )
    found = Classified(hazard=HAZARD, causes=tuple(p.name for p in parts), provisional=assumed)
    return Finding(family="aspiration", classified=(found,) if reached else (), reasons=(reason,))
