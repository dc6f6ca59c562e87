"""`trayside expose`: a test strip, and a time after a lamp, the light, stops or a layer changed."""

from fractions import Fraction
from typing import Any, get_args

import click

from sitegen.cli.answers import Json, quantity_json
from sitegen.cli.shell import answer, json_option, refusals
from sitegen.compute.exposure import (
    Change,
    Exposed,
    Source,
    by_lamp,
    by_light,
    by_stops,
    clock,
    exposed,
    parse_stops,
    seconds_of,
    shown_seconds,
    stops_of_factor,
    through_layer,
)
from sitegen.compute.rounding import to_step
from sitegen.compute.strip import Move, Rise, Strip, parse_place, strip_about, strip_from
from sitegen.model.quantity import Quantity, exact_text, parse_number, parse_quantity
from sitegen.problems import Refusal


@click.command("expose", short_help="Test strips, stops, lamp distance, a layer's extra time.")
@click.option("--strip", "first", metavar="TIME", help='A test strip; its shortest band gets this: "4 min".')
@click.option("--around", metavar="TIME", help="A test strip around this time, or the middle of a range.")
@click.option("--steps", type=int, default=7, show_default=True, help="Bands of the strip.")
@click.option("--stops", metavar="STOPS", help="Each band so many stops more: 1/3.")
@click.option("--each", metavar="TIME", help='Each band so much longer: "2 min".')
@click.option("--band", metavar="N", help="The band that came out right, or 4-5 for between two: go on with its time.")
@click.option("--time", metavar="TIME", help='The time so far: "5 min" or "5-8 min".')
@click.option("--more", metavar="STOPS", help="Stops more, or less: 1/2, -1/3.")
@click.option("--from-distance", "was_off", metavar="LENGTH", help='The lamp stood so far off: "2 ft".')
@click.option("--to-distance", "now_off", metavar="LENGTH", help='The lamp will stand so far off: "60 cm".')
@click.option(
    "--lamp",
    type=click.Choice(get_args(Source)),
    default="small",
    show_default=True,
    help="What gives the light: a small lamp, wide tubes or a panel, the sun.",
)
@click.option("--lamp-width", metavar="LENGTH", help="Across the lamp's shining face: tells how far to trust it.")
@click.option("--light-was", metavar="N", help="What a meter read then, in a unit that doubles with the light.")
@click.option("--light-now", metavar="N", help="What the same meter reads now.")
@click.option(
    "--through", metavar="LAYER", help='An earlier layer: "1/2 stop", "density 0.15", or two times "4 min to 6 min".'
)
@click.option("--film-power", metavar="P", help="For long exposures on camera film, from its maker's sheet: 1.31.")
@json_option
def expose_command(*, as_data: bool, **options: Any) -> None:
    """Plan a test strip, or work out a time after something changed.

    \b
    trayside expose --strip "4 min" --steps 7 --stops 1/3
    trayside expose --around "12 min" --steps 5 --each "3 min"
    trayside expose --time "5 min" --from-distance "2 ft" --to-distance "4 ft"
    trayside expose --strip "4 min" --stops 1/3 --band 4-5 --through "1/2 stop"
    """
    with refusals():
        strip = _strip(options)
        if (options["band"] is not None) and strip is None:
            raise Refusal("ask-one-way", "--band names a band of a strip", "give the strip, too, as it was made")
        result = _exposed(options, strip)
    if as_data:
        answer(_json(strip, result))
    else:
        _tell(strip, result)


def _strip(options: dict[str, Any]) -> Strip | None:
    first, around = options["first"], options["around"]
    if first is None and around is None:
        if options["stops"] or options["each"]:
            raise Refusal(
                "ask-one-way", "--stops and --each are steps of a strip", 'say where it begins: --strip "4 min"'
            )
        return None
    if first is not None and around is not None:
        raise Refusal("ask-one-way", "a strip begins or is centred somewhere", "give --strip or --around")
    rise = Rise(
        seconds=_seconds(options["each"]) if options["each"] else Fraction(0),
        stops=parse_stops(options["stops"]) if options["stops"] else Fraction(0),
    )
    if first is None:
        return strip_about(parse_quantity(around, "time"), rise, options["steps"])
    return strip_from(_seconds(first), rise, options["steps"])


def _seconds(text: str) -> Fraction:
    return seconds_of(parse_quantity(text, "time", single=True))


