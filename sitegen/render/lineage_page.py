"""What a recipe's page says of its descent: beside its parent, its earlier revisions, and a process's family tree."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from sitegen.compute.composition import Basis
from sitegen.compute.difference import Difference
from sitegen.compute.lineage import Compared, Lineage, lineage
from sitegen.compute.lineage_work import work
from sitegen.compute.revisions import AmountChange, revisions
from sitegen.model.archive import Process
from sitegen.model.recipe import Recipe
from sitegen.render.frame import Frame
from sitegen.render.links import process_path
from sitegen.render.page import Page
from sitegen.render.trial_words import amount_words
from sitegen.render.wording import NO_BREAK, spoken

ABSENT: Final = {"added": "not in the parent", "left out": "left out"}
_BASIS: Final[dict[Basis, str]] = {
    "litre": "In one litre", "kilogram": "In one kilogram", "base": "For 100 g of", "parts": "In 100 parts",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeRow:
    """A figure before and after a revision, in words."""

    name: str
    was: str
    then: str
    by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Kin:
    """A recipe in a family tree. `foreign` is the process it belongs to, where that is another."""

    recipe: Recipe
    children: tuple["Kin", ...]
    foreign: Process | None
    telling: tuple[str, ...]
    """The figures that differ most from its parent's, in words."""


def lineage_fields(recipe: Recipe, frame: Frame) -> dict[str, Any]:
    """What `lineage.html` is filled with. A parent that the edition lacks is compared with nothing."""
    archive = frame.computed.archive
    parent = archive.recipe_named.get(recipe.derived_from.recipe) if recipe.derived_from else None
    changed = tuple(
        (revised.change, tuple(_row(row) for row in revised.rows)) for revised in revisions(recipe, archive)
    )
    return {
        "lineage": lineage(recipe, parent, frame.computed) if parent else None,
        "work_compared": work(recipe, parent) if parent else (),
        "basis_words": basis_words,
        "difference_words": difference_words,
        "revised_figures": changed,
        "in_family": bool(parent or frame.cross.varying.get(recipe.slug)),
        "family_path": family_path,
    }


def basis_words(compared: Compared) -> str:
    """By what the figures of a table are given."""
    if compared.basis is None:
        return ""
    lead = _BASIS[compared.basis]
    return f"{lead} {compared.base}" if compared.basis == "base" else lead


def difference_words(difference: Difference) -> str:
    """A difference from a parent, or why there is none."""
    return ABSENT.get(difference.verdict) or _kept(difference) or f"not compared: {difference.why}"


def _kept(difference: Difference) -> str:
    """The difference, its signs on one line with their figures."""
    said = difference.text()
    for sign, kept in (
        ("× ", f"×{NO_BREAK}"),
        ("÷ ", f"÷{NO_BREAK}"),
        (" %", f"{NO_BREAK}%"),
        (" °C", f"{NO_BREAK}°C"),
    ):
        said = said.replace(sign, kept)
    return said


def _row(row: Any) -> ChangeRow:
    say = _amount if isinstance(row, AmountChange) else spoken
    return ChangeRow(
        name=row.name,
        was=say(row.was) or "none",
        then=say(row.then) or "none",
        by="new" if row.difference.verdict == "added" else difference_words(row.difference),
    )


def _amount(amount: Any) -> str:
    return amount_words(amount, None) if amount is not None else ""


def family_path(process: str) -> str:
    """The page of a process's family tree."""
    return process_path(process).replace("index.html", "family.html")


def families(frame: Frame, process: Process) -> tuple[Kin, ...]:
    """The trees that recipes of the process stand in, each from its oldest ancestor on."""
    archive = frame.computed.archive
    roots: dict[str, Recipe] = {}
    for recipe in frame.cross.grouped.get(process.id, ()):
        top = recipe
        while top.derived_from and (above := archive.recipe_named.get(top.derived_from.recipe)):
            top = above
        if top is not recipe or frame.cross.varying.get(recipe.slug):
            roots[top.slug] = top
    kin = (_kin(root, process, frame) for root in roots.values())
    return tuple(one for one in kin if one)


def _kin(recipe: Recipe, process: Process, frame: Frame) -> Kin | None:
    """The recipe with what descends from it; None where neither belongs to the process. There is no ring (checked)."""
    below = (_kin(child, process, frame) for child in frame.cross.varying.get(recipe.slug, ()))
    children = tuple(child for child in below if child)
    if not children and recipe.process != process.id:
        return None
    settings = frame.computed.archive.settings
    foreign = next((p for p in settings.processes if p.id == recipe.process != process.id), None)
    return Kin(recipe=recipe, children=children, foreign=foreign, telling=tuple(_telling(recipe, frame)))


def _telling(recipe: Recipe, frame: Frame) -> Iterator[str]:
    """Up to three substances by name with what differs, in the parent's order."""
    archive = frame.computed.archive
    parent = archive.recipe_named.get(recipe.derived_from.recipe) if recipe.derived_from else None
    if parent is None:
        return
    yield from tuple(_changed(lineage(recipe, parent, frame.computed)))[:3]


def _changed(found: Lineage) -> Iterator[str]:
    """Each substance that differs, in the first mixture in which it does so."""
    seen: set[tuple[str, str]] = set()
    for compared in found.mixtures:
        for row in compared.rows:
            said = (row.name, difference_words(row.difference))
            if row.difference.verdict in ("changed", "added", "left out") and said not in seen:
                seen.add(said)
                yield f"{compared.own.name}: {' '.join(said)}"


def family_pages(frame: Frame) -> Iterator[Page]:
    """A family tree for every process in which a recipe descends from another or has descendants."""
    for process in frame.computed.archive.settings.processes:
        if trees := families(frame, process):
            yield frame.page(
                "family.html",
                family_path(process.id),
                title=f"{process.name}: family tree",
                process=process,
                trees=trees,
            )
