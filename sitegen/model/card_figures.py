"""Figures: what a card of the archive may give beside its hazard classes, so that mixtures can be classified.

Percents by weight of the substance of the formula. What a class is, and what follows, is `labels`.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.problems import Span

Route = Literal["oral", "dermal", "inhalation"]
Inhaled = Literal["gas", "vapour", "dust-mist"]


@dataclass(frozen=True, slots=True, kw_only=True)
class CardLimit:
    """A specific concentration limit: the class, as text, holds from `above` (inclusive) to `below`."""

    hazard: str
    above: Fraction
    below: Fraction | None
    source: str
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPoint:
    """An acute toxicity estimate: mg/kg by mouth or skin; breathed mg/l (gases ppm)."""

    route: Route
    value: Fraction
    inhaled: Inhaled
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardStatement:
    """A supplemental statement, such as EUH031, and the percent from which it is printed."""

    code: str
    above: Fraction
    source: str
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class CardFigures:
    """All of them; a card without any has an empty one."""

    limits: tuple[CardLimit, ...] = ()
    points: tuple[CardPoint, ...] = ()
    m_acute: Fraction | None = None
    m_chronic: Fraction | None = None
    statements: tuple[CardStatement, ...] = ()


NO_FIGURES: Final = CardFigures()