def _exposed(options: dict[str, Any], strip: Strip | None) -> Exposed | None:
    """The time asked for: of the chosen band or as given, after all changes; None for a strip alone."""
    changes, power = _changes(options), options["film_power"]
    time = parse_quantity(options["time"], "time") if options["time"] else None
    if strip and time:
        raise Refusal("ask-one-way", "a strip and a time were given", "say which band was right: --band 4")
    if strip and options["band"]:
        seconds = strip.seconds_at(parse_place(options["band"], len(strip.bands)))
        time = Quantity(low=seconds, high=seconds, unit="s")
    elif time and not changes and power is None:
        raise Refusal("ask-what-changes", "nothing changes", "give --more, --to-distance, --light-now or --through")
    if time is not None:
        return exposed(time, changes, film_power=parse_number(power) if power else None)
    if changes or power or strip is None:
        raise Refusal(
            "ask-how-long", "there is no time to begin with", 'give --time "5 min", or a strip and its --band'
        )
    return None


def _changes(options: dict[str, Any]) -> tuple[Change, ...]:
    changes = []
    if options["more"]:
        changes.append(by_stops(parse_stops(options["more"])))
    if pair := _both(options, "was_off", "now_off", "--from-distance and --to-distance"):
        was, now = (parse_quantity(text, "length", single=True).base()[0] for text in pair)
        width = options["lamp_width"]
        broad = parse_quantity(width, "length", single=True).base()[0] if width else None
        changes.append(by_lamp(options["lamp"], was, now, width=broad))
    elif options["lamp_width"]:
        raise Refusal("ask-one-way", "--lamp-width goes with a distance", "give --from-distance and --to-distance")
    if pair := _both(options, "light_was", "light_now", "--light-was and --light-now"):
        changes.append(by_light(parse_number(pair[0]), parse_number(pair[1])))
    if options["through"]:
        changes.append(through_layer(options["through"]))
    return tuple(changes)


def _both(options: dict[str, Any], was: str, now: str, names: str) -> tuple[str, str] | None:
    if (options[was] is None) != (options[now] is None):
        raise Refusal("ask-both", f"{names} go together", "give both")
    return None if options[was] is None else (options[was], options[now])


def _json(strip: Strip | None, result: Exposed | None) -> Json:
    said = (*(strip.warnings if strip else ()), *(result.warnings if result else ()))
    data: Json = {}
    if strip:
        data["strip"] = {
            "bands": [
                {
                    "band": band.number,
                    "exact": quantity_json(band.exact, band.exact, "s"),
                    "measure": _whole(band.seconds),
                    "clock": clock(Fraction(band.seconds)),
                    "stops": None if band.stops is None else exact_text(band.stops),
                }
                for band in strip.bands
            ],
            "covering": [_move(move) for move in strip.covering],
            "uncovering": [_move(move) for move in strip.uncovering],
        }
    if result:
        low, high = result.time.low, result.time.high
        data |= {
            "was": quantity_json(result.was.low, result.was.high, "s"),
            "changes": [
                {"why": c.why, "factor": exact_text(c.factor), "stops": exact_text(stops_of_factor(c.factor))}
                for c in result.changes
            ],
            "film_power": None if result.film_power is None else exact_text(result.film_power),
            "exact": quantity_json(low, high, "s"),
            "measure": quantity_json(shown_seconds(low), shown_seconds(high), "s"),
            "clock": _clocks(result.time),
            "added": quantity_json(*result.added, "s"),
        }
    return {**data, "warnings": list(said)}


def _move(move: Move) -> Json:
    return {"at": _whole(move.at), "clock": clock(Fraction(move.at)), "do": move.do, "band": move.band}


def _whole(seconds: int) -> Json:
    return quantity_json(Fraction(seconds), Fraction(seconds), "s")


def _tell(strip: Strip | None, result: Exposed | None) -> None:
    if strip:
        for band in strip.bands:
            click.echo(f"band {band.number:>2}  {clock(Fraction(band.seconds)):>9}")
        click.echo("\nlamp on, all bands bare; when the clock shows")
        _tell_moves(strip.covering)
        click.echo("\nor all bands covered, lamp and clock on; when the clock shows")
        _tell_moves(strip.uncovering)
    if strip and result:
        click.echo()
    if result:
        click.echo(f"from  {_clocks(result.was)}")
        for change in result.changes:
            click.echo(f"      {change.words}: times {exact_text(to_step(change.factor, Fraction(1, 1000)))}")
        if result.film_power is not None:
            click.echo(f"      film: seconds to the power {exact_text(result.film_power)}")
        click.echo(f"to    {_clocks(result.time)}")
    for warning in (*(strip.warnings if strip else ()), *(result.warnings if result else ())):
        click.echo(f"note: {warning}")


def _tell_moves(moves: tuple[Move, ...]) -> None:
    for move in moves:
        what = move.do if move.do == "lamp off" else f"{move.do} band {move.band}"
        click.echo(f"  {clock(Fraction(move.at)):>9}  {what}")


def _clocks(time: Quantity) -> str:
    low, high = clock(time.low), clock(time.high)
    return low if low == high else f"{low} to {high}"
