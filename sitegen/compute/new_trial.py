"""A new trial: the text of an entry to be filled in, with the recipe's present figures beside as comments."""

from collections.abc import Iterator, Sequence
from datetime import date

from sitegen.model.amount import Unscaled
from sitegen.model.quantity import format_quantity
from sitegen.model.recipe import Recipe
from sitegen.model.water import Water
from sitegen.read.edits import quoted


def new_trial(recipe: Recipe, waters: Sequence[Water], today: date, title: str) -> str:
    """The entry; `waters` are the archive's. What must be filled in stands empty, and `trayside proof` asks for it."""
    head = (
        f"title: {quoted(title)}",
        f"recipe: {recipe.slug}",
        f"revision: {recipe.revision}",
        f"date: {today.isoformat()}",
        "# aim: What was to be found out.",
        "",
        "# Take the # from `changed:`, from the heading and from the line of what was done otherwise, and write there",
        "# what was taken instead. The figures are those of the recipe.",
        "# changed:",
    )
    tail = (
        "#   other: What else was done otherwise.",
        "",
        "# conditions: {paper: …, lamp: …, temperature: 18 °C, humidity: 55 %, "
        + f"water: {waters[0].id if waters else '…'}"
        + "}",
        *_waters(waters),
        "# batches: [" + ", ".join(_bottles(recipe, today)) + "]",
        "# image: {file: print.jpg, alt: What it shows in words}",
        "outcome:",
        "# One of: worked, failed, open.",
        "verdict:",
        "# suspected: What is thought to be the cause.",
        "# trouble: A trouble of the recipe that it shows, in small letters with hyphens.",
    )
    return "\n".join((*head, *_figures(recipe), *tail)) + "\n"


def _figures(recipe: Recipe) -> Iterator[str]:
    amounts = [
        f"#     {mixture.local}/{line.key}: {line.written}"
        for mixture in recipe.mixtures
        for line in mixture.lines
        if not isinstance(line.amount, Unscaled)
    ]
    times = [
        f"#     {quoted(f'{stage.title}/{n}')}: {format_quantity(step.lasts)}"
        for stage in recipe.stages
        for n, step in enumerate(stage.steps, start=1)
        if step.lasts
    ]
    coverage = [f"#     {m.local}: {format_quantity(m.coverage)}" for m in recipe.mixtures if m.coverage]
    for name, lines in (("amounts", amounts), ("times", times), ("coverage", coverage)):
        if lines:
            yield f"#   {name}:"
            yield from lines


def _waters(waters: Sequence[Water]) -> Iterator[str]:
    if waters:
        said = ", ".join(f"{water.id} ({water.name})" for water in waters)
        yield f"# The archive's waters: {said}. Another one is told in words."


def _bottles(recipe: Recipe, today: date) -> Iterator[str]:
    bottled = [mixture for mixture in recipe.mixtures if mixture.keeps]
    for mixture in bottled[:2]:
        yield f"{recipe.code}.{recipe.revision} {mixture.local} {today.isoformat()}"
