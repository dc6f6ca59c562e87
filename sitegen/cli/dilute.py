"""`trayside dilute`: parts, or one strength to another."""

import click

from sitegen.cli.answers import in_vessels, of_quantity
from sitegen.cli.shell import answer, json_option, refusals
from sitegen.compute.dilute import (
    Diluted,
    dilute_by_parts,
    dilute_to_strength,
    parse_concentrations,
)
from sitegen.model.dilution import parse_dilution
from sitegen.model.quantity import parse_quantity
from sitegen.problems import Refusal


@click.command("dilute", short_help="How much stock and how much water.")
@click.option("--ratio", metavar="A+B", help="Parts of stock and of diluent: 1+9.")
@click.option("--stock", "strength", metavar="STRENGTH", help='The stock\'s strength: "10 % w/v".')
@click.option("--to", metavar="STRENGTH", help='The strength wanted: "2 % w/v" or "1 mol/l".')
@click.option("--density", default="", metavar="DENSITY", help='The stock\'s, for % w/w: "1.18 g/ml".')
@click.option("--formula", default="", metavar="FORMULA", help="For mol/l: HCl.")
@click.option("--make", metavar="AMOUNT", help='How much is wanted: "500 ml".')
@click.option("--have", metavar="AMOUNT", help='How much stock there is: "40 ml".')
@json_option
def dilute_command(  # noqa: PLR0913  # one parameter an option
    *,
    ratio: str | None,
    strength: str | None,
    to: str | None,
    density: str,
    formula: str,
    make: str | None,
    have: str | None,
    as_data: bool,
) -> None:
    """Dilute a stock by parts, or from one strength to another.

    \b
    trayside dilute --ratio 1+9 --make "500 ml"
    trayside dilute --stock "37 % w/w" --density "1.18 g/ml" --to "1 mol/l" --formula HCl --make "1 l"
    """
    with refusals():
        wanted = parse_quantity(make, single=True) if make else None
        left = parse_quantity(have, single=True) if have else None
        if ratio and not (strength or to):
            diluted = dilute_by_parts(parse_dilution(ratio), make=wanted, have=left)
        elif strength and to and not ratio:
            stock, goal = parse_concentrations(strength, to, density=density, formula=formula)
            diluted = dilute_to_strength(stock, goal, make=wanted, have=left)
        else:
            raise Refusal("ask-one-way", "say how to dilute", "give --ratio 1+9, or both --stock and --to")
    if as_data:
        answer(
            {
                "stock": of_quantity(diluted.stock),
                "diluent": of_quantity(diluted.diluent),
                "makes": of_quantity(diluted.makes),
                "warnings": list(diluted.warnings),
            }
        )
    else:
        _tell(diluted)


def _tell(diluted: Diluted) -> None:
    rest = f"to make {in_vessels(diluted.makes)}" if diluted.make_up else f"{in_vessels(diluted.diluent)}"
    click.echo(f"stock    {in_vessels(diluted.stock)}")
    click.echo(f"diluent  {rest}" + (f"  (nearly {in_vessels(diluted.diluent)})" if diluted.make_up else ""))
    click.echo(f"makes    {in_vessels(diluted.makes)}")
    for warning in diluted.warnings:
        click.echo(f"note: {warning}")
