"""Troubles of the whole archive: from what is seen to causes, remedies and the step where each was caused.

Grouped by the part of the work in which a thing is seen, on one page, and on a page for each process. A
trouble that the archive's recipes share stands once, with every recipe it happens in.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from sitegen.model.archive import Process
from sitegen.model.recipe import Cause, Recipe, Seen, Trouble
from sitegen.model.steps import find_step
from sitegen.problems import Refusal
from sitegen.render.frame import Frame
from sitegen.render.journal import old_stock_words
from sitegen.render.links import process_troubles_path, recipe_path, relative
from sitegen.render.page import Page
from sitegen.render.substance_page import filed

PARTS: Final[dict[Seen | None, str]] = {
    "negative": "On the film",
    "paper": "In the paper",
    "mix": "While mixing",
    "coat": "While coating",
    "dry": "While drying",
    "expose": "During exposure",
    "develop": "While developing",
    "wash": "In the wash",
    "fix": "In the fixer",
    "bleach": "In the bleach",
    "tone": "In the toner",
    "layers": "Between layers",
    "bite": "In the etch",
    "ink": "While inking and printing",
    "dye": "In the dye pot",
    "finish": "When it is dry",
    "keep": "In the drawer and on the wall",
    None: "Anywhere in the work",
}
"""What a part of the work is called, in the order of the work."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepLink:
    """A step of a recipe: its page with the fragment, its name, and its numbers; `step` is 0 for a whole stage."""

    path: str
    words: str
    stage: int
    step: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseView:
    """A cause with every step that may have caused it."""

    cause: Cause
    steps: tuple[tuple[Recipe, StepLink], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A trouble with the recipes and the processes it happens in. `anchor` is its id on the page."""

    anchor: str
    trouble: Trouble
    recipes: tuple[Recipe, ...]
    processes: tuple[Process, ...]
    causes: tuple[CauseView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What is seen in one part of the work; `key` is '' for what belongs to none."""

    key: str
    name: str
    found: tuple[Found, ...]


def step_link(cause: Cause, recipe: Recipe) -> StepLink | None:
    """The first step of this recipe where a cause may lie; None where readers of the edition see none."""
    stages = [(stage.title, len(stage.steps)) for stage in recipe.stages]
    for step in cause.steps:
        try:
            place = find_step(step, stages)
        except Refusal:  # a stage that this edition, or this recipe of several, does not hold
            continue
        title = recipe.stages[place.stage - 1].title
        anchor = f"stage-{place.stage}" + (f"-step-{place.step}" if place.step else "")
        words = f"{title}, step {place.step}" if place.step else title
        path = f"{recipe_path(recipe.slug)}#{anchor}"
        return StepLink(path=path, words=words, stage=place.stage, step=place.step or 0)
    return None


def trouble_pages(frame: Frame) -> Iterator[Page]:
    """All troubles of the edition, and those of each process."""
    every = tuple(_found(frame))
    processes = [p for p in frame.computed.archive.settings.processes if any(p in f.processes for f in every)]
    for process in (None, *processes):
        path = process_troubles_path(process.id) if process else "troubles/index.html"
        yield frame.page(
            "trouble-index.html",
            path,
            title=f"Troubles: {process.name}" if process else "Troubles",
            process=process,
            parts=tuple(_parts(f for f in every if process is None or process in f.processes)),
            processes=processes,
            troubles_way=_way(path),
            old_stock=lambda cause: old_stock_words(cause, None),
        )


def _way(path: str) -> Callable[[Process | None], str]:
    def way(process: Process | None) -> str:
        return relative(path, process_troubles_path(process.id) if process else "troubles/index.html")

    return way


def _parts(found: Iterable[Found]) -> Iterator[Part]:
    by_part: dict[Seen | None, list[Found]] = {}
    for each in found:
        by_part.setdefault(each.trouble.seen, []).append(each)
    for seen, name in PARTS.items():
        if seen in by_part:
            ordered = sorted(by_part[seen], key=lambda f: (filed(f.trouble.symptom), f.anchor))
            yield Part(key=seen or "", name=name, found=tuple(ordered))


def _found(frame: Frame) -> Iterator[Found]:
    """Shared troubles once, others once a recipe."""
    archive = frame.computed.archive
    happening: dict[str, list[tuple[Recipe, Trouble]]] = {}
    for recipe in archive.recipes:
        for trouble in recipe.troubles:
            anchor = trouble.id if trouble.shared else f"{recipe.slug}--{trouble.id}"
            happening.setdefault(anchor, []).append((recipe, trouble))
    for anchor, entries in happening.items():
        entries.sort(key=lambda entry: entry[0].code)
        recipes = tuple(recipe for recipe, _ in entries)
        named = {recipe.process for recipe in recipes}
        yield Found(
            anchor=anchor,
            trouble=entries[0][1],
            recipes=recipes,
            processes=tuple(p for p in archive.settings.processes if p.id in named),
            causes=tuple(_causes(entries)),
        )


def _causes(entries: list[tuple[Recipe, Trouble]]) -> Iterator[CauseView]:
    """The causes, with the step of each recipe: an edition may show one recipe's stage and not another's."""
    for n, cause in enumerate(entries[0][1].causes):
        linked = ((recipe, step_link(trouble.causes[n], recipe)) for recipe, trouble in entries)
        yield CauseView(cause=cause, steps=tuple((recipe, link) for recipe, link in linked if link))
