"""Mutagens, carcinogens, reproductive toxicants and harm through breast milk: one ingredient alone at its limit.

CLP Annex I Tables 3.5.2, 3.6.2, 3.7.2. Two carcinogens below their limits do not add up. The letters of the
statement are those of the ingredients that reach their limits, a capital winning over a small letter.
"""

from fractions import Fraction
from typing import Final

from sitegen.labels.classes import Family, HazardClass
from sitegen.labels.ingredient import Mixture
from sitegen.labels.limits import specific
from sitegen.labels.reason import Classified, Finding
from sitegen.labels.single import at_limit

SOURCE: Final = "CLP Annex I Tables 3.5.2, 3.6.2, 3.7.2"

_NAMES: Final[dict[Family, str]] = {
    "mutagenicity": "Muta.",
    "carcinogenicity": "Carc.",
    "reproduction": "Repr.",
    "breast-milk": "Lact.",
}
# At which percent does one ingredient make the class?
LIMITS: Final[dict[tuple[str, str], Fraction]] = {
    ("Muta.", "1A"): Fraction(1, 10),
    ("Muta.", "1B"): Fraction(1, 10),
    ("Muta.", "2"): Fraction(1),
    ("Carc.", "1A"): Fraction(1, 10),
    ("Carc.", "1B"): Fraction(1, 10),
    ("Carc.", "2"): Fraction(1),
    ("Repr.", "1A"): Fraction(3, 10),
    ("Repr.", "1B"): Fraction(3, 10),
    ("Repr.", "2"): Fraction(3),
    ("Lact.", ""): Fraction(3, 10),
}


def cmr(mixture: Mixture) -> tuple[Finding, ...]:
    """The four findings."""
    return tuple(_finding(mixture, family, name) for family, name in _NAMES.items())


def _finding(mixture: Mixture, family: Family, name: str) -> Finding:
    reasons, met = [], []
    for part in mixture.ingredients:
        for hazard in part.of(name):
            own = specific(part, name, category=hazard.category)
            limit = own if own is not None else LIMITS[(name, hazard.category)]
            reached = part.high >= limit
            reasons.append(at_limit(part, hazard, limit=limit, source=SOURCE, reached=reached))
            if reached:
                met.append((part.name, hazard))
    if not met:
        return Finding(family=family, reasons=tuple(reasons))
    worst = min((h for _, h in met), key=lambda h: h.rank)
    alike = [(n, h) for n, h in met if h.category[:1] == worst.category[:1]]
    detail = _letters([h for _, h in met]) if name == "Repr." else _common([h for _, h in alike])
    hazard = HazardClass(name=name, category=worst.category, detail=detail)
    found = Classified(hazard=hazard, causes=tuple(sorted({n for n, _ in (met if name == "Repr." else alike)})))
    return Finding(family=family, classified=(found,), reasons=tuple(reasons))


def _common(found: list[HazardClass]) -> str:
    """`inhalation` only where it is the route of every cause."""
    details = {h.detail for h in found}
    return details.pop() if len(details) == 1 else ""


def _letters(found: list[HazardClass]) -> str:
    """H360 or H361 with the letters of all causes together; '' where a cause of the worst category has none."""
    first = any(h.category != "2" for h in found)
    worst = [h for h in found if (h.category != "2") == first]
    if any(not h.detail or len(h.detail) == 4 for h in worst):
        return ""
    letters = {letter for h in found for letter in h.detail[4:]}
    fertility = next((x for x in ("F", "f") if x in letters), "")
    child = next((x for x in ("D", "d") if x in letters), "")
    if fertility == "f" and child == "D":
        return "H360Df"
    return f"{'H360' if first else 'H361'}{fertility}{child}"
