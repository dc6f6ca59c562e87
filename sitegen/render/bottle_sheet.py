"""Sheets of bottle labels: PDF/UA-1 from `labels.typ`, each label in the fullest way that fits its size.

Nothing is cut: a label that does not fit at the least legible type size is refused, and the message names the
common size that would do. Type is never smaller than an x-height of 0.9 mm, on labels of 80 cm² and more 1.2 mm:
Regulation (EU) 1169/2011, Article 13, taken here for want of a rule for a studio's bottles.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from fractions import Fraction
from functools import partial
from itertools import groupby
from math import sqrt
from typing import Any, Final

from sitegen.check.pairs.kitchen import keeps_longer
from sitegen.check.pairs.table import table
from sitegen.compute.whole import Computed
from sitegen.labels.tables import tables
from sitegen.model.recipe import Mixture, Recipe
from sitegen.problems import Refusal
from sitegen.read.theme import Theme
from sitegen.render.bottle_label import BottleLabel, bottle_label
from sitegen.render.keeping import ANEW, Keeping
from sitegen.render.label_grid import Grid, common
from sitegen.render.page import Page
from sitegen.render.typesetting import EPOCH, TYPST_PAPER, Json, ask, set_pdf

STEPS: Final = (10.0, 9.0, 8.0, 7.0, 6.0)
"""Type sizes in points, the largest first; 6 pt has an x-height of 0.91 mm, 8 pt of 1.21 mm."""
LEAST: Final = 6.0
LEAST_LARGE: Final = 8.0
LARGE: Final = 8000
"""mm² from which a label is large."""
SMALL: Final = 74 * 105
"""mm² below which the small-package rule may shorten the hazard text; the standard's label of a canister holds all."""
SIGN: Final = 100
"""mm² of a pictogram at least (CLP Annex I 1.2.1.4); wanted is a fifteenth of the label."""
_DATA: Final = "labels.json"


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A label with its grid and the way it is set there."""

    label: BottleLabel
    grid: Grid
    way: Mapping[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fill:
    """So many copies of each label, from this place (counted from 1) of the first sheet of each grid."""

    copies: int = 1
    first: int = 1


def kept(recipe: Recipe) -> tuple[Mixture, ...]:
    """The mixtures that are bottled: those that keep longer than a session."""
    return tuple(m for m in recipe.mixtures if m.keeps and keeps_longer(m, table().session))


def label_pages(computed: Computed, theme: Theme, keeping: Keeping = ANEW) -> Iterator[Page]:
    """`labels.pdf` of every recipe with something to bottle: one label each, without a day, all words on it."""
    for recipe in computed.archive.recipes:
        yield from keeping.of_recipe("labels", recipe, partial(_of_recipe, computed, theme, recipe))


def _of_recipe(computed: Computed, theme: Theme, recipe: Recipe) -> Iterator[Page]:
    labels = tuple(bottle_label(computed, m, None) for m in kept(recipe) if m.id in computed.strengths)
    if labels:
        sizes = tuple(g for g in common("a4") if g.width >= 70)
        placed = place(labels, sizes, theme.print, shorten=False)
        content = labels_pdf(computed, recipe, placed, theme.print)
        yield Page(path=f"recipes/{recipe.slug}/labels.pdf", content=content)


def place(
    labels: Sequence[BottleLabel], sizes: Sequence[Grid], files: Mapping[str, bytes], *, shorten: bool
) -> tuple[Placed, ...]:
    """Each label in the first of the sizes that it fits; `shorten` applies the small-package rule to small ones.

    `Refusal` (`label-too-small`) for a label that fits none, with the size that would do.
    """
    found = _fits(labels, sizes, files, shorten=shorten)
    placed = []
    for label, fit in zip(labels, found, strict=True):
        if fit is None:
            raise _too_small(label, sizes, files)
        placed.append(Placed(label=label, grid=sizes[fit["size"]], way=fit["way"]))
    return tuple(placed)


def _too_small(label: BottleLabel, sizes: Sequence[Grid], files: Mapping[str, bytes]) -> Refusal:
    largest = max(sizes, key=lambda g: g.area)
    larger = tuple(g for g in common() if g.area > largest.area)
    fit = _fits((label,), larger, files, shorten=True)[0] if larger else None
    remedy = (
        f"it fits `--size {larger[fit['size']].name}` on {larger[fit['size']].paper.title()} paper"
        if fit
        else "shorten the mixture's name or the archive's studio; no common label is larger"
    )
    return Refusal(
        "label-too-small",
        f"the label of `{label.id}` does not fit {largest.name} mm at the smallest legible type size",
        remedy,
        ("nothing is left out: pictograms keep their size, severe statements their words",),
    )


def _fits(
    labels: Sequence[BottleLabel], sizes: Sequence[Grid], files: Mapping[str, bytes], *, shorten: bool
) -> list[dict[str, Any] | None]:
    data: dict[str, Json] = {
        "language": "en",
        "labels": [_fields(label) for label in labels],
        "signs": _signs(labels),
        "steps": list(STEPS),
        "sizes": [_size(grid, shorten=shorten) for grid in sizes],
    }
    return ask({**files, "main.typ": files["fit.typ"]}, {_DATA: data}, "fit")


def _size(grid: Grid, *, shorten: bool) -> dict[str, Any]:
    wanted = max(float(SIGN), float(grid.area) / 15)
    return {
        "width": float(grid.width),
        "height": float(grid.height),
        "levels": 3 if shorten and grid.area < SMALL else 1,
        "least": LEAST_LARGE if grid.area >= LARGE else LEAST,
        "signs": list(dict.fromkeys((round(sqrt(2 * wanted), 2), round(sqrt(2 * SIGN), 2)))),
    }


def labels_pdf(
    computed: Computed,
    recipe: Recipe,
    placed: Sequence[Placed],
    files: Mapping[str, bytes],
    *,
    fill: Fill | None = None,
) -> bytes:
    """The sheets, one grid after the other, the smaller labels first."""
    fill = fill or Fill()
    settings = computed.archive.settings
    labels = [one.label for one in placed]
    lots = []
    for grid, group in groupby(sorted(placed, key=lambda one: one.grid.area), key=lambda one: one.grid):
        filled = [{"of": labels.index(one.label), "way": dict(one.way)} for one in group for _ in range(fill.copies)]
        lots.append(_lot(grid, [None] * (fill.first - 1) + filled))
    data: dict[str, Json] = {
        "title": f"{recipe.code} {recipe.title}: bottle labels",
        "studio": settings.studio,
        "language": "en",
        "labels": [_fields(label) for label in labels],
        "signs": _signs(labels),
        "lots": lots,
        "lacking": "",
    }
    dated = (recipe.revised.toordinal() - EPOCH) * 86_400
    return set_pdf({**files, "main.typ": files["labels.typ"]}, {_DATA: data}, dated)


def _lot(grid: Grid, content: Sequence[Any]) -> dict[str, Any]:
    each = grid.columns * grid.rows
    sides: dict[str, Fraction] = {
        "width": grid.width,
        "height": grid.height,
        "left": grid.left,
        "top": grid.top,
        "across": grid.across,
        "down": grid.down,
    }
    return {
        "grid": {
            "paper": TYPST_PAPER[grid.paper],
            "columns": grid.columns,
            **{name: float(side) for name, side in sides.items()},
        },
        "pages": [list(content[n : n + each]) for n in range(0, len(content), each)],
        "outline": True,
    }


def _fields(label: BottleLabel) -> dict[str, Any]:
    return {name.replace("_", "-"): value for name, value in asdict(label).items()}


def _signs(labels: Sequence[BottleLabel]) -> list[tuple[str, str, str]]:
    drawings = tables().drawings
    codes = sorted({code for label in labels for code in label.signs})
    return [(code, drawings[code].alt, drawings[code].svg()) for code in codes]
