"""The journal: a page for each trial, all of them newest first, and what a recipe's pages show of them.

Failures are entries like the others, and have a page of their own. Words are `trial_words`.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from markupsafe import Markup

from sitegen.compute.trial import Age, ages, blamed
from sitegen.model.recipe import Cause, Recipe, Trouble
from sitegen.model.trial import VERDICTS, Trial, Verdict, newest_first
from sitegen.render.frame import Frame
from sitegen.render.links import mixture_path, relative, trial_path, verdict_path
from sitegen.render.markdown import Voice, render
from sitegen.render.page import Page
from sitegen.render.trial_words import ChangeWords, age_words, changes, conditions
from sitegen.render.wording import spoken

LATEST = 3
"""Entries on the home page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """An entry as lists show it. `current` is the recipe's revision where it has moved on since, else None."""

    trial: Trial
    recipe: Recipe
    path: str
    verdict: str
    changed: tuple[str, ...]
    current: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bottle:
    """A batch that was used, with its age in words."""

    age: Age
    words: str
    way: str


def entries(trials: Iterable[Trial], frame: Frame) -> tuple[Entry, ...]:
    """Entries for a list, in the order given."""
    archive = frame.computed.archive
    return tuple(_entry(trial, archive.recipe_named[trial.recipe], frame) for trial in trials)


def _entry(trial: Trial, recipe: Recipe, frame: Frame) -> Entry:
    return Entry(
        trial=trial,
        recipe=recipe,
        path=trial_path(trial.slug),
        verdict=VERDICTS[trial.verdict],
        changed=(*(c.sentence() for c in changes(trial, frame.computed.archive)), *trial.other),
        current=recipe.revision if recipe.revision > trial.revision else None,
    )


def of_recipe(recipe: Recipe, frame: Frame) -> tuple[Entry, ...]:
    """A recipe's trials, the newest first."""
    return entries(frame.computed.archive.trials_of.get(recipe.slug, ()), frame)


def latest(frame: Frame) -> tuple[Entry, ...]:
    """The newest entries, for the home page."""
    return entries(newest_first(frame.computed.archive.trials)[:LATEST], frame)


def journal_pages(frame: Frame) -> Iterator[Page]:
    """All entries, those of each verdict, and each entry; nothing where the edition has none."""
    ordered = newest_first(frame.computed.archive.trials)
    if not ordered:
        return
    listed = entries(ordered, frame)
    yield _list(frame, listed, None)
    for verdict in VERDICTS:
        if any(trial.verdict == verdict for trial in ordered):
            yield _list(frame, listed, verdict)
    for n, trial in enumerate(ordered):
        later, earlier = ordered[n - 1] if n else None, ordered[n + 1] if n + 1 < len(ordered) else None
        yield _page(trial, frame, earlier, later)


def _list(frame: Frame, listed: tuple[Entry, ...], verdict: Verdict | None) -> Page:
    counts = {v: sum(entry.trial.verdict == v for entry in listed) for v in VERDICTS}
    shown = tuple(entry for entry in listed if verdict is None or entry.trial.verdict == verdict)
    recipes = {entry.recipe.slug: entry.recipe for entry in shown}
    return frame.page(
        "journal.html",
        verdict_path(verdict),
        title=f"Journal: {VERDICTS[verdict]}" if verdict else "Journal",
        entries=shown,
        verdict=verdict,
        verdicts=[(v, VERDICTS[v], count) for v, count in counts.items() if count],
        recipes=sorted(recipes.values(), key=lambda recipe: recipe.code),
        verdict_path=verdict_path,
        total=len(listed),
    )


def _page(trial: Trial, frame: Frame, earlier: Trial | None, later: Trial | None) -> Page:
    archive, path = frame.computed.archive, trial_path(trial.slug)
    recipe, solved = archive.recipe_named[trial.recipe], archive.trial_named.get(trial.solved_by)
    voice = Voice(archive=archive, written=frame.written, page=path, recipe=recipe)

    def prose(text: object) -> Markup:
        return render(text, voice, heading=3)  # type: ignore[arg-type]  # templates pass an entry's own prose

    return frame.page(
        "trial.html",
        path,
        title=f"{recipe.code} {trial.date.isoformat()} {trial.title}",
        entry=_entry(trial, recipe, frame),
        figures=_figures(trial, frame, path),
        conditions=conditions(trial, archive),
        bottles=tuple(_bottle(age, frame) for age in ages(trial, archive)),
        blamed=blamed(trial, archive),
        trouble=next((t for t in recipe.troubles if t.id == trial.trouble), None),
        solution=_entry(solved, archive.recipe_named[solved.recipe], frame) if solved else None,
        solves=entries(archive.solved_by.get(trial.slug, ()), frame),
        earlier=earlier,
        later=later,
        trial_path=trial_path,
        prose=prose,
    )


def _figures(trial: Trial, frame: Frame, path: str) -> tuple[tuple[ChangeWords, str], ...]:
    """The changed figures, each with the relative way to where it stands today."""
    return tuple((c, relative(path, c.way) if c.way else "") for c in changes(trial, frame.computed.archive))


def _bottle(age: Age, frame: Frame) -> Bottle:
    way = mixture_path(age.batch.mixture) if age.batch.mixture in frame.computed.archive.mixtures else ""
    return Bottle(age=age, words=age_words(age), way=way)


def seen_in(recipe: Recipe, trouble: Trouble, frame: Frame) -> tuple[Entry, ...]:
    """The trials of a recipe that show a trouble, the newest first."""
    trials = frame.computed.archive.trials_of.get(recipe.slug, ())
    return entries((trial for trial in trials if trial.trouble == trouble.id), frame)


def old_stock_words(cause: Cause, recipe: Recipe | None) -> str:
    """What to look at where old stock may be the cause; '' where it is not. `recipe` is None for several."""
    if not cause.old_stock:
        return ""
    mixture = recipe.mixture(cause.old_stock) if recipe else None
    if mixture is None:
        return "Old stock can cause this. Look at the dates on the bottles that were used."
    keeps = f" It keeps {spoken(mixture.keeps)}." if mixture.keeps else ""
    return f"Old {mixture.name} can cause this. Look at the date on its bottle.{keeps}"
