"""`trayside water`: what a recipe asks of a water, or a water in all units with the acid that it takes up."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import click

from sitegen.cli.answers import quantity_json
from sitegen.cli.recipe import of_recipe
from sitegen.cli.shell import answer, archive_option, json_option, load, no, refusals
from sitegen.compute.water import WaterPlace, acid_sum, figure, water_places
from sitegen.compute.water_table import water_table
from sitegen.model.archive import Archive
from sitegen.model.water import UNITS_OF, Measure, Reading, Water, parse_reading
from sitegen.problems import Refusal, did_you_mean
from sitegen.render.water import NAMES, default_water, item
from sitegen.render.water_page import in_unit

_FOOT = "Worked out, not tried: put a strip through first. What no rule speaks of is not called harmless."
_OPTIONS: dict[str, Measure] = {
    "ph": "pH",
    "hardness": "hardness",
    "alkalinity": "alkalinity",
    "chlorine": "chlorine",
    "chloride": "chloride",
    "iron": "iron",
}


@click.command("water", short_help="What a place's water asks of a recipe.")
@click.argument("recipe", required=False, metavar="[RECIPE]")
@click.option("--water", "name", metavar="ID", help="One of the archive's waters; by default its first.")
@click.option("--ph", metavar="PH", help='A figure or a range: "7.4-7.8".')
@click.option("--hardness", metavar="HARDNESS", help='Calcium and magnesium: "15 °dH", "180 ppm".')
@click.option("--alkalinity", metavar="ALKALINITY", help='Carbonate hardness: "12 °dH", "240 mg/l HCO3".')
@click.option("--chlorine", metavar="AMOUNT", help='Free chlorine: "0.2 mg/l".')
@click.option("--chloride", metavar="AMOUNT", help='"40 mg/l".')
@click.option("--iron", metavar="AMOUNT", help='"0.1 mg/l".')
@archive_option
@json_option
def water_command(
    *, recipe: str | None, name: str | None, folder: Path | None, as_data: bool, **given: str | None
) -> None:
    """What a recipe asks of a water, by the archive's waters or by figures; without a recipe, the figures in other
    units and the acid that the carbonate hardness takes up.

    \b
    trayside water iron-blue --water well
    trayside water iron-blue --ph 7.8 --hardness "15 °dH" --alkalinity "11 °dH"
    trayside water --hardness "15 °dH"
    """
    with refusals():
        own = {_OPTIONS[key]: parse_reading(_OPTIONS[key], text) for key, text in given.items() if text}
        if name and own:
            raise Refusal("ask-one-way", "a water of the archive and figures are given", "give --water ID, or figures")
        if recipe is None:
            if not own:
                raise Refusal("ask-something", "nothing is asked", 'name a recipe, or give such as --hardness "15 °dH"')
            _tell_figures(own, as_data=as_data)
            return
        computed, slug = of_recipe(recipe, load(folder))
        archive = computed.archive
        water = Water(id="", name="the water you give", readings=own) if own else _named(name, archive)
    places = water_places(archive.recipe_named[slug], archive)
    if as_data:
        answer({"recipe": slug, "water": _water_json(water), "places": [_place_json(p, water) for p in places]})
        return
    click.echo("\n".join(_lines(water, places)))


def _named(name: str | None, archive: Archive) -> Water:
    waters = archive.settings.waters
    if name is None:
        return default_water(archive.settings)
    found = next((water for water in waters if water.id == name), None)
    if found is None:
        known = [water.id for water in waters]
        listed = ", ".join(f"`{id_}`" for id_ in known) or "none yet; add `water:` to archive.yaml"
        no(Refusal("unknown-water", f"there is no water `{name}`", did_you_mean(name, known) or f"there is {listed}"))
    return found


def _lines(water: Water, places: tuple[WaterPlace, ...]) -> Iterator[str]:
    known = ", ".join(f"{NAMES[m]} {reading.written}" for m, reading in water.readings.items())
    yield f"{water.name}: {known or 'no figure is known'}"
    for place in places:
        yield ""
        yield f"mixing {place.name}" if place.mixture else f"{place.name} ({place.role})"
        for one in place.advice:
            found = item(one, water)
            yield f"  {one.title}: {found.words}"
            if found.state != "below":
                longest = f"at most {one.longest.high} {one.longest.unit}" if one.longest else ""
                said = (one.says, longest, *found.figures, one.refused, one.heed, f"source: {one.source}")
                yield from (f"    {line}" for line in said if line)
        if not place.advice:
            yield "  no rule speaks of the water here"
    yield ""
    yield _FOOT


def _place_json(place: WaterPlace, water: Water) -> dict[str, Any]:
    told = []
    for one in place.advice:
        found = item(one, water)
        acid, lost = (figure(s, water) if s else None for s in (one.acid, one.lost))
        told.append(
            {
                "rule": one.rule,
                "title": one.title,
                "state": found.state,
                "because": found.words,
                "says": one.says,
                "figures": list(found.figures),
                "acid": _ends(acid, one.acid.unit) if acid and one.acid else None,
                "lost": _ends(lost, one.lost.unit) if lost and one.lost else None,
                "refused": one.refused,
                "heed": one.heed,
                "source": one.source,
            }
        )
    return {"id": place.id, "name": place.name, "role": place.role, "advice": told}


def _ends(ends: tuple[str, str], unit: str) -> dict[str, str]:
    return {"value": ends[0], **({"to": ends[1]} if ends[0] != ends[1] else {}), "unit": f"{unit}/l"}


def _water_json(water: Water) -> dict[str, Any]:
    return {"id": water.id, "name": water.name, "readings": {m: r.written for m, r in water.readings.items()}}


def _tell_figures(own: Mapping[Measure, Reading], *, as_data: bool) -> None:
    water = Water(id="", name="", readings=own)
    acids = {id_: (acid_sum(id_), figure(acid_sum(id_), water)) for id_ in water_table().acids}
    if as_data:
        units = {
            m: [quantity_json(r.low / u.per, r.high / u.per, u.symbol) for u in UNITS_OF.get(m, ())]
            for m, r in own.items()
        }
        told = {id_: _ends(ends, one.unit) for id_, (one, ends) in acids.items() if ends}
        answer({"readings": units, "acids": told})
        return
    for measure, reading in own.items():
        others = [in_unit(reading, unit) for unit in UNITS_OF.get(measure, ()) if len(UNITS_OF[measure]) > 1]
        click.echo(f"{NAMES[measure]} {reading.written}" + (f" = {', '.join(others)}" if others else ""))
    for id_, (one, ends) in acids.items():
        if ends:
            amount = ends[0] if ends[0] == ends[1] else "–".join(ends)
            note = water_table().acids[id_].note
            click.echo(f"takes up, a litre: {amount} {one.unit} of {one.of}" + (f". {note}" if note else ""))
    if "alkalinity" not in own and "hardness" in own:
        click.echo("no acid is worked out: hardness is not carbonate hardness; give --alkalinity")
