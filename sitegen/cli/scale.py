"""`trayside scale`: a recipe for another tray, another number of sheets, or what is left in the jar."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any

import click
from rich.console import Console
from rich.table import Table

from sitegen.cli.answers import local_id, together_json
from sitegen.cli.questions import InQuestions, Words, question_of, said_in_questions, target_of
from sitegen.cli.recipe import of_recipe
from sitegen.cli.session import over_session, session_json, session_words
from sitegen.cli.shell import (
    answer,
    archive_option,
    json_option,
    load,
    refusals,
)
from sitegen.compute.needed import Bath
from sitegen.compute.rounding import Shown
from sitegen.compute.scale import ScaledMixture
from sitegen.compute.together import Asked, Together, together
from sitegen.compute.whole import Computed
from sitegen.model.quantity import exact_text
from sitegen.read.theme import read_theme
from sitegen.render.sheet import sheet_pdf
from sitegen.render.sheet_data import sheet_data
from sitegen.write.single import write_single


@click.command("scale", cls=InQuestions, short_help="Recalculate a recipe for another size.")
@click.argument("recipe")
@click.option(
    "--mixture",
    "wanted",
    multiple=True,
    metavar="ID",
    help="Which mixture is wanted, when a recipe ends in several; each one more begins a question of its own.",
)
@click.option("--make", multiple=True, metavar="AMOUNT", help='How much of it: "350 ml".')
@click.option("--factor", multiple=True, metavar="N", help="So many times the recipe as written: 3.5.")
@click.option("--tray", multiple=True, metavar="SIZE", help='Inside length, width and depth: "30x40x2 cm".')
@click.option(
    "--sheets", multiple=True, metavar="SHEETS", help='How many of what size: "12 of 24x30 cm" or "12 of A4".'
)
@click.option("--coats", multiple=True, metavar="N", help="Coats on each sheet; 1 where nothing is said.")
@click.option("--coverage", multiple=True, metavar="RATE", help='Instead of the recipe\'s own: "40 ml/m²".')
@click.option(
    "--allowance", multiple=True, metavar="PERCENT", help='Extra for brush and vessel: "15 %"; the archive has its own.'
)
@click.option("--have", multiple=True, metavar="NAME=AMOUNT", help='What is left: "citric-acid=18 g"; may be repeated.')
@click.option("--base", multiple=True, metavar="NAME=MASS", help='What percents are taken of: "fibre=250 g".')
@click.option("--people", multiple=True, metavar="N", help="For so many people, each with the amount asked for.")
@click.option(
    "--session", multiple=True, metavar="PRINTS", help='Baths for so many prints, from one filling: "12 of 24x30 cm".'
)
@click.option("--lasting", multiple=True, metavar="TIME", help='How long the session lasts: "5 h".')
@click.option("--measures", type=click.Choice(["metric", "US", "imp"]), default="metric", show_default=True)
@click.option("--sheet", "pdf", type=click.Path(path_type=Path, dir_okay=False), help="Also print it as a PDF.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True)
@archive_option
@json_option
@click.pass_context
def scale_command(ctx: click.Context, /, recipe: str, folder: Path | None, *, as_data: bool, **options: Any) -> None:
    """Recalculate RECIPE (its file name without .yaml, or its code).

    Several mixtures are asked for at once by a --mixture for each, with what is asked of it behind it. What they
    share is added up, and the answer ends with what everything takes all in all.

    \b
    trayside scale iron-blue --make "350 ml"
    trayside scale iron-blue --sheets "12 of 24x30 cm" --coats 2
    trayside scale onion-skin-dye --base "fibre=250 g"
    trayside scale IB-01 --mixture working --sheets "6 of 20x25 cm"
                         --mixture first-bath --tray "24x30x1.5 cm"
    """
    with refusals():
        loaded = load(folder)
        computed, slug = of_recipe(recipe, loaded)
        asked = [_asked(words, computed, slug) for words in said_in_questions(ctx, options)]
        order = [target.id for target in computed.targets[slug]]
        asked.sort(key=lambda each: order.index(each[0].target.id))
        found = together(
            [one for one, _ in asked],
            computed.archive,
            system=options["measures"],
            warnings=computed.warnings[slug],
        )
        baths = {one.target.local: spent for one, spent in asked if spent}
        if pdf := options["pdf"]:
            sheet = sheet_data(computed, computed.archive.recipe_named[slug], found)
            write_single(pdf, sheet_pdf(sheet, options["paper"], read_theme().print))
    if as_data:
        answer(together_json(found, {local: session_json(spent) for local, spent in baths.items()}))
    else:
        _tell(found, baths)
        if pdf:
            click.echo(f"\nsheet: {pdf}")


def _asked(words: Words, computed: Computed, slug: str) -> tuple[Asked, Bath | None]:
    """One question, and how its bath fares where it is for a session."""
    target = target_of(computed, slug, words["wanted"])
    question = question_of(words, computed.archive.settings, computed, target)
    if not words["session"]:
        return Asked(target=target, question=question), None
    mixture = computed.archive.mixtures[target.id]
    filling, spent = over_session(question, words["session"], words["lasting"], mixture)
    return Asked(target=target, question=filling), spent


def _tell(found: Together, baths: dict[str, Bath]) -> None:
    console = Console(highlight=False)
    recipe = found.answers[0].target.recipe
    for mixture in found.batches:
        console.print(_table(mixture, recipe))
    for one in found.answers:
        lead = f"{one.target.local}: {one.mixtures[-1].shown.text()}, " if len(found.answers) > 1 else ""
        console.print(f"{lead}factor {exact_text(one.factor)}", markup=False)
    for title, rows in _all_in_all(found):
        console.print(_list(title, rows))
    for warning in found.warnings:
        console.print(f"note: {warning}", markup=False)
    console.print("Safety data sheets, local rules and licensed practice come first.", markup=False)
    for local, spent in baths.items():
        for line in session_words(spent):
            click.echo(f"{local}: {line}" if len(found.answers) > 1 else line)


Row = tuple[str, str, str, str]
"""A number, its unit, a name and what is said of it."""


def _all_in_all(found: Together) -> Iterable[tuple[str, list[Row]]]:
    if found.stocks:
        yield (
            "All in all, of what goes into others",
            [(*_measure(stock.batch.shown), stock.batch.plan.name, ", ".join(stock.texts())) for stock in found.stocks],
        )
    rows = [(*_measure(thing.shown), thing.name, "; ".join(thing.said())) for thing in found.things]
    rows += [("", "", one.name, one.text()) for one in found.unmeasured]
    yield "All in all, to have at hand", rows


def _list(title: str, rows: Iterable[Row]) -> Table:
    table = _bare(title)
    for row in rows:
        table.add_row(*row)
    return table


def _measure(shown: Shown) -> tuple[str, str]:
    return shown.low if shown.low == shown.high else f"{shown.low}–{shown.high}", shown.unit


def _bare(title: str) -> Table:
    """A table of numbers, units, names and notes."""
    table = Table(title=title, title_justify="left", box=None, pad_edge=False, show_header=False)
    table.add_column(justify="right", no_wrap=True)
    table.add_column(no_wrap=True)
    table.add_column()
    table.add_column(style="dim")
    return table


def _table(mixture: ScaledMixture, recipe: str) -> Table:
    plan = mixture.plan
    size = f"for {mixture.shown.text()} of {plan.base}" if plan.base else f"makes {mixture.shown.text()}"
    table = _bare(f"{plan.name} ({local_id(plan.id, recipe)}): {size}")
    for line in mixture.lines:
        shown, notes = line.shown, "; ".join(note.text() for note in line.notes)
        if shown is None:
            table.add_row("", "", line.line.name, f"{line.line.written}")
        else:
            number, unit = _measure(shown)
            table.add_row(f"to {number}" if line.line.fill else number, unit, line.line.name, notes)
    return table
