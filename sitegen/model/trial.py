"""Trials: the journal's entries. What was done to which revision of a recipe, and how it came out.

What an edition's readers may see of one is `trial_edition`; ages of batches and percents of change are `compute`.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final, Literal

from sitegen.model.amount import Amount
from sitegen.model.batch_code import BatchCode
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Picture, Prose
from sitegen.problems import Span

Verdict = Literal["worked", "failed", "open"]
VERDICTS: Final[Mapping[Verdict, str]] = {"failed": "failed", "open": "not decided", "worked": "worked"}
"""What a verdict is called, failures first: they are what a journal is searched for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedAmount:
    """One amount that was other than the recipe's. `target` is how the author named it.

    `mixture` (`recipe/mixture`) and `key` name the line as it stands today; both are '' where it stands no longer.
    `was` is what the tried revision says, None where that is not known any more.
    """

    target: str
    mixture: str
    key: str
    was: Amount | None
    then: Amount
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangedFigure:
    """A time of a step (`target` as `Expose/1`) or a mixture's coverage (its local id), other than the recipe's.

    `edition` is that of the stage, where it has one of its own (of a stage that is gone, the narrowest that it may have
    had); `stands` is whether the recipe has it today.
    """

    target: str
    was: Quantity | None
    then: Quantity
    edition: str = ""
    stands: bool = True
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Conditions:
    """What the trial was made with and in; humidity in percent."""

    paper: str = ""
    lamp: str = ""
    temperature: Quantity | None = None
    humidity: tuple[Fraction, Fraction] | None = None
    water: str = ""
    """In words; '' where it is one of the archive's waters."""
    place: str = ""
    """The id of the archive's water that it was."""
    other: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """A bottle that was used. `mixture` is `recipe/mixture`, or '' where the recipe has it no longer."""

    code: BatchCode
    recipe: str
    mixture: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """One entry of the journal; `slug` is its file's name, which begins with its day."""

    slug: str
    title: str
    recipe: str
    revision: int
    date: date
    edition: str = ""
    """Who may see it, where that is narrower than the recipe's own edition."""
    aim: Prose | None = None
    amounts: tuple[ChangedAmount, ...] = ()
    times: tuple[ChangedFigure, ...] = ()
    coverage: tuple[ChangedFigure, ...] = ()
    other: tuple[str, ...] = ()
    """What else was done otherwise, in words."""
    conditions: Conditions = Conditions()
    batches: tuple[Batch, ...] = ()
    image: Picture | None = None
    outcome: Prose
    verdict: Verdict
    suspected: str = ""
    trouble: str = ""
    """The id of a trouble of the recipe that it shows."""
    solved_by: str = ""
    """The slug of the entry in which it was got right."""
    became: int | None = None
    """The revision of the recipe that took it over."""
    at: Span


def newest_first(trials: "tuple[Trial, ...]") -> "tuple[Trial, ...]":
    """Entries by their day, the last first; the slug settles a day of several."""
    return tuple(sorted(trials, key=lambda t: (t.date, t.slug), reverse=True))
