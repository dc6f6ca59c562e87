"""Scaling: a plan, a question and the author's measures give every amount to weigh and pour."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.compute.ask import Question, Sheets, factor_of
from sitegen.compute.notes import Note, notes_on
from sitegen.compute.plan import PlanLine, PlanMixture, Target
from sitegen.compute.rounding import Kind, Ladder, Shown, System, ladders, show
from sitegen.model.archive import Measuring
from sitegen.model.quantity import exact_text

BASE_UNIT: Final[dict[Kind, str]] = {"mass": "g", "volume": "ml", "drops": "drops", "pieces": "pieces"}


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaledLine:
    """One ingredient: `low` and `high` are exact base units, `shown` is what to measure (None for words)."""

    line: PlanLine
    low: Fraction
    high: Fraction
    shown: Shown | None
    notes: tuple[Note, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaledMixture:
    """One batch at the size asked for; `makes` in ml or g (or g of its base)."""

    plan: PlanMixture
    makes: Fraction
    shown: Shown
    lines: tuple[ScaledLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scaled:
    """The answer: batches in mixing order, the wanted one last."""

    target: Target
    factor: Fraction
    mixtures: tuple[ScaledMixture, ...]
    warnings: tuple[str, ...]


def scale(
    target: Target,
    question: Question,
    measuring: Measuring,
    *,
    system: System = "metric",
    warnings: tuple[str, ...] = (),
) -> Scaled:
    """Answer a question about one mixture; `warnings` are those of the recipe itself.

    `Refusal` when it cannot be answered.
    """
    factor = factor_of(question, target)
    said = (*warnings_on(question, target), *warnings)
    return Scaled(target=target, factor=factor, mixtures=_mixtures(target, factor, measuring, system), warnings=said)


def as_written(target: Target, measuring: Measuring) -> Scaled:
    """The recipe at the size its author wrote it for, or at the nominal size where none was written."""
    one = Fraction(1)
    return Scaled(target=target, factor=one, mixtures=_mixtures(target, one, measuring, "metric"), warnings=())


def warnings_on(question: Question, target: Target, *, named: bool = False) -> tuple[str, ...]:
    """What is to be minded of an answer; `named` where it stands among the answers to other questions."""
    range_ = _coverage_range(question, target, f"{target.name}: " if named else "")
    return (*range_, *_estimates(target), *([target.again] if target.again else []))


def scaled_mixture(plan: PlanMixture, factor: Fraction, measuring: Measuring, system: System) -> ScaledMixture:
    """One batch at so many times its plan."""
    steps = ladders(measuring)[system]
    makes = plan.makes * factor
    size: Kind = "volume" if plan.size == "volume" else "mass"
    lines = tuple(_line(line, factor, measuring, steps) for line in plan.lines)
    return ScaledMixture(plan=plan, makes=makes, shown=show(makes, makes, steps[size]), lines=lines)


def _mixtures(target: Target, factor: Fraction, measuring: Measuring, system: System) -> tuple[ScaledMixture, ...]:
    return tuple(scaled_mixture(plan, factor, measuring, system) for plan in target.mixtures)


def _line(line: PlanLine, factor: Fraction, measuring: Measuring, steps: Mapping[Kind, Ladder]) -> ScaledLine:
    low, high = line.low * factor, line.high * factor
    shown = None if line.kind == "words" else show(low, high, steps[line.kind])
    return ScaledLine(line=line, low=low, high=high, shown=shown, notes=notes_on(line, factor, measuring))


def _coverage_range(question: Question, target: Target, lead: str) -> tuple[str, ...]:
    if not isinstance(question, Sheets):
        return ()
    low, high = question.coverage.base() if question.coverage else target.coverage or (Fraction(0), Fraction(0))
    if low == high:
        return ()
    return (f"{lead}coverage is {exact_text(low)}–{exact_text(high)} ml/m²: this is mixed for the upper end",)


def _estimates(target: Target) -> tuple[str, ...]:
    return tuple(
        f"{mixture.name}: its volume is an estimate, since volumes do not add up exactly"
        for mixture in target.mixtures
        if mixture.estimate
    )
