"""`trayside label`: labels for the bottles of a recipe, on sheets of plain sizes."""

from pathlib import Path
from typing import Any, Final

import click

from sitegen.check.values import parse_date
from sitegen.cli.recipe import of_recipe
from sitegen.cli.shell import ARCHIVE_WRONG, archive_option, load, refusals
from sitegen.compute.whole import Computed
from sitegen.model.recipe import Mixture
from sitegen.problems import Refusal
from sitegen.read.theme import read_theme
from sitegen.render.bottle_label import bottle_label, wanted
from sitegen.render.bottle_sheet import Fill, kept, labels_pdf, place
from sitegen.render.label_grid import USUAL, parse_size
from sitegen.write import WriteError
from sitegen.write.single import write_single

MOST: Final = 1000


@click.command("label", short_help="Print labels for a recipe's bottles.")
@click.argument("recipe")
@click.option("--mixture", "mixtures", multiple=True, metavar="ID", help="Which mixture; may be repeated.")
@click.option("--mixed", metavar="DAY", help="When it was mixed: 2026-11-25; without it, a line to fill in.")
@click.option("--size", default=USUAL, show_default=True, metavar="WxH", help="One label in mm.")
@click.option("--copies", type=click.IntRange(1, MOST), default=1, show_default=True, help="Labels of each bottle.")
@click.option("--first", type=click.IntRange(1), default=1, show_default=True, help="First free place on the sheet.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    default=Path("labels.pdf"),
    show_default=True,
    metavar="FILE",
)
@archive_option
def label_command(recipe: str, folder: Path | None, **options: Any) -> None:
    """Labels for the bottles of RECIPE (its file name without .yaml, or its code).

    By default those of its mixtures that keep longer than a session.

    \b
    trayside label iron-blue --mixed 2026-11-25
    trayside label iron-blue --mixture part-a --size 105x57 --copies 4

    The hazards on them are derived from the archive's cards. They are not a supplier's classification.
    """
    with refusals():
        mixed, fill, out = options["mixed"], Fill(copies=options["copies"], first=options["first"]), options["out"]
        day = parse_date(mixed) if mixed is not None else None
        grid = parse_size(options["size"])
        if fill.first > grid.columns * grid.rows:
            raise Refusal(
                "no-such-place",
                f"a sheet of {grid.name} mm has {grid.columns * grid.rows} labels",
                "count places from 1, row by row",
            )
        computed, slug = of_recipe(recipe, load(folder))
        labels = tuple(
            bottle_label(computed, mixture, day) for mixture in _bottles(computed, slug, options["mixtures"])
        )
        theme = read_theme()
        placed = place(labels, (grid,), theme.print, shorten=True)
        pdf = labels_pdf(computed, computed.archive.recipe_named[slug], placed, theme.print, fill=fill)
    try:
        write_single(out, pdf)
    except WriteError as error:
        click.echo(f"error[not-written] {error.path}: {error.reason}", err=True)
        raise SystemExit(ARCHIVE_WRONG) from error
    for one in placed:
        if more := one.label.levels[one.way["level"]].more:
            click.echo(f"{one.label.name}: shortened for {grid.name} mm. {more}")
    click.echo(f"{len(labels) * fill.copies} labels of {grid.name} mm: {out}")


def _bottles(computed: Computed, slug: str, mixtures: tuple[str, ...]) -> tuple[Mixture, ...]:
    recipe = computed.archive.recipe_named[slug]
    found = tuple(wanted(recipe, name) for name in mixtures) or kept(recipe)
    if not found:
        raise Refusal(
            "nothing-bottled",
            f"no mixture of `{slug}` keeps longer than a session",
            "name one: " + ", ".join(f"`--mixture {m.local}`" for m in recipe.mixtures),
        )
    return found
