"""Entries: what the rules need of a substance beyond its card, and how a card becomes an ingredient.

The table is `data/hazards/classification.yaml`; its text is given, the file is not touched. Entries are looked
up by the id of a form, then of its substance. A substance without an entry has the classes of its card and
the generic limits.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from sitegen.labels.classes import HazardClass, parse_class
from sitegen.labels.ingredient import AcutePoint, Ingredient, Inhaled, Kind, Limit, Share, Supplement
from sitegen.model.substance import Form, Substance

FIELDS: Final = (
    "note", "limits", "ate", "m", "minimum", "inhaled", "euh", "kind", "ph", "additive", "counts as",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One entry; what it does not name is as the substance's own entry, or the general rule, has it."""

    note: str = ""
    limits: tuple[Limit, ...] = ()
    ate: tuple[AcutePoint, ...] = ()
    m_acute: Fraction | None = None
    m_chronic: Fraction | None = None
    minimum: tuple[HazardClass, ...] = ()
    inhaled: Inhaled = "dust-mist"
    supplements: tuple[Supplement, ...] = ()
    kind: Kind = ""
    ph: Fraction | None = None
    ph_at: Fraction | None = None
    additive: bool = True
    counts_as: Fraction = Fraction(1)
    """Grams of the entry's own form in one gram of this one."""
    fields: frozenset[str] = frozenset()
    """Which fields the file names."""


Entries = dict[str, Entry]


def entry_of(form: str, substance: str, entries: Entries) -> Entry:
    """The entry of a form: its own fields, the others from the substance's entry."""
    general, own = entries.get(substance, Entry()), entries.get(form, Entry())
    if form == substance or not own.fields:
        return general
    merged = general
    for name in own.fields:
        merged = replace(merged, **{attribute: getattr(own, attribute) for attribute in _ATTRIBUTES[name]})
    return replace(merged, fields=general.fields | own.fields)


_ATTRIBUTES: Final[dict[str, tuple[str, ...]]] = {
    "note": ("note",),
    "limits": ("limits",),
    "ate": ("ate",),
    "m": ("m_acute", "m_chronic"),
    "minimum": ("minimum",),
    "inhaled": ("inhaled",),
    "euh": ("supplements",),
    "kind": ("kind",),
    "ph": ("ph", "ph_at"),
    "additive": ("additive",),
    "counts as": ("counts_as",),
}


def pure(form: Form, taken: Share | None) -> Share | None:
    """The share of the pure substance when `taken` percent of a bottle's contents are in the mixture.

    The bottle's assay is taken off; one by volume needs the density of the pure liquid, which a card does
    not have, so that the share is then not known.
    """
    if taken is None or form.assay is None:
        return taken
    low, high = form.assay.low / 100, form.assay.high / 100
    if form.assay.basis == "w/v":
        density = form.density.base()[0] if form.density else None
        if density is None:
            return None
        low, high = low / density, high / density
    elif form.assay.basis == "v/v":
        return None
    return Share(low=taken.low * low, high=taken.high * high)


def ingredient_of(substance: Substance, form: Form, percent: Share | None, entries: Entries) -> Ingredient:
    """The ingredient from a card; `percent` is of the pure substance of the formula (`pure`).

    `Refusal` for a class on the card that is not read. Hydrates are counted as weighed, the cautious side,
    unless the entry gives a factor.
    """
    entry = entry_of(form.id, substance.id, entries)
    share = percent and Share(low=percent.low * entry.counts_as, high=percent.high * entry.counts_as)
    own = form.id != substance.id and bool(entries.get(form.id, Entry()).fields - {"counts as"})
    return Ingredient(
        name=form.name if own else substance.name,
        percent=share,
        data=substance.hazards.basis,
        classes=tuple(parse_class(text) for text in substance.hazards.classes),
        limits=entry.limits,
        ate=entry.ate,
        m_acute=entry.m_acute,
        m_chronic=entry.m_chronic,
        inhaled=entry.inhaled,
        kind=entry.kind,
        ph=entry.ph,
        additive=entry.additive,
        supplements=entry.supplements,
        minimum=entry.minimum,
        state=substance.state,
    )
