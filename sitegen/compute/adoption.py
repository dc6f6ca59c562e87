"""Adoption: what a trial found out, put into its recipe. Texts in, texts out; whether they are sound is checked after.

A trial that worked becomes the recipe's next revision, one that failed a trouble of it. Only the figures named are
touched; the entry is told what became of it.
"""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from sitegen.check.leaves import NONE
from sitegen.check.values import slug_of
from sitegen.model.amount import format_amount
from sitegen.model.archive import Archive
from sitegen.model.quantity import format_quantity
from sitegen.model.recipe import Recipe
from sitegen.model.steps import find_step
from sitegen.model.trial import ChangedAmount, ChangedFigure, Trial
from sitegen.problems import Refusal
from sitegen.read import edits

Texts = Mapping[str, str]


def entry_path(trial: Trial) -> str:
    """The entry's file within the archive."""
    return f"journal/{trial.slug}.yaml"


def recipe_path(recipe: Recipe) -> str:
    """The recipe's file within the archive."""
    return f"recipes/{recipe.slug}.yaml"


def as_revision(trial: Trial, archive: Archive, texts: Texts, today: date) -> dict[str, str]:
    """Recipe and entry, once a trial that worked is the recipe's next revision. `Refusal` when it cannot be."""
    recipe = archive.recipe_named[trial.recipe]
    _may_become(trial, recipe)
    text, told = texts[recipe_path(recipe)], texts[entry_path(trial)]
    for amount in trial.amounts:
        text = _amount_put(text, amount)
        told = _told(told, ("changed", "amounts", amount.target), _words(amount))
    for time in trial.times:
        text = _time_put(text, recipe, time)
        told = _told(told, ("changed", "times", time.target), _words(time))
    for coverage in trial.coverage:
        text = _put(text, ("mixtures", coverage.target), "coverage", format_quantity(coverage.then))
        told = _told(told, ("changed", "coverage", coverage.target), _words(coverage))
    following = str(recipe.revision + 1)
    text = edits.replaced(text, ("revision",), following)
    text = edits.replaced(text, ("revised",), today.isoformat())
    lines = [f"revision: {following}", f"what: {edits.quoted(_what(trial, recipe))}", *_before(trial)]
    text = edits.with_entry(text, "changes", lines, after="revised")
    return {recipe_path(recipe): text, entry_path(trial): edits.with_field(told, (), "became", following)}


def _may_become(trial: Trial, recipe: Recipe) -> None:
    if trial.edition and trial.edition != recipe.edition:
        raise Refusal(
            "trial-kept-back",
            f"this entry is for `{trial.edition}`, its recipe for `{recipe.edition}`",
            "take `edition` out of the entry first: readers of the recipe would see what it found",
        )
    if trial.revision != recipe.revision:
        raise Refusal(
            "trial-left-behind",
            f"this was tried of revision {trial.revision}, and the recipe is at revision {recipe.revision}",
            "try it of the present revision, or change the recipe by hand",
        )
    if not (trial.amounts or trial.times or trial.coverage):
        raise Refusal(
            "nothing-to-adopt",
            "this entry changes no amount, time or coverage",
            "write what was done otherwise below `changed`, or change the recipe by hand",
        )


def _amount_put(text: str, change: ChangedAmount) -> str:
    path: edits.Path = ("mixtures", change.mixture.partition("/")[2], "contains", change.key)
    if not edits.is_scalar(text, path):
        path = (*path, "amount")
    return edits.replaced(text, path, format_amount(change.then))


def _time_put(text: str, recipe: Recipe, change: ChangedFigure) -> str:
    place = find_step(change.target, [(stage.title, len(stage.steps)) for stage in recipe.stages])
    step = ("stages", place.stage - 1, "steps", (place.step or 1) - 1)
    return _put(text, step, "for", format_quantity(change.then))


def _put(text: str, group: edits.Path, name: str, value: str) -> str:
    """The field with that value, whether it was there or not."""
    try:
        return edits.replaced(text, (*group, name), value)
    except Refusal:
        return edits.with_field(text, group, name, value)


def _words(change: ChangedAmount | ChangedFigure) -> tuple[str, str]:
    if isinstance(change, ChangedAmount):
        return (format_amount(change.was) if change.was else "", format_amount(change.then))
    return (format_quantity(change.was) if change.was else "", format_quantity(change.then))


def _told(text: str, path: edits.Path, words: tuple[str, str]) -> str:
    """The entry with what the recipe said: from now on the recipe says something else."""
    was, then = words
    if not was or not edits.is_scalar(text, path):
        return text
    return edits.replaced_by_fields(text, path, (("from", was), ("to", then)))


def _before(trial: Trial) -> Iterator[str]:
    """The figures as they were, for the revision's entry; a step without a time had none."""
    groups: tuple[tuple[str, Sequence[ChangedAmount | ChangedFigure]], ...] = (
        ("amounts", trial.amounts),
        ("times", trial.times),
    )
    if trial.amounts or trial.times:
        yield "before:"
    for name, changes in groups:
        if changes:
            yield f"  {name}:"
        for change in changes:
            was, _ = _words(change)
            yield f"    {edits.quoted(change.target)}: {edits.quoted(was or NONE)}"


def _what(trial: Trial, recipe: Recipe) -> str:
    """What was changed, in a sentence that every reader of the recipe may see: a kept-back stage is not named."""
    told = tuple(time for time in trial.times if not time.edition or time.edition == recipe.edition)
    changes: tuple[ChangedAmount | ChangedFigure, ...] = (*trial.amounts, *told, *trial.coverage)
    said = []
    for change in changes:
        was, then = _words(change)
        said.append(f"{change.target} {then}{f' instead of {was}' if was else ''}")
    return f"{'; '.join(said) or 'A time is another'}. Tried on {trial.date.isoformat()}, {trial.title}."


def as_trouble(trial: Trial, archive: Archive, texts: Texts, *, symptom: str, remedy: str) -> dict[str, str]:
    """Recipe and entry, once a trial that failed is a trouble of the recipe. `Refusal` when it cannot be."""
    recipe = archive.recipe_named[trial.recipe]
    slug = slug_of(symptom)
    if trial.trouble or slug in {trouble.id for trouble in recipe.troubles}:
        raise Refusal(
            "trouble-there",
            f"`{recipe.slug}` has the trouble `{trial.trouble or slug}` already",
            "add a cause to it by hand, or word what is seen otherwise with `--symptom`",
        )
    if not trial.suspected:
        raise Refusal("suspicion-missing", "this entry suspects no cause", "add a line `suspected: …` to it")
    if not slug:
        raise Refusal("symptom-missing", "the symptom has no words", "say what is seen: `--symptom TEXT`")
    kept = [f"edition: {trial.edition}"] if trial.edition and trial.edition != recipe.edition else []
    lines = [
        f"symptom: {edits.quoted(symptom)}",
        *kept,
        "causes:",
        f"  - cause: {edits.quoted(trial.suspected)}",
        f"    remedy: {edits.quoted(remedy)}",
    ]
    text = edits.with_entry(texts[recipe_path(recipe)], "troubles", lines)
    return {
        recipe_path(recipe): text,
        entry_path(trial): edits.with_field(texts[entry_path(trial)], (), "trouble", slug),
    }
