"""`trayside swap`: the form in the jar for the form in the recipe."""

from fractions import Fraction
from pathlib import Path

import click

from sitegen.check import check_archive
from sitegen.cli.answers import Json, in_vessels, of_quantity
from sitegen.cli.shell import answer, archive_option, find_archive, json_option, refusals
from sitegen.compute.rounding import to_figures
from sitegen.compute.swap import Swap, swaps
from sitegen.model.archive import Archive
from sitegen.model.quantity import exact_text, parse_quantity
from sitegen.problems import Problems, Refusal
from sitegen.read import compose_sources, read_folder
from sitegen.read.folder import base_cards


@click.command("swap", short_help="One form of a substance for another.")
@click.argument("amount")
@click.argument("wanted", metavar="FROM")
@click.argument("in_jar", metavar="TO")
@archive_option
@json_option
def swap_command(amount: str, wanted: str, in_jar: str, folder: Path | None, *, as_data: bool) -> None:
    """How much of TO (what is in the jar) does the work of AMOUNT of FROM (what the recipe says).

    FROM and TO are ids or any of their names. A name that does not tell the form gets every answer.

    \b
    trayside swap "100 g" "soda crystals" "soda ash"
    """
    with refusals():
        found = swaps(parse_quantity(amount), wanted, in_jar, _cards(folder))
    if not as_data:
        _tell(found)
    elif len(found) == 1:
        answer(_json(found[0]))
    else:
        answer({"choices": [_json(one) for one in found], "warnings": [_unclear(wanted, in_jar)]})


def _cards(folder: Path | None) -> Archive:
    """The archive's cards where there is one, else the base set: a swap needs no recipe."""
    problems = Problems()
    try:
        sources = read_folder(find_archive(folder), problems)
    except Refusal:
        sources = compose_sources({**base_cards(), "archive.yaml": "title: base set"}, problems)
    archive = check_archive(sources, problems)
    if archive is None:
        raise Refusal("no-archive-here", "the archive cannot be read", "run `trayside proof` to see why")
    return archive


def _unclear(wanted: str, in_jar: str) -> str:
    return f"`{wanted}` to `{in_jar}` does not tell the forms: read the label, and take the line that matches"


def _json(found: Swap) -> Json:
    low, high = found.factor
    return {
        "from": {"substance": found.wanted.id, "amount": of_quantity(found.amount)},
        "to": {"substance": found.in_jar.id, "amount": of_quantity(found.answer)},
        "factor": _factor(low),
        **({"factor to": _factor(high)} if low != high else {}),
        "exact": found.exact,
        "warnings": list(found.warnings),
    }


def _factor(value: Fraction) -> str:
    """Four figures, as factors are printed in tables."""
    return exact_text(to_figures(value, 4))


def _tell(found: tuple[Swap, ...]) -> None:
    for one in found:
        low, high = one.factor
        factor = _factor(low) if low == high else f"{_factor(low)}–{_factor(high)}"
        click.echo(f"{in_vessels(one.amount)} of {one.wanted.name}")
        click.echo(f"  = {in_vessels(one.answer)} of {one.in_jar.name}  (factor {factor})")
        for warning in one.warnings:
            click.echo(f"  note: {warning}")
    if len(found) > 1:
        click.echo("These names do not tell the form: read the label, and take the line that matches.")
