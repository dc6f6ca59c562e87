"""Hazard classes as substance cards write them: `Skin Corr. 1B`, `Acute Tox. 4 (oral)`, `Repr. 1B (H360FD)`.

Only reading and comparing; which statement belongs to a class is `statements`. Names and categories follow
CLP Annex VI Table 1.1; the categories that the UN GHS alone knows are read too.
"""

import re
from dataclasses import dataclass
from typing import Final, Literal

from sitegen.problems import Refusal, did_you_mean

Family = Literal[
    "acute-oral",
    "acute-dermal",
    "acute-inhalation",
    "skin",
    "eye",
    "respiratory-sensitisation",
    "skin-sensitisation",
    "mutagenicity",
    "carcinogenicity",
    "reproduction",
    "breast-milk",
    "organs-once",
    "respiratory-irritation",
    "narcotic-effects",
    "organs-repeated",
    "aspiration",
    "aquatic-acute",
    "aquatic-chronic",
    "ozone",
    "oxidising",
    "flammable",
    "metal-corrosive",
    "other-physical",
]
HEALTH_AND_WATER: Final[tuple[Family, ...]] = (
    "acute-oral",
    "acute-dermal",
    "acute-inhalation",
    "skin",
    "eye",
    "respiratory-sensitisation",
    "skin-sensitisation",
    "mutagenicity",
    "carcinogenicity",
    "reproduction",
    "breast-milk",
    "organs-once",
    "respiratory-irritation",
    "narcotic-effects",
    "organs-repeated",
    "aspiration",
    "aquatic-acute",
    "aquatic-chronic",
)
"""Families of which each gets one of three answers; physical classes come from tests and are carried over."""

# Which categories has a class, the most severe first? CLP Annex I; after the bar, UN GHS only.
CATEGORIES: Final[dict[str, tuple[str, ...]]] = {
    "Unst. Expl.": ("",),
    "Expl.": ("1.1", "1.2", "1.3", "1.4", "1.5", "1.6"),
    "Explosives": ("1", "2A", "2B", "2C"),
    "Desen. Expl.": ("1", "2", "3", "4"),
    "Flam. Gas": ("1A", "1B", "2"),
    "Aerosol": ("1", "2", "3"),
    "Chem. Unst. Gas": ("A", "B"),
    "Chem. under pressure": ("1", "2", "3"),
    "Pyr. Gas": ("1A",),
    "Ox. Gas": ("1",),
    "Press. Gas": ("",),
    "Flam. Liq.": ("1", "2", "3", "4"),
    "Flam. Sol.": ("1", "2"),
    "Self-react.": ("A", "B", "C", "D", "E", "F", "G"),
    "Org. Perox.": ("A", "B", "C", "D", "E", "F", "G"),
    "Pyr. Liq.": ("1",),
    "Pyr. Sol.": ("1",),
    "Self-heat.": ("1", "2"),
    "Water-react.": ("1", "2", "3"),
    "Ox. Liq.": ("1", "2", "3"),
    "Ox. Sol.": ("1", "2", "3"),
    "Met. Corr.": ("1",),
    "Acute Tox.": ("1", "2", "3", "4", "5"),
    "Skin Corr.": ("1A", "1", "1B", "1C"),
    "Skin Irrit.": ("2", "3"),
    "Eye Dam.": ("1",),
    "Eye Irrit.": ("2", "2A", "2B"),
    "Resp. Sens.": ("1A", "1", "1B"),
    "Skin Sens.": ("1A", "1", "1B"),
    "Muta.": ("1A", "1B", "2"),
    "Carc.": ("1A", "1B", "2"),
    "Repr.": ("1A", "1B", "2"),
    "Lact.": ("",),
    "STOT SE": ("1", "2", "3"),
    "STOT RE": ("1", "2"),
    "Asp. Tox.": ("1", "2"),
    "Aquatic Acute": ("1", "2", "3"),
    "Aquatic Chronic": ("1", "2", "3", "4"),
    "Ozone": ("1",),
}
_FAMILIES: Final[dict[str, Family]] = {
    "Skin Corr.": "skin",
    "Skin Irrit.": "skin",
    "Eye Dam.": "eye",
    "Eye Irrit.": "eye",
    "Resp. Sens.": "respiratory-sensitisation",
    "Skin Sens.": "skin-sensitisation",
    "Muta.": "mutagenicity",
    "Carc.": "carcinogenicity",
    "Repr.": "reproduction",
    "Lact.": "breast-milk",
    "STOT RE": "organs-repeated",
    "Asp. Tox.": "aspiration",
    "Aquatic Acute": "aquatic-acute",
    "Aquatic Chronic": "aquatic-chronic",
    "Ozone": "ozone",
    "Ox. Gas": "oxidising",
    "Ox. Liq.": "oxidising",
    "Ox. Sol.": "oxidising",
    "Flam. Gas": "flammable",
    "Flam. Liq.": "flammable",
    "Flam. Sol.": "flammable",
    "Met. Corr.": "metal-corrosive",
}
_ROUTES: Final[dict[str, Family]] = {
    "oral": "acute-oral",
    "dermal": "acute-dermal",
    "inhalation": "acute-inhalation",
}
_EFFECTS: Final[dict[str, Family]] = {
    "respiratory irritation": "respiratory-irritation",
    "narcotic effects": "narcotic-effects",
}
_LETTERS: Final = re.compile(r"H36(?:0(?:F|D|FD|Fd|Df)?|1(?:f|d|fd)?)")


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class HazardClass:
    """A class with its category, and what stands in brackets: a route, an effect, an organ, letters."""

    name: str
    category: str = ""
    detail: str = ""

    @property
    def text(self) -> str:
        """As a card writes it."""
        plain = f"{self.name} {self.category}".strip()
        return f"{plain} ({self.detail})" if self.detail else plain

    @property
    def family(self) -> Family:
        """Which rules it falls under."""
        if self.name == "Acute Tox.":
            return _ROUTES[self.detail]
        if self.name == "STOT SE":
            return _EFFECTS[self.detail] if self.category == "3" else "organs-once"
        return _FAMILIES.get(self.name, "other-physical")

    @property
    def rank(self) -> int:
        """0 for the most severe category of the class; sub-categories of one category keep their order."""
        return CATEGORIES[self.name].index(self.category)


