"""Ingredients and mixtures as the rules see them: percent by weight of pure substances, and their data.

How a card and a bottle's strength become an ingredient is `entries`; how g/l become percent by weight is
`percent`. Water, and whatever fills up to 100 %, need not be listed.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final, Literal

from sitegen.labels.classes import Family, HazardClass
from sitegen.model.substance import HazardBasis, State
from sitegen.problems import Refusal

Route = Literal["oral", "dermal", "inhalation"]
Inhaled = Literal["gas", "vapour", "dust-mist"]
Kind = Literal["", "acid", "base"]
TOLERANCE: Final = Fraction(1, 2)
"""Percent by which a sum may be over 100 by rounding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """Percent by weight of the finished mixture, low to high; the rules take the high end."""

    low: Fraction
    high: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """A specific concentration limit: the class holds from `above` (inclusive) to `below`, in percent."""

    hazard: HazardClass
    above: Fraction
    below: Fraction | None = None
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AcutePoint:
    """An acute toxicity estimate: mg/kg, mg/l or ppm; None where a test showed no effect.

    `inhaled` only of the inhalation route.
    """

    route: Route
    value: Fraction | None
    inhaled: Inhaled = "dust-mist"
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Supplement:
    """A supplemental statement of a substance, from `above` percent (inclusive unless `over`)."""

    code: str
    above: Fraction = Fraction(1)
    over: bool = False
    when: Literal["", "liquid", "solid"] = ""
    source: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ingredient:
    """One pure substance in a mixture. `percent` None: its share by weight is not known."""

    name: str
    percent: Share | None
    data: HazardBasis
    classes: tuple[HazardClass, ...] = ()
    limits: tuple[Limit, ...] = ()
    ate: tuple[AcutePoint, ...] = ()
    m_acute: Fraction | None = None
    m_chronic: Fraction | None = None
    inhaled: Inhaled = "dust-mist"
    kind: Kind = ""
    ph: Fraction | None = None
    """Of its own solution, typically one percent."""
    additive: bool = True
    supplements: tuple[Supplement, ...] = ()
    minimum: tuple[HazardClass, ...] = ()
    """Classes that the table calls minimum: the true one may be worse."""
    unknown: frozenset[Family] = frozenset()
    """Families without a judgement, beside those of a substance with no data at all."""
    state: State = "solid"

    @property
    def high(self) -> Fraction:
        """The percent the rules count with; 0 when it is not known, which is reported apart."""
        return self.percent.high if self.percent else Fraction(0)

    def lacks(self, family: Family) -> bool:
        """Whether nobody has judged this family of hazards."""
        return self.data == "no data" or family in self.unknown

    def of(self, name: str, *, category: str = "", detail: str = "") -> tuple[HazardClass, ...]:
        """Its classes of a name, from the card's list and from its specific limits, once each."""
        known = [*self.classes, *(limit.hazard for limit in self.limits)]
        return tuple(
            dict.fromkeys(
                c for c in known if c.name == name and category in ("", c.category) and detail in ("", c.detail)
            )
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixture:
    """What is in the bottle. Measured values are None until somebody has measured them."""

    name: str
    ingredients: tuple[Ingredient, ...]
    state: Literal["liquid", "solid"] = "liquid"
    ph: Fraction | None = None
    flash_point: Fraction | None = None
    """°C."""
    viscosity: Fraction | None = None
    """mm²/s at 40 °C."""
    sprayed: bool = False
    """Whether a mist of it can be breathed; of a powder, dust always can."""
    estimate: bool = False
    """Whether the percents rest on an estimated density."""


def joined(mixture: Mixture) -> Mixture:
    """The mixture with each substance once, its shares added; `Refusal` when they exceed 100 %.

    The same salt can come from two stocks; counted apart, each might stay below a limit that both reach.
    """
    found: dict[str, Ingredient] = {}
    for part in mixture.ingredients:
        have = found.get(part.name)
        found[part.name] = replace(have, percent=_sum(have.percent, part.percent)) if have else part
        if have and replace(part, percent=None) != replace(have, percent=None):
            raise Refusal(
                "ingredient-twice",
                f"`{part.name}` stands in `{mixture.name}` twice with different data",
                "give one of the two another name",
            )
    total = sum((p.percent.low for p in found.values() if p.percent), Fraction(0))
    if total > 100 + TOLERANCE:
        raise Refusal(
            "percent-over-100",
            f"the ingredients of `{mixture.name}` add up to {float(total):.3g} % by weight",
            "check the strengths; 100 % is all there is",
        )
    return replace(mixture, ingredients=tuple(found[name] for name in sorted(found)))


def _sum(a: Share | None, b: Share | None) -> Share | None:
    return Share(low=a.low + b.low, high=a.high + b.high) if a and b else None
