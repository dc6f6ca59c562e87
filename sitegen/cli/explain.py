"""The reasoning behind derived labels, in 80 columns or as data: `trayside proof --explain RECIPE`."""

from collections.abc import Iterator
from textwrap import wrap
from typing import Any, Final

import click

from sitegen.cli.recipe import of_recipe
from sitegen.cli.shell import Loaded, answer
from sitegen.labels.archive import Labelled, labels_of
from sitegen.labels.reactions import CHANGES
from sitegen.labels.reason import Finding, Reason
from sitegen.model.quantity import exact_text
from sitegen.model.recipe import Mixture
from sitegen.render.bottle_label import wanted
from sitegen.render.label_view import LabelView, label_view

WIDTH: Final = 80


def explain(loaded: Loaded, recipe: str, mixture: str | None, *, as_data: bool) -> None:
    """Print how each mixture's label came about; `Refusal` for a mixture that the recipe does not have."""
    computed, slug = of_recipe(recipe, loaded)
    asked = computed.archive.recipe_named[slug]
    mixtures = (wanted(asked, mixture),) if mixture else asked.mixtures
    find = labels_of(computed)
    found = [(m, find(m.id)) for m in mixtures if m.id in computed.strengths]
    if as_data:
        answer({"recipe": slug, "mixtures": [_json(m, labelled) for m, labelled in found]})
    else:
        click.echo("\n\n".join(explained(m.name, m.local, label_view(labelled)) for m, labelled in found))


def explained(name: str, local: str, view: LabelView) -> str:
    """One mixture's reasoning as text, no line longer than 80 signs."""
    return "\n".join(_lines(name, local, view))


def _lines(name: str, local: str, view: LabelView) -> Iterator[str]:
    yield from _wrapped(f"{name} ({local})")
    yield from _printed(view)
    yield from _gaps(view)
    parts = ", ".join(f"{part} {share}" for part, share in view.parts)
    yield from _wrapped(f"percent by weight: {parts or 'nothing that counts'}. How known: {view.basis}.", 2)
    yield from _reasoning(view)
    yield from _wrapped(view.notice, 2)


def _printed(view: LabelView) -> Iterator[str]:
    """What stands on the label."""
    signs = ", ".join(sign.code for sign in view.signs)
    yield from _wrapped(f"{view.answer}{f': {view.signal}' if view.signal else ''}{f' ({signs})' if signs else ''}", 2)
    if view.answer == "not classified":
        yield from _wrapped(view.not_safe, 2)
    for text in (*view.h, *view.euh):
        yield from _wrapped(f"{text.code} {text.text}", 2)


def _gaps(view: LabelView) -> Iterator[str]:
    for line in view.unknown:
        yield from _wrapped(f"not known of {line}", 2)
    if view.changes:
        yield from _wrapped(CHANGES, 2)
    for line in view.changes:
        yield from _wrapped(f"- {line}", 4)


def _reasoning(view: LabelView) -> Iterator[str]:
    for family in view.families:
        yield from _wrapped(f"{family.name}: {family.answer}", 2)
        for sentence in family.sentences:
            yield from _wrapped(f"- {sentence}", 4)
    for one in view.open:
        yield from _wrapped(f"not enough data ({'; '.join(one.lacks)}) to tell of: {'; '.join(one.names)}", 2)
    if view.quiet:
        yield from _wrapped(f"no class of an ingredient falls under: {'; '.join(view.quiet)}", 2)
    for reading in view.readings:
        yield from _wrapped(f"another reading: {reading}", 2)
    if view.sprayed:
        yield from _wrapped(f"if a mist of it is breathed: {', '.join(view.sprayed)}", 2)


def _wrapped(text: str, indent: int = 0) -> list[str]:
    return wrap(text, WIDTH, initial_indent=" " * indent, subsequent_indent=" " * (indent + 2))


def _json(mixture: Mixture, labelled: Labelled) -> dict[str, Any]:
    label, view = labelled.label, label_view(labelled)
    return {
        "id": mixture.local,
        "name": mixture.name,
        "answer": label.answer,
        "signal": label.signal,
        "pictograms": [{"code": p.code, "causes": list(p.causes)} for p in label.pictograms],
        "left off": [{"what": h.what, "cause": h.cause, "by": h.by} for h in label.hidden],
        "statements": [{"code": t.code, "text": t.text} for t in (*label.h, *label.euh)],
        "precautions": [{"code": t.code, "text": t.text} for t in label.p],
        "not known": list(view.unknown),
        "composition changes": list(view.changes),
        "percent by weight": [{"of": part, "share": share} for part, share in view.parts],
        "basis": labelled.basis,
        "estimate": labelled.estimate,
        "findings": [_finding(f) for f in label.findings],
        "notice": label.notice,
    }


def _finding(finding: Finding) -> dict[str, Any]:
    return {
        "family": finding.family,
        "answer": finding.answer,
        "classes": [c.hazard.text for c in finding.classified],
        "lacks": [{"of": lack.ingredient, "what": lack.what} for lack in finding.lacks],
        "reasons": [_reason(r) for r in finding.reasons],
        "other readings": list(finding.readings),
    }


def _reason(reason: Reason) -> dict[str, Any]:
    return {
        "rule": reason.rule,
        "sum of": list(reason.terms),
        "value": None if reason.value is None else exact_text(reason.value),
        "unit": reason.unit,
        "threshold": reason.threshold,
        "result": reason.result,
        "source": reason.source,
    }
