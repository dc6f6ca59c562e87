"""Revisions: how much more or less a figure became by a revision, or was in a trial.

What was and what it became is `model.before`; a trial brings both itself.
"""

from dataclasses import dataclass

from sitegen.compute.difference import Difference, of_amounts, of_quantities
from sitegen.model.amount import Amount
from sitegen.model.archive import Archive
from sitegen.model.before import turns
from sitegen.model.origin import Change
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Line, Recipe


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountChange:
    """An amount before and after; None where the ingredient was not there. `name` says of what."""

    name: str
    was: Amount | None
    then: Amount | None
    difference: Difference


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureChange:
    """A step's time (or a coverage, a temperature) before and after; None where there was none."""

    name: str
    was: Quantity | None
    then: Quantity | None
    difference: Difference


@dataclass(frozen=True, slots=True, kw_only=True)
class Revised:
    """One entry of `changes` with its figures."""

    change: Change
    rows: tuple[AmountChange | FigureChange, ...]


def amount_change(name: str, was: Amount | None, then: Amount | None) -> AmountChange:
    """What differs between two amounts of one thing, for whoever has both."""
    return AmountChange(name=name, was=was, then=then, difference=of_amounts(was, then))


def figure_change(name: str, was: Quantity | None, then: Quantity | None) -> FigureChange:
    """What differs between two times, coverages or temperatures of one thing, for whoever has both."""
    return FigureChange(name=name, was=was, then=then, difference=of_quantities(was, then))


def revisions(recipe: Recipe, archive: Archive) -> tuple[Revised, ...]:
    """The recipe's changes, the newest first, each with the figures it says of before."""
    return tuple(
        Revised(
            change=turn.change,
            rows=(
                *(amount_change(f"{called(a.line, archive)} in {a.mixture.name}", a.was, a.then) for a in turn.amounts),
                *(figure_change(f"{t.stage}, step {t.step}, time", t.was, t.then) for t in turn.times),
            ),
        )
        for turn in turns(recipe, archive)
    )


def called(line: Line, archive: Archive) -> str:
    """What a line is of, by its name."""
    return archive.mixtures[line.mixture].name if line.mixture else archive.forms[line.form].name
