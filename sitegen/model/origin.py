"""Origin: where a recipe comes from, which it varies, and what its revisions changed."""

from dataclasses import dataclass
from typing import Literal

from sitegen.model.amount import Amount
from sitegen.model.quantity import Quantity
from sitegen.problems import Span

Relation = Literal["own", "after", "adapted from", "inspired by"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Credit:
    """Where a recipe comes from."""

    work: str
    relation: Relation
    licence: str = ""
    address: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """A mixture of this recipe and the parent's that it stands for, by their local ids."""

    own: str
    parent: str
    own_at: Span
    parent_at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Parent:
    """The recipe this one varies, and what was changed."""

    recipe: str
    changes: str
    compare: tuple[Met, ...] = ()
    """Mixtures that are compared though neither their ids nor their names are the same."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountBefore:
    """An amount as it was before a revision. `target` names the line as an `amount:` link does."""

    target: str
    was: Amount | None
    """None where the ingredient was not there."""
    named_at: Span
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeBefore:
    """A step's time as it was before a revision. `target` is the step: `Expose/1`."""

    target: str
    was: Quantity | None
    """None where the step had no time."""
    named_at: Span
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What a revision changed, in the author's words, with the figures as they were before it."""

    revision: int
    what: str
    corrects: str = ""
    """The mistake that sheets of the revisions before it hold; '' where they held none."""
    amounts: tuple[AmountBefore, ...] = ()
    times: tuple[TimeBefore, ...] = ()
    at: Span

    @property
    def told(self) -> str:
        """What changed, and what was wrong before: for those who have a sheet of it."""
        return f"{self.what} Sheets printed before it hold a mistake: {self.corrects}" if self.corrects else self.what
