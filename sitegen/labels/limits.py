"""Limits: from which share an ingredient counts, and at which share alone it makes a class.

Generic cut-offs and limits of CLP Annex I, Table 1.1 and the chapters; a specific limit of the substance
beats the generic one. A share that reaches a limit exactly is over it.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final

from sitegen.labels.classes import Family, HazardClass
from sitegen.labels.ingredient import Ingredient, Limit
from sitegen.labels.reason import term
from sitegen.problems import Refusal

# From which percent does an ingredient that nobody has judged leave a family open?
# CLP Annex I Table 1.1 and 3.10.3; the class limits of sensitisers and CMR substances.
CUT_OFF: Final[dict[Family, Fraction]] = {
    "acute-oral": Fraction(1),
    "acute-dermal": Fraction(1),
    "acute-inhalation": Fraction(1),
    "skin": Fraction(1),
    "eye": Fraction(1),
    "respiratory-sensitisation": Fraction(1, 10),
    "skin-sensitisation": Fraction(1, 10),
    "mutagenicity": Fraction(1, 10),
    "carcinogenicity": Fraction(1, 10),
    "reproduction": Fraction(3, 10),
    "breast-milk": Fraction(3, 10),
    "organs-once": Fraction(1),
    "respiratory-irritation": Fraction(1),
    "narcotic-effects": Fraction(1),
    "organs-repeated": Fraction(1),
    "aspiration": Fraction(10),
    "aquatic-acute": Fraction(1, 10),
    "aquatic-chronic": Fraction(1, 10),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Ratio:
    """A sum of share ÷ limit: the class holds at 1 and over (ECHA guidance on CLP, part 1, 1.6.3.4)."""

    total: Fraction
    parts: tuple[tuple[str, Fraction], ...]
    terms: tuple[str, ...]

    @property
    def reached(self) -> bool:
        """Whether the class holds; a sum of nothing never does."""
        return self.total >= 1


def specific(ingredient: Ingredient, name: str, *, category: str = "", detail: str = "") -> Fraction | None:
    """The lowest specific limit of a class, or None."""
    found = [
        limit.above
        for limit in ingredient.limits
        if limit.hazard.name == name and category in ("", limit.hazard.category) and detail in ("", limit.hazard.detail)
    ]
    return min(found, default=None)


def ratio(ingredients: Iterable[Ingredient], limit_of: Callable[[Ingredient], Fraction | None]) -> Ratio:
    """Σ share ÷ limit over those ingredients that have a limit and count at all.

    Counted from 1 %, or from the ingredient's own limit where that is lower.
    """
    parts, terms = [], []
    for part in ingredients:
        limit = limit_of(part)
        if limit is None or part.high == 0 or part.high < min(limit, Fraction(1)):
            continue
        parts.append((part.name, part.high / limit))
        terms.append(term(part.name, part.high, limit))
    return Ratio(total=sum((v for _, v in parts), Fraction(0)), parts=tuple(parts), terms=tuple(terms))


def at_strength(ingredient: Ingredient, name: str) -> HazardClass | None:
    """The class of a name at the ingredient's own share: the band it stands in, else the lowest, else the card's."""
    bands = sorted((b for b in ingredient.limits if b.hazard.name == name), key=lambda b: b.above)
    if not bands:
        return min(ingredient.of(name), key=lambda c: c.rank, default=None)
    inside = [b for b in bands if b.above <= ingredient.high]
    return (inside[-1] if inside else bands[0]).hazard


def check_order(limits: Iterable[Limit]) -> None:
    """`Refusal` (`limit-order`) when bands run backwards, overlap or a milder category stands higher."""
    by_name: dict[tuple[str, str], list[Limit]] = {}
    for limit in limits:
        if not 0 < limit.above <= 100 or (limit.below is not None and limit.below <= limit.above):
            raise _disorder(limit, "its band is empty or outside 0 to 100 %")
        by_name.setdefault((limit.hazard.name, limit.hazard.detail), []).append(limit)
    for same in by_name.values():
        rising = sorted(same, key=lambda b: b.above)
        for lower, upper in pairwise(rising):
            if lower.below is None or lower.below > upper.above:
                raise _disorder(upper, f"it overlaps the limit of `{lower.hazard.text}`")
            if lower.hazard.rank <= upper.hazard.rank:
                raise _disorder(upper, f"it stands above the more severe `{lower.hazard.text}`")


def _disorder(limit: Limit, why: str) -> Refusal:
    return Refusal(
        "limit-order",
        f"the limit of `{limit.hazard.text}` from {float(limit.above):g} % is out of order: {why}",
        "bands of one class rise with its severity and touch without overlapping",
    )
