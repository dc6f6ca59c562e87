"""What stands on a substance's own jar, by derivation, and what is not known of the substance."""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.labels.archive import jar_label
from sitegen.model.archive import Archive
from sitegen.model.substance import Substance
from sitegen.render.label_view import LabelView, jar_view


@dataclass(frozen=True, slots=True, kw_only=True)
class JarView:
    """The forms that carry one and the same label, by name."""

    forms: tuple[str, ...]
    label: LabelView


def jars(card: Substance, archive: Archive) -> tuple[JarView, ...]:
    """The labels of a substance's forms, forms with equal ones together, in the order of the card."""
    found: dict[tuple[object, ...], tuple[LabelView, list[str]]] = {}
    for form in card.forms:
        label = jar_label(form, archive)
        view = jar_view(label)
        key = (view.answer, view.signal, view.signs, view.h, view.euh, view.p, view.unknown)
        found.setdefault(key, (view, []))[1].append(form.name)
    return tuple(JarView(forms=tuple(names), label=view) for view, names in found.values())


def not_known(card: Substance) -> tuple[str, ...]:
    """What the card does not tell, in sentences; empty only where it tells everything a page can show."""
    return tuple(_gaps(card))


def _gaps(card: Substance) -> Iterator[str]:
    if card.hazards.basis == "no data":
        yield "Nobody has judged its hazards, as far as this archive knows. Handle it as harmful."
    if card.hazards.basis == "notified":
        yield "Its classes are what suppliers notified, and suppliers may disagree. Read the sheet of your own."
    if not card.hazards.groups:
        yield "It has no reactive groups here: what it must not meet is not checked, and it is not called compatible."
    bare = [form.name for form in card.forms if not form.formula]
    if bare:
        yield f"No formula, so no molar mass and no moles: {', '.join(bare)}."
    liquid = [form.name for form in card.forms if form.state == "liquid" and not form.density]
    if liquid:
        yield f"No density, so measured volumes have no weight: {', '.join(liquid)}."
    if not card.solubility and card.state == "solid":
        yield "How much of it dissolves is not on the card."
    if not card.store:
        yield "How to keep it is not on the card."
    if not card.dispose:
        yield "Where it goes when done with is not on the card. Local rules decide."
    if card.unverified:
        yield f"From memory, not yet checked against a source: {', '.join(card.unverified)}."
