"""`trayside timeline`: when each stage begins and ends, from a start or until a wished finish."""

from datetime import UTC, date, datetime
from fractions import Fraction
from pathlib import Path

import click
from rich.console import Console
from rich.table import Table

from sitegen.cli.answers import Json, local_id, of_quantity, quantity_json
from sitegen.cli.recipe import of_recipe
from sitegen.cli.shell import answer, archive_option, json_option, load, refusals
from sitegen.compute.bath_life import BathLife, bath_lives
from sitegen.compute.moments import moment, parse_hours, parse_moment
from sitegen.compute.timeline import Placed, Reach, Timeline, timeline_from, timeline_until
from sitegen.problems import Refusal
from sitegen.render.calendar import calendar
from sitegen.render.dated import bath_warnings, clock, span
from sitegen.render.length import lasting
from sitegen.write.single import write_single


@click.command("timeline", short_help="When each stage begins, and when the print is ready.")
@click.argument("recipe")
@click.option("--start", metavar="MOMENT", help='When the work begins, local time: "2026-11-28 09:00".')
@click.option("--finish", metavar="MOMENT", help="Or when all must be ready, even if it takes its longest.")
@click.option("--prints", type=int, default=1, show_default=True, help="Prints, each begun when the bench is free.")
@click.option("--hours", metavar="FROM-TO", help="When the bench is open: 08:00-22:00. Waits are held until then.")
@click.option("--ics", type=click.Path(path_type=Path, dir_okay=False), help="Also write it as a calendar file.")
@archive_option
@json_option
def timeline_command(  # noqa: PLR0913  # one parameter an option
    recipe: str,
    folder: Path | None,
    *,
    start: str | None,
    finish: str | None,
    prints: int,
    hours: str | None,
    ics: Path | None,
    as_data: bool,
) -> None:
    """Put RECIPE (its file name without .yaml, or its code) in time.

    \b
    trayside timeline iron-blue --start "2026-11-28 09:00" --prints 2
    trayside timeline iron-blue --finish "2026-11-30 18:00" --hours 08:00-22:00 --ics blue.ics
    """
    with refusals():
        if (start is None) == (finish is None):
            raise Refusal("ask-one-way", "a timeline has one fixed end", "give either --start or --finish")
        day, minutes = parse_moment(start or finish or "")
        computed, slug = of_recipe(recipe, load(folder))
        plan = timeline_from if start else timeline_until
        line = plan(
            computed.archive.recipe_named[slug], minutes, prints=prints, hours=parse_hours(hours) if hours else None
        )
        baths = bath_lives(line, computed.archive)
        if ics:
            write_single(ics, calendar(line, day, stamp=datetime.now(UTC)).encode())
    if as_data:
        answer(_json(line, baths, day))
    else:
        _tell(line, baths, day)
        if ics:
            click.echo(f"\ncalendar: {ics}")


def _json(line: Timeline, baths: tuple[BathLife, ...], day: date) -> Json:
    recipe = line.recipe
    return {
        "recipe": recipe.slug,
        "code": recipe.code,
        "revision": recipe.revision,
        "start": _iso(day, line.start),
        "last_start": None if line.last_start is None else _iso(day, line.last_start),
        "finish": _between(line.finish, day),
        "hands_on": _minutes(line.hands_on),
        "waiting": _minutes(line.waiting),
        "lower_bound": bool(line.untimed),
        "stages": [_placed(placed, day) for placed in line.placed],
        "baths": [_bath(life, recipe.slug, day) for life in baths],
        "warnings": [*line.warnings, *bath_warnings(baths, day)],
    }


def _placed(placed: Placed, day: date) -> Json:
    return {
        "print": placed.print,
        "stage": placed.piece.stage,
        "title": placed.piece.title,
        "kind": placed.piece.kind,
        "start": _between(placed.start, day),
        "end": _between(placed.end, day),
        "takes": _minutes(placed.piece.lasts),
        "held": _minutes(placed.held),
        "overnight": placed.overnight,
        "no_time_given": [step.number for step in placed.piece.steps if step.lasts is None],
    }


def _bath(life: BathLife, slug: str, day: date) -> Json:
    mixture = life.mixture
    return {
        "mixture": local_id(mixture.id, slug),
        "name": mixture.name,
        "keeps": of_quantity(mixture.keeps) if mixture.keeps else None,
        "verdict": life.verdict,
        "batches": [
            {
                "needed": _between(batch.needed, day),
                "until": _between(batch.until, day),
                "mix_not_before": None if batch.not_before is None else _iso(day, batch.not_before),
            }
            for batch in life.batches
        ],
    }


def _between(reach: Reach, day: date) -> Json:
    return {"earliest": _iso(day, reach.low), "latest": _iso(day, reach.high)}


def _iso(day: date, minutes: Fraction) -> str:
    return moment(day, minutes).isoformat()


def _minutes(reach: Reach) -> Json:
    return quantity_json(min(reach.low, reach.high), max(reach.low, reach.high), "min")


def _tell(line: Timeline, baths: tuple[BathLife, ...], day: date) -> None:
    recipe = line.recipe
    least = "at least " if line.untimed else ""
    click.echo(f"{recipe.title} ({recipe.code}, revision {recipe.revision})")
    click.echo(f"start     {clock(day, line.start)}")
    if line.last_start is not None:
        click.echo(f"          after {clock(day, line.last_start)} even the shortest times are too long")
    click.echo(f"ready     {least}{span(line.finish, day)}")
    click.echo(f"hands on  {least}{lasting(line.hands_on.low, line.hands_on.high)} a print")
    click.echo(f"waiting   {lasting(line.waiting.low, line.waiting.high)} a print\n")
    Console(highlight=False).print(_table(line, day))
    for warning in (*line.warnings, *bath_warnings(baths, day)):
        click.echo(f"note: {warning}")


def _table(line: Timeline, day: date) -> Table:
    table = Table(box=None, pad_edge=False, header_style="")
    several = line.placed[-1].print > 1
    for name in (*(["print"] if several else []), "stage", "begins", "takes", ""):
        table.add_column(name, no_wrap=name == "begins")
    for placed in line.placed:
        piece = placed.piece
        title = piece.title if piece.kind == "work" else f"{piece.title}, left alone" if piece.steps else "  wait"
        takes = lasting(piece.lasts.low, piece.lasts.high) if piece.lasts.high else "no time given"
        night = {"yes": "overnight", "perhaps": "overnight?", "no": ""}[placed.overnight]
        row = (title, span(placed.start, day), takes, night)
        table.add_row(*([str(placed.print)] if several else []), *row)
    return table
