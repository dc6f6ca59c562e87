"""The page that tells the age of a printed sheet: every code of the edition with its revisions and what they changed.

It reads by hand; `assets/sheet-age.js` answers from its rows. What the edition lacks is not on it, and so is
answered like a code that never was.
"""

from dataclasses import dataclass
from itertools import groupby
from typing import Final

from sitegen.compute.sheet_age import Revisions, revisions
from sitegen.model.recipe import Recipe
from sitegen.render.frame import Frame
from sitegen.render.links import SHEETS
from sitegen.render.page import Page

ANCHORED: Final = 30
"""Revisions of a run that have an anchor of their own, the newest: a run may be as long as its author likes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Revisions that stand alike. `anchors` are ids for those that share the row."""

    run: Revisions
    anchors: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """A recipe and its revisions, the newest first."""

    recipe: Recipe
    rows: tuple[Row, ...]


def sheet_age_page(frame: Frame) -> Page:
    """The page of the edition, by code."""
    recipes = sorted(frame.computed.archive.recipes, key=lambda r: r.code)
    series = {next(group).code: name for name, group in groupby(recipes, key=lambda r: r.code.partition("-")[0])}
    return frame.page(
        "sheet-age.html",
        SHEETS,
        title="Is my printed sheet current?",
        histories=tuple(_history(recipe) for recipe in recipes),
        series=series,
        newest=max(recipes, key=lambda r: r.revised, default=None),
        example=max(recipes, key=lambda r: (r.revision, r.code), default=None),
    )


def _history(recipe: Recipe) -> History:
    rows = []
    for run in revisions(recipe):
        shared = range(run.last, max(run.first, run.last - ANCHORED + 1) - 1, -1)
        rows.append(Row(run=run, anchors=tuple(f"{recipe.code}.{n}" for n in shared)))
    return History(recipe=recipe, rows=tuple(rows))
