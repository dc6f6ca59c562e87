"""Trials, worked out: by how much a figure was changed, how old a batch was, and whether old stock is suspected.

A batch's age is that on the day of the trial. Of a keeping time that is a range, the shorter end counts.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final

from sitegen.compute.rounding import Shown, ladders, show
from sitegen.compute.use_by import use_by
from sitegen.model.amount import Absolute, Amount, FillUp, OfBase, Parts, Percent
from sitegen.model.archive import Archive, Measuring
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Cause
from sitegen.model.trial import Batch, Trial

Ends = tuple[Fraction, Fraction]
_DAY: Final = 1440
"""Minutes of a day."""


def ends_of(figure: Amount | Quantity | None) -> Ends | None:
    """The figure in the base unit of its kind, low and high; None where it has none."""
    match figure:
        case Quantity():
            return figure.base()
        case Absolute(quantity=quantity) | FillUp(quantity=quantity):
            return quantity.base()
        case Parts(count=count):
            return count, count
        case Percent(low=low, high=high) | OfBase(low=low, high=high):
            return low, high
        case _:
            return None


def change_in_percent(was: Amount | Quantity | None, then: Amount | Quantity) -> Ends | None:
    """By how much percent the low and the high end were changed, exactly; None where that is not known.

    Temperatures are left out: percent of a degree mean nothing.
    """
    before, after = ends_of(was), ends_of(then)
    if before is None or after is None or min(before) <= 0:
        return None
    if isinstance(then, Quantity) and then.dimension == "temperature":
        return None
    low, high = ((new - old) / old * 100 for old, new in zip(before, after, strict=True))
    return low, high


def measured(amount: Amount, measuring: Measuring) -> Shown | None:
    """A weighed, measured or counted amount, rounded to the author's measures; None for all others."""
    if not isinstance(amount, Absolute | FillUp):
        return None
    kinds = ladders(measuring)["metric"]
    ladder = next((rungs for kind, rungs in kinds.items() if kind == amount.quantity.dimension), None)
    return show(*amount.quantity.base(), ladder) if ladder else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Age:
    """A batch on the day of a trial. `past` is None where the day alone does not tell, or nothing is known."""

    batch: Batch
    name: str
    days: int
    keeps: Quantity | None
    end: date | None
    """The last day of the shorter keeping time."""
    past: bool | None


def ages(trial: Trial, archive: Archive) -> tuple[Age, ...]:
    """Every batch that was used, by how old it was."""
    return tuple(_age(batch, trial.date, archive) for batch in trial.batches)


def _age(batch: Batch, day: date, archive: Archive) -> Age:
    mixture = archive.mixtures.get(batch.mixture)
    keeps = mixture.keeps if mixture else None
    days = (day - batch.code.mixed).days
    end = use_by(batch.code.mixed, keeps).soonest if keeps else None
    return Age(
        batch=batch,
        name=mixture.name if mixture else batch.code.mixture,
        days=days,
        keeps=keeps,
        end=end,
        past=day > end if end else _past_hours(days, keeps),
    )


def _past_hours(days: int, keeps: Quantity | None) -> bool | None:
    """Whether it is surely past a keeping time of hours: it is younger than its days by up to one day."""
    if keeps is None:
        return None
    shortest = keeps.base()[0]
    if shortest < (days - 1) * _DAY:
        return True
    return False if shortest >= (days + 1) * _DAY else None


def blamed(trial: Trial, archive: Archive) -> tuple[Age, ...]:
    """The batches past their keeping, where the trouble that was seen may come from old stock."""
    trouble = next((t for t in archive.recipe_named[trial.recipe].troubles if t.id == trial.trouble), None)
    causes = trouble.causes if trouble else ()
    return tuple(age for age in ages(trial, archive) if age.past and any(_fits(c, age, trial) for c in causes))


def _fits(cause: Cause, age: Age, trial: Trial) -> bool:
    return cause.old_stock == "yes" or age.batch.mixture == f"{trial.recipe}/{cause.old_stock}"


def moved_on(archive: Archive) -> Iterator[Trial]:
    """Entries of a revision that their recipe has left behind, but for those that became a revision themselves."""
    for trial in archive.trials:
        current = archive.recipe_named[trial.recipe].revision
        if trial.revision < current and trial.became is None:
            yield trial