def parse_class(text: str) -> HazardClass:
    """A class from its text; `Refusal` (`class-not-read`) for one that is not known or incomplete.

    >>> parse_class("STOT SE 3 (respiratory irritation)").family
    'respiratory-irritation'
    >>> parse_class("Skin Corr. 1B").text
    'Skin Corr. 1B'
    """
    plain = " ".join(text.split())
    name = next((n for n in sorted(CATEGORIES, key=len, reverse=True) if _starts(plain, n)), "")
    match = re.fullmatch(r"(?: ?(?P<category>[0-9A-G][0-9A-G.]*))?(?: \((?P<detail>[^()]+)\))?", plain[len(name) :])
    if not name:
        raise _refused(plain, did_you_mean(re.sub(r" ?[0-9(].*", "", plain), CATEGORIES))
    if not match:
        raise _refused(plain, f"after `{name}` stands a category, then nothing or one pair of brackets")
    category, detail = match["category"] or "", match["detail"] or ""
    if category not in CATEGORIES[name]:
        listed = ", ".join(f"`{name} {c}`" for c in CATEGORIES[name] if c)
        raise _refused(plain, f"write one of {listed}" if listed else f"write `{name}`")
    found = HazardClass(name=name, category=category, detail=detail)
    if remedy := _detail_missing(found):
        raise _refused(plain, remedy)
    return found


def _starts(text: str, name: str) -> bool:
    return text == name or text.startswith(f"{name} ")


def _detail_missing(found: HazardClass) -> str:
    """What must stand in the brackets, or '' when it does."""
    if found.name == "Acute Tox." and found.detail not in _ROUTES:
        return f"name the route: `Acute Tox. {found.category} (oral)`, `(dermal)` or `(inhalation)`"
    if found.name == "STOT SE" and found.category == "3" and found.detail not in _EFFECTS:
        return "name the effect: `STOT SE 3 (respiratory irritation)` or `(narcotic effects)`"
    if found.name == "Repr." and found.detail and not _LETTERS.fullmatch(found.detail):
        return "the brackets hold the statement with its letters, such as `Repr. 1B (H360FD)`"
    return ""


def _refused(text: str, remedy: str) -> Refusal:
    return Refusal("class-not-read", f"`{text}` is not a hazard class", remedy or "write it like `Skin Corr. 1B`")
