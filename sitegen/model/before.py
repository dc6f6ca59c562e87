"""Before: figures as they were before a revision, found in the recipe as it is, and what they became.

A recipe writes only what was. What it became is what the next revision that touches the figure found, else what the
recipe says today. How much it is more or less is `compute.revisions`.
"""

from dataclasses import dataclass

from sitegen.model.amount import Amount
from sitegen.model.archive import Archive
from sitegen.model.origin import Change
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Line, Mixture, Recipe
from sitegen.model.reference import resolve_amount
from sitegen.model.steps import find_one_step
from sitegen.problems import Refusal, Span


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountTurn:
    """An amount before and after a revision; None where the ingredient was not there."""

    mixture: Mixture
    line: Line
    was: Amount | None
    then: Amount | None
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeTurn:
    """The time of a step (counted from 1) before and after a revision; None where it had none."""

    stage: str
    step: int
    was: Quantity | None
    then: Quantity | None
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """A change with the figures that it says of before."""

    change: Change
    amounts: tuple[AmountTurn, ...]
    times: tuple[TimeTurn, ...]


def turns(recipe: Recipe, archive: Archive) -> tuple[Turn, ...]:
    """The recipe's changes, the newest first. `Refusal` when a name means nothing, which the check says."""
    amounts: dict[tuple[str, str], Amount | None] = {}
    times: dict[tuple[int, int], Quantity | None] = {}
    return tuple(
        Turn(
            change=change,
            amounts=_amounts(change, recipe, archive, amounts),
            times=_times(change, recipe, times),
        )
        for change in sorted(recipe.changes, key=lambda c: c.revision, reverse=True)
    )


def _amounts(
    change: Change, recipe: Recipe, archive: Archive, later: dict[tuple[str, str], Amount | None]
) -> tuple[AmountTurn, ...]:
    """The change's amounts; `later` holds what the revisions after it found, and then what this one did."""
    found = []
    for before in change.amounts:
        mixture, line = amount_named(before.target, recipe, archive)
        key = mixture.id, line.key
        then = later.get(key, line.amount)
        found.append(AmountTurn(mixture=mixture, line=line, was=before.was, then=then, at=before.at))
        later[key] = before.was
    return tuple(found)


def _times(change: Change, recipe: Recipe, later: dict[tuple[int, int], Quantity | None]) -> tuple[TimeTurn, ...]:
    found = []
    for before in change.times:
        key = find_one_step(before.target, stages_of(recipe))
        stage = recipe.stages[key[0] - 1]
        then = later.get(key, stage.steps[key[1] - 1].lasts)
        found.append(TimeTurn(stage=stage.title, step=key[1], was=before.was, then=then, at=before.at))
        later[key] = before.was
    return tuple(found)


def stages_of(recipe: Recipe) -> tuple[tuple[str, int], ...]:
    """The recipe's stages with how many steps each has, for their names."""
    return tuple((stage.title, len(stage.steps)) for stage in recipe.stages)


def amount_named(target: str, recipe: Recipe, archive: Archive) -> tuple[Mixture, Line]:
    """The line that a name means, as an `amount:` link would. `Refusal` when it means none, several, or a mixture."""
    ref = resolve_amount(recipe, archive, target)
    mixture = archive.mixtures[ref.mixture]
    if ref.line is None:
        raise Refusal(
            "unknown-amount",
            f"`{target}` is a mixture; what it is made of has amounts",
            f"name one ingredient of it: `{target}/{mixture.lines[0].key}`",
        )
    return mixture, next(line for line in mixture.lines if line.key == ref.line)
