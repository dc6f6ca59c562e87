"""Sheet age: what a printed sheet of a revision is today, current, corrected or superseded, from a recipe's `changes`.

Only what the author wrote down is known: a revision that names no mistake in the sheets before it leaves them
superseded, not wrong. How it is said and looked up is `render/sheets_page` and `assets/sheets.js`.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sitegen.model.origin import Change
from sitegen.model.recipe import Recipe

Standing = Literal["current", "corrected", "superseded"]
"""`corrected`: a later revision put a mistake right that sheets of this one hold."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revisions:
    """Revisions whose sheets stand alike, `first` to `last`; `change` is what a single one of them changed."""

    first: int
    last: int
    standing: Standing
    change: Change | None = None


def revisions(recipe: Recipe) -> tuple[Revisions, ...]:
    """All revisions of a recipe, the newest first; neighbours of which nothing is written down are one."""
    written = {change.revision: change for change in recipe.changes}
    return tuple(
        Revisions(first=first, last=last, standing=_standing(recipe, last), change=written.get(last))
        for first, last in _runs(recipe.revision, sorted({*written, recipe.revision}, reverse=True))
    )


def _runs(newest: int, named: list[int]) -> Iterator[tuple[int, int]]:
    """Each named revision by itself, and the runs between them, downwards from the newest."""
    last = newest
    for revision in named:
        if revision < last:
            yield revision + 1, last
        yield revision, revision
        last = revision - 1
    if last:
        yield 1, last


def _standing(recipe: Recipe, revision: int) -> Standing:
    if revision == recipe.revision:
        return "current"
    wrong = any(change.corrects and change.revision > revision for change in recipe.changes)
    return "corrected" if wrong else "superseded"
