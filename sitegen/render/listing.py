"""Listings: the home page, the processes, the loose calculators and `archive.json`."""

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sitegen.model.archive import Process
from sitegen.model.recipe import Recipe
from sitegen.model.trial import Trial
from sitegen.render.browser import bench_json
from sitegen.render.cross import by_title
from sitegen.render.frame import Frame, data_block
from sitegen.render.journal import latest
from sitegen.render.lineage_page import families, family_path
from sitegen.render.links import process_path, recipe_path, substance_path, trial_path
from sitegen.render.markdown import Voice, render
from sitegen.render.page import Page
from sitegen.render.water import acid_aim, sums_json

RECENT: Final = 4
"""Recipes shown as newly revised on the home page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ProcessCount:
    """A process and how many recipes of it this edition holds."""

    process: Process
    count: int


def home_page(frame: Frame) -> Page:
    """The page people open: what this is, what is new, everything by process and from A to Z."""
    archive = frame.computed.archive
    voice = Voice(archive=archive, written=frame.written, page="index.html")
    newest = sorted(archive.recipes, key=lambda r: (r.revised, r.code), reverse=True)
    return frame.page(
        "home.html",
        "index.html",
        title="",
        welcome=render(archive.settings.welcome, voice),
        recent=newest[:RECENT],
        shown=next((r for r in newest if r.image), None),
        processes=_counts(frame),
        recipes=by_title(archive.recipes),
        teased=archive.teased,
        journal=latest(frame),
        failures=any(trial.verdict == "failed" for trial in archive.trials),
    )


def _counts(frame: Frame) -> tuple[ProcessCount, ...]:
    """Processes that have recipes in this edition, in the order of archive.yaml."""
    counted = (
        ProcessCount(process=p, count=len(frame.cross.grouped.get(p.id, ())))
        for p in frame.computed.archive.settings.processes
    )
    return tuple(c for c in counted if c.count)


def process_pages(frame: Frame) -> Iterator[Page]:
    """A page for every process that has recipes in this edition."""
    for counted in _counts(frame):
        process = counted.process
        yield frame.page(
            "process.html",
            process_path(process.id),
            title=process.name,
            process=process,
            recipes=frame.cross.grouped[process.id],
            family=family_path(process.id) if families(frame, process) else "",
        )


def bench_page(frame: Frame) -> Page:
    """The calculators that belong to no recipe."""
    plan = data_block(bench_json(frame.computed.archive))
    sums = data_block(sums_json())
    return frame.page("bench.html", "bench/index.html", title="Bench", plan=plan, water_sums=sums, water_aim=acid_aim())


def catalogue(frame: Frame) -> Page:
    """What the edition holds, for programs: names, codes and paths, never the recipes' contents."""
    archive, settings = frame.computed.archive, frame.computed.archive.settings
    listed = {
        "title": settings.title,
        "studio": settings.studio,
        "language": settings.language,
        "licence": settings.licence,
        "edition": frame.edition,
        "processes": [
            {"id": c.process.id, "name": c.process.name, "path": process_path(c.process.id)} for c in _counts(frame)
        ],
        "recipes": [_listed(r) for r in sorted(archive.recipes, key=lambda r: r.code)],
        "substances": [
            {"id": s.id, "name": s.name, "path": substance_path(s.id)}
            for s in sorted(archive.substances, key=lambda s: s.id)
        ],
        "journal": [_tried(trial, archive.recipe_named[trial.recipe]) for trial in archive.trials],
    }
    text = json.dumps(listed, ensure_ascii=False, indent=1) + "\n"
    return Page(path="archive.json", content=text.encode())


def _listed(recipe: Recipe) -> dict[str, object]:
    return {
        "code": recipe.code,
        "title": recipe.title,
        "summary": recipe.summary,
        "process": recipe.process,
        "keywords": list(recipe.keywords),
        "status": recipe.status,
        "revision": recipe.revision,
        "revised": recipe.revised.isoformat(),
        "path": recipe_path(recipe.slug),
    }


def _tried(trial: Trial, recipe: Recipe) -> dict[str, object]:
    return {
        "date": trial.date.isoformat(),
        "title": trial.title,
        "code": recipe.code,
        "revision": trial.revision,
        "verdict": trial.verdict,
        "path": trial_path(trial.slug),
    }
