"""`trayside scale`: a recipe for another tray, another number of sheets, or what is left in the jar."""

from pathlib import Path
from typing import Any, Final

import click
from rich.console import Console
from rich.table import Table

from sitegen.cli.answers import local_id, scaled_json
from sitegen.cli.recipe import of_recipe
from sitegen.cli.session import over_session, session_json, session_words
from sitegen.cli.shell import (
    answer,
    archive_option,
    json_option,
    load,
    refusals,
)
from sitegen.compute.ask import (
    Have,
    Make,
    People,
    Question,
    parse_allowance,
    parse_base,
    parse_factor,
    parse_left,
    parse_sheets,
    parse_tray,
)
from sitegen.compute.names import forms_named
from sitegen.compute.plan import Target
from sitegen.compute.scale import Scaled, ScaledMixture, scale
from sitegen.compute.whole import Computed
from sitegen.model.archive import Settings
from sitegen.model.quantity import exact_text, parse_quantity
from sitegen.model.sizes import parse_count
from sitegen.problems import Refusal, did_you_mean
from sitegen.read.theme import read_theme
from sitegen.render.sheet import sheet_pdf
from sitegen.render.sheet_data import sheet_data
from sitegen.write.single import write_single

WAYS: Final = ("make", "factor", "tray", "sheets", "have", "base")


@click.command("scale", short_help="Recalculate a recipe for another size.")
@click.argument("recipe")
@click.option("--mixture", "wanted", metavar="ID", help="Which mixture is wanted, when a recipe ends in several.")
@click.option("--make", metavar="AMOUNT", help='How much of it: "350 ml".')
@click.option("--factor", metavar="N", help="So many times the recipe as written: 3.5.")
@click.option("--tray", metavar="SIZE", help='Inside length, width and depth: "30x40x2 cm".')
@click.option("--sheets", metavar="SHEETS", help='How many of what size: "12 of 24x30 cm" or "12 of A4".')
@click.option("--coats", metavar="N", default="1", show_default=True, help="Coats on each sheet.")
@click.option("--coverage", metavar="RATE", help='Instead of the recipe\'s own: "40 ml/m²".')
@click.option("--allowance", metavar="PERCENT", help='Extra for brush and vessel: "15 %"; the archive has its own.')
@click.option("--have", multiple=True, metavar="NAME=AMOUNT", help='What is left: "citric-acid=18 g"; may be repeated.')
@click.option("--base", metavar="NAME=MASS", help='What percents are taken of: "fibre=250 g".')
@click.option("--people", metavar="N", help="For so many people, each with the amount asked for.")
@click.option("--session", metavar="PRINTS", help='Baths for so many prints, from one filling: "12 of 24x30 cm".')
@click.option("--lasting", metavar="TIME", default="", help='How long the session lasts: "5 h".')
@click.option("--measures", type=click.Choice(["metric", "US", "imp"]), default="metric", show_default=True)
@click.option("--sheet", "pdf", type=click.Path(path_type=Path, dir_okay=False), help="Also print it as a PDF.")
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True)
@archive_option
@json_option
def scale_command(recipe: str, folder: Path | None, *, as_data: bool, **options: Any) -> None:
    """Recalculate RECIPE (its file name without .yaml, or its code).

    \b
    trayside scale iron-blue --make "350 ml"
    trayside scale iron-blue --sheets "12 of 24x30 cm" --coats 2
    trayside scale onion-skin-dye --base "fibre=250 g"
    """
    with refusals():
        loaded = load(folder)
        computed, slug = of_recipe(recipe, loaded)
        settings = computed.archive.settings
        target = _target(computed, slug, options["wanted"])
        question = _question(options, settings, computed, target)
        spent = None
        if options["session"]:
            mixture = computed.archive.mixtures[target.id]
            question, spent = over_session(question, options["session"], options["lasting"], mixture)
        scaled = scale(
            target,
            question,
            settings.measuring,
            system=options["measures"],
            warnings=computed.warnings[slug],
        )
        if pdf := options["pdf"]:
            sheet = sheet_data(computed, computed.archive.recipe_named[slug], (scaled,))
            write_single(pdf, sheet_pdf(sheet, options["paper"], read_theme().print))
    if as_data:
        answer(scaled_json(scaled) | ({"bath": session_json(spent)} if spent else {}))
    else:
        _tell(scaled)
        for line in session_words(spent) if spent else ():
            click.echo(line)
        if pdf:
            click.echo(f"\nsheet: {pdf}")


