"""A mixture as its section on a page shows it: what to weigh, in mixing order, at the size as written."""

from collections.abc import Iterable
from dataclasses import dataclass

from markupsafe import Markup

from sitegen.compute.plan import Target
from sitegen.compute.scale import BASE_UNIT, ScaledLine
from sitegen.compute.strength import Strength
from sitegen.model.quantity import exact_text
from sitegen.model.recipe import Line, Mixture, Recipe
from sitegen.render.frame import Frame
from sitegen.render.label_view import LabelView, label_view
from sitegen.render.links import mixture_anchor, relative, substance_path
from sitegen.render.markdown import Voice, render
from sitegen.render.spent import capacity_words
from sitegen.render.wording import Measure, measure_of, written_apart


@dataclass(frozen=True, slots=True, kw_only=True)
class LineView:
    """One row: `measure` is None where nothing is measured, and `written` says what is done instead."""

    key: str
    name: str
    way: str
    measure: Measure | None
    exact: str
    written: str
    """The author's words, '' where the measure says the same."""
    why: str
    notes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StrengthView:
    """How much of one substance the finished mixture holds."""

    name: str
    way: str
    shown: tuple[str, ...]
    estimate: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MixtureView:
    """One section; `owner` is the other recipe a foreign mixture comes from."""

    id: str
    anchor: str
    mixture: Mixture
    owner: Recipe | None
    makes: Measure
    base: str
    nominal: bool
    estimate: bool
    lines: tuple[LineView, ...]
    strengths: tuple[StrengthView, ...]
    mixing: tuple[Markup, ...]
    note: Markup
    capacity: str
    label: LabelView


def needed(targets: Iterable[Target]) -> tuple[str, ...]:
    """Ids of every mixture that any target needs, each before what it goes into."""
    return tuple(dict.fromkeys(m.id for target in targets for m in target.mixtures))


def mixture_views(recipe: Recipe, frame: Frame, page: str) -> tuple[MixtureView, ...]:
    """The sections of a recipe's page, in mixing order, foreign sub-mixtures among them."""
    ids = needed(frame.computed.targets[recipe.slug])
    return tuple(_view(i, recipe, frame, page, frozenset(ids)) for i in ids)


def _view(wanted: str, recipe: Recipe, frame: Frame, page: str, shown: frozenset[str]) -> MixtureView:
    archive = frame.computed.archive
    owner = archive.recipe_named[wanted.partition("/")[0]]
    mixture, scaled = archive.mixtures[wanted], frame.written(wanted)
    voice = Voice(archive=archive, written=frame.written, page=page, recipe=owner, shown=recipe.slug, mixtures=shown)
    nominal = next(t.nominal for t in frame.computed.targets[owner.slug] if t.id == wanted)
    asked = {line.key: line for line in mixture.lines}
    return MixtureView(
        id=wanted,
        anchor=mixture_anchor(wanted, recipe.slug),
        mixture=mixture,
        owner=None if owner is recipe else owner,
        makes=measure_of(scaled.shown),
        base=scaled.plan.base,
        nominal=nominal,
        estimate=scaled.plan.estimate,
        lines=tuple(_line(line, asked[line.line.key], recipe, frame, page) for line in scaled.lines),
        strengths=tuple(_strength(s, frame, page) for s in frame.computed.strengths[wanted]),
        mixing=tuple(render(prose, voice) for prose in mixture.mixing),
        note=render(mixture.note, voice, heading=4),
        capacity=capacity_words(mixture),
        label=label_view(frame.labels(wanted)),
    )


def _line(scaled: ScaledLine, asked: Line, recipe: Recipe, frame: Frame, page: str) -> LineView:
    line = scaled.line
    measure = measure_of(scaled.shown) if scaled.shown else None
    return LineView(
        key=line.key,
        name=line.name,
        way=_way(line.of, recipe, frame, page),
        measure=measure,
        exact=exact_amount(scaled),
        written=written_apart(asked, scaled.shown) if scaled.shown else line.written,
        why=asked.why,
        notes=tuple(note.text() for note in scaled.notes if measure or note.code != "words"),
    )


def exact_amount(scaled: ScaledLine) -> str:
    """The amount before rounding, in base units; '' where nothing is measured."""
    if scaled.line.kind == "words":
        return ""
    low, high = exact_text(scaled.low), exact_text(scaled.high)
    return f"{low if low == high else f'{low}–{high}'} {BASE_UNIT[scaled.line.kind]}"


def _way(of: str, recipe: Recipe, frame: Frame, page: str) -> str:
    """To the section of a mixture on this page, or to the page of a substance."""
    card = frame.computed.archive.substance_of.get(of)
    return relative(page, substance_path(card.id)) if card else "#" + mixture_anchor(of, recipe.slug)


def _strength(strength: Strength, frame: Frame, page: str) -> StrengthView:
    card = frame.computed.archive.substance_of[strength.of]
    return StrengthView(
        name=strength.name,
        way=relative(page, substance_path(card.id)),
        shown=strength.shown,
        estimate=strength.estimate,
    )
