"""Substances: what is known of one ingredient and of each form it is sold in.

A substance without forms has one form of its own id; otherwise a form's id is `substance-key`.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sitegen.model.amount import Percent
from sitegen.model.card_figures import NO_FIGURES, CardFigures
from sitegen.model.quantity import Quantity
from sitegen.problems import Span

State = Literal["solid", "liquid", "gas", "plant"]
HazardBasis = Literal["harmonised", "national", "notified", "not classified", "no data"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """One form that can stand in a jar: a hydrate, a strength of a reagent, a colour of a salt."""

    id: str
    name: str
    state: State
    formula: str = ""
    cas: str = ""
    names: tuple[str, ...] = ()
    assay: Percent | None = None
    """How much of the jar is the substance of the formula; None for all of it."""
    density: Quantity | None = None
    """Of liquids, at 20 °C."""
    supplies: tuple[tuple[str, Fraction], ...] = ()
    """The ion or part a swap preserves, with moles of it per formula unit."""
    content: tuple[tuple[str, Percent], ...] = ()
    """Percent by mass of a useful part, where there is no formula."""
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solubility:
    """The most that dissolves in 100 ml of water: grams of `form` at `at` °C."""

    at: Quantity
    limit: Quantity
    form: str
    source: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SubstanceHazards:
    """Hazard classes as a card states them, and on what authority."""

    classes: tuple[str, ...]
    basis: HazardBasis
    source: str
    groups: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    figures: CardFigures = NO_FIGURES
    classes_at: tuple[Span, ...] = ()
    """Where each class is written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Substance:
    """A substance card."""

    id: str
    name: str
    state: State
    forms: tuple[Form, ...]
    other_names: tuple[str, ...] = ()
    """Names that do not tell the form."""
    look_alikes: tuple[str, ...] = ()
    solubility: tuple[Solubility, ...] = ()
    hazards: SubstanceHazards
    store: str = ""
    dispose: str = ""
    note: str = ""
    unverified: tuple[str, ...] = ()
    """Fields that come from memory, to be checked before they are relied on."""
    own: bool = False
    """Whether the archive brought the card, rather than the base set."""
    at: Span

    def names(self) -> tuple[str, ...]:
        """Every word the substance or one of its forms is called by, once each."""
        words = [self.id, self.name, *self.other_names]
        for form in self.forms:
            words += [form.id, form.name, *form.names, *((form.formula,) if form.formula else ())]
            words += (form.cas,) if form.cas else ()
        return tuple(dict.fromkeys(words))