def _target(computed: Computed, slug: str, wanted: str | None) -> Target:
    """The mixture wanted: the one named, or the only one that nothing else of the recipe uses."""
    targets = computed.targets[slug]
    if wanted is not None:
        named = next((t for t in targets if wanted in (t.local, t.id)), None)
        if named is None:
            known = [t.local for t in targets]
            raise Refusal(
                "unknown-mixture",
                f"`{slug}` has no mixture `{wanted}`",
                did_you_mean(wanted, known) or "write one of " + ", ".join(f"`{k}`" for k in known),
            )
        return named
    recipe = computed.archive.recipe_named[slug]
    used = {line.mixture for m in recipe.mixtures for line in m.lines}
    final = [t for t in targets if t.id not in used and t.id == f"{slug}/{t.local}"]
    if len(final) != 1:
        raise Refusal(
            "which-mixture",
            f"`{slug}` ends in {len(final)} mixtures",
            "say which is wanted: " + ", ".join(f"`--mixture {t.local}`" for t in final),
        )
    return final[0]


def _question(options: dict[str, Any], settings: Settings, computed: Computed, target: Target) -> Question:
    asked = [way for way in WAYS if options[way]]
    if len(asked) > 1 or (not asked and not options["people"]):
        raise Refusal(
            "ask-one-way",
            "ask in one way" if asked else "say how much is wanted",
            'give one of --make, --factor, --tray, --sheets, --have, --base or --people, such as --make "350 ml"',
        )
    each = _way(asked[0], options, settings, computed, target) if asked else None
    if not options["people"]:
        assert each is not None, "one way was asked"
        return each
    if each is not None and asked[0] in ("factor", "have", "base"):
        raise Refusal(
            "ask-one-way",
            f"--people does not go with --{asked[0]}",
            "use --make, --tray or --sheets for each person",
        )
    return People(count=parse_count(options["people"], "people"), each=each)  # type: ignore[arg-type]  # just checked


def _way(way: str, options: dict[str, Any], settings: Settings, computed: Computed, target: Target) -> Question:
    value = options[way]
    match way:
        case "make":
            return Make(quantity=parse_quantity(value, single=True))
        case "factor":
            return parse_factor(value)
        case "tray":
            return parse_tray(value)
        case "sheets":
            allowance = parse_allowance(options["allowance"]) if options["allowance"] else settings.allowance
            return parse_sheets(value, coats=options["coats"], allowance=allowance, coverage=options["coverage"])
        case "have":
            return Have(left=tuple((_known(n, computed, target), q) for n, q in map(parse_left, value)))
        case _:
            return parse_base(value)


def _known(name: str, computed: Computed, target: Target) -> str:
    """A household name as the id the plan uses, where it means exactly one ingredient of the plan."""
    ids = {t.of for t in target.totals}
    try:
        meant = [f.id for f in forms_named(name, computed.archive) if f.id in ids]
    except Refusal:
        return name  # a mixture, or a name the plan refuses with its own list
    return meant[0] if len(meant) == 1 else name


def _tell(scaled: Scaled) -> None:
    console = Console(highlight=False)
    for mixture in scaled.mixtures:
        console.print(_table(mixture, scaled.target.recipe))
    console.print(f"factor {exact_text(scaled.factor)}", markup=False)
    for warning in scaled.warnings:
        console.print(f"note: {warning}", markup=False)
    console.print("Safety data sheets, local rules and licensed practice come first.", markup=False)


def _table(mixture: ScaledMixture, recipe: str) -> Table:
    plan = mixture.plan
    size = f"for {mixture.shown.text()} of {plan.base}" if plan.base else f"makes {mixture.shown.text()}"
    title = f"{plan.name} ({local_id(plan.id, recipe)}): {size}"
    table = Table(title=title, title_justify="left", box=None, pad_edge=False, show_header=False)
    table.add_column(justify="right", no_wrap=True)
    table.add_column(no_wrap=True)
    table.add_column()
    table.add_column(style="dim")
    for line in mixture.lines:
        shown, notes = line.shown, "; ".join(note.text() for note in line.notes)
        if shown is None:
            table.add_row("", "", line.line.name, f"{line.line.written}")
        else:
            number = shown.low if shown.low == shown.high else f"{shown.low}–{shown.high}"
            table.add_row(f"to {number}" if line.line.fill else number, shown.unit, line.line.name, notes)
    return table
