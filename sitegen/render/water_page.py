"""The page of waters: what is known of each place's, and what it asks of the archive's recipes."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from sitegen.compute.water import WaterPlace, limit, rounded, water_places
from sitegen.compute.water_table import RuleDoc, water_table
from sitegen.model.recipe import Recipe
from sitegen.model.water import ALKALINITY, HARDNESS, Measure, Reading, Water, WaterUnit
from sitegen.render.frame import Frame
from sitegen.render.links import WATERS
from sitegen.render.page import Page
from sitegen.render.water import NAMES, WaterItem, item, method

_SCALES: Final[dict[Measure, tuple[WaterUnit, ...]]] = {"hardness": HARDNESS, "alkalinity": ALKALINITY}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a water asks of one recipe: each piece of advice once, with the places it is for."""

    recipe: Recipe
    advice: tuple[tuple[WaterItem, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterView:
    """A water with its figures in words and in the other units."""

    water: Water
    readings: tuple[tuple[str, str, str], ...]
    """Name, as written, and the same in other units."""
    asked: tuple[Asked, ...]


def water_page(frame: Frame) -> Page:
    """Every water of the edition and all rules; there also where the archive names no water yet."""
    archive = frame.computed.archive
    places = tuple((recipe, water_places(recipe, archive)) for recipe in archive.recipes)
    return frame.page(
        "water.html",
        WATERS,
        title="Water",
        views=tuple(
            WaterView(water=water, readings=tuple(_readings(water)), asked=tuple(_asked(water, places)))
            for water in archive.settings.waters
        ),
        rules=tuple((id_, rule, _over(rule)) for id_, rule in water_table().rules.items()),
        method=method(),
    )


def _over(rule: RuleDoc) -> str:
    over = limit(rule)
    return f"{NAMES[rule.measure]} above {over.written}" if over and rule.measure else "any water"


def _readings(water: Water) -> Iterator[tuple[str, str, str]]:
    for measure, reading in water.readings.items():
        others = (u for u in _SCALES.get(measure, ()) if not reading.written.endswith(f" {u.symbol}"))
        yield NAMES[measure], reading.written, ", ".join(in_unit(reading, unit) for unit in others)


def in_unit(reading: Reading, unit: WaterUnit) -> str:
    """A reading in another unit, rounded: `2.7–3 mmol/l`."""
    low, high = (rounded(Fraction(end / unit.per)) for end in (reading.low, reading.high))
    return f"{low} {unit.symbol}" if low == high else f"{low}–{high} {unit.symbol}"


def _asked(water: Water, places: tuple[tuple[Recipe, tuple[WaterPlace, ...]], ...]) -> Iterator[Asked]:
    """What is not reached by this water is left out; places that are told the very same stand together."""
    for recipe, found in places:
        told: dict[WaterItem, list[str]] = {}
        for place in found:
            name = f"mixing {place.name}" if place.mixture else place.name
            for one in place.advice:
                told.setdefault(item(replace(one, too_long=False), water), []).append(name)
        kept = tuple((one, tuple(names)) for one, names in told.items() if one.state != "below")
        if kept:
            yield Asked(recipe=recipe, advice=kept)
