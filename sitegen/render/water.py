"""Water on a recipe's page: the advice at each place for the archive's first water, and what the browser is handed.

The words are made here; `assets/water-rules.js` makes the same ones for another water, from the same templates.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from markupsafe import Markup

from sitegen.compute.water import UNNAMED, Advice, State, Sum, WaterPlace, acid_sum, figure, state, water_places
from sitegen.compute.water_table import water_table
from sitegen.model.archive import Settings
from sitegen.model.quantity import exact_text
from sitegen.model.recipe import Recipe
from sitegen.model.water import EXAMPLES, MEASURES, UNITS_OF, Measure, Water, WaterUnit
from sitegen.render.frame import Frame, data_block

Json = dict[str, Any]
NAMES: Final[Mapping[Measure, str]] = {
    "pH": "pH",
    "hardness": "hardness",
    "alkalinity": "carbonate hardness",
    "chlorine": "chlorine",
    "chloride": "chloride",
    "iron": "iron",
}
_USUAL: Final[tuple[Measure, ...]] = ("pH", "hardness", "alkalinity")
STATES: Final[Mapping[State, str]] = {
    "always": "whatever the water",
    "holds": "{name} {written}, above {over}",
    "at times": "{name} {written}, above {over} at times",
    "unknown": "{name} not known; it matters above {over}",
    "below": "{name} {written}, not above {over} when it was measured. Supplies change, so this is no promise.",
}
FIGURES: Final = {
    "acid": "{amount} {unit} of {of} to each litre take up this water's carbonate hardness (reckoned, to pH {aim}).",
    "acid hardness": "Only the hardness is known, and hardness is not carbonate hardness: no acid is worked out.",
    "acid unknown": "The carbonate hardness is not known: no acid is worked out.",
    "lost": "The chloride in a litre of it makes {amount} {unit} of {of} useless.",
    "lost unknown": "How much chloride it holds is not known.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterItem:
    """A piece of advice as it stands for one water; `number` is its place in the data block."""

    number: int
    advice: Advice
    state: State
    words: str
    figures: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterPanel:
    """What a recipe's page shows: the water it is for, where mixing and steps are told something, and the data."""

    water: Water
    waters: tuple[Water, ...]
    mixing: tuple[tuple[WaterPlace, tuple[WaterItem, ...]], ...]
    steps: Mapping[tuple[int, int], tuple[WaterItem, ...]]
    rules: tuple[Advice, ...]
    """Each rule that speaks here once, as it is for no water in particular."""
    measures: tuple[Measure, ...]
    """What a reader may fill in: what these rules ask for, and what is on every analysis."""
    data: Markup
    names: Mapping[Measure, str]
    units: Mapping[Measure, tuple[WaterUnit, ...]]
    examples: Mapping[Measure, str]
    method: str


def water_panel(recipe: Recipe, frame: Frame) -> WaterPanel | None:
    """The panel of a recipe; None where no water matters."""
    archive = frame.computed.archive
    places = water_places(recipe, archive)
    if not any(place.advice for place in places):
        return None
    settings = archive.settings
    water = default_water(settings)
    advice = [one for place in places for one in place.advice]
    found: list[tuple[WaterPlace, tuple[WaterItem, ...]]] = []
    number = 0
    for place in places:
        found.append((place, tuple(item(one, water, number + n) for n, one in enumerate(place.advice))))
        number += len(place.advice)
    asked = {m for one in advice for m in (one.measure, one.acid and one.acid.measure, one.lost and one.lost.measure)}
    return WaterPanel(
        water=water,
        waters=settings.waters,
        mixing=tuple((place, items) for place, items in found if place.mixture),
        steps={(place.stage, place.step): items for place, items in found if not place.mixture},
        rules=tuple({one.rule: one for one in reversed(advice)}.values())[::-1],
        measures=tuple(m for m in MEASURES if m in asked or m in _USUAL),
        data=data_block(panel_json(settings, advice)),
        names=NAMES,
        units=UNITS_OF,
        examples=EXAMPLES,
        method=method(),
    )


def method() -> str:
    """How acid is reckoned, and what that leaves out."""
    aim = water_table().aim
    return (
        f"Acid is reckoned from the carbonate hardness alone: so much that its bicarbonate is carbonic acid at pH "
        f"{exact_text(aim.ph)} (pK {exact_text(aim.carbonic)}), each acid giving away as many protons as it has lost "
        f"there. Chalk in the paper takes acid, too, and is not reckoned in. {aim.source}"
    )


def default_water(settings: Settings) -> Water:
    """The water that pages and sheets are for until a reader names another."""
    return settings.waters[0] if settings.waters else UNNAMED


def item(advice: Advice, water: Water, number: int = 0) -> WaterItem:
    """A piece of advice for one water, in words."""
    found = state(advice, water)
    return WaterItem(
        number=number, advice=advice, state=found, words=state_words(advice, water), figures=figures(advice, water)
    )


def state_words(advice: Advice, water: Water) -> str:
    """Whether and why a rule holds for a water."""
    reading = water.readings.get(advice.measure) if advice.measure else None
    return STATES[state(advice, water)].format(
        name=NAMES[advice.measure] if advice.measure else "",
        written=reading.written if reading else "",
        over=advice.over.written if advice.over else "",
    )


def figures(advice: Advice, water: Water) -> tuple[str, ...]:
    """The figures of a rule for a water, in sentences; that one is missing is a sentence, too."""
    found = []
    if advice.acid:
        known = figure(advice.acid, water)
        missing = "acid hardness" if "hardness" in water.readings else "acid unknown"
        found.append(_sum("acid", advice.acid, known) if known else FIGURES[missing])
    if advice.lost:
        known = figure(advice.lost, water)
        found.append(_sum("lost", advice.lost, known) if known else FIGURES["lost unknown"])
    return tuple(found)


def _sum(kind: str, found: Sum, ends: tuple[str, str]) -> str:
    amount = ends[0] if ends[0] == ends[1] else "–".join(ends)
    return FIGURES[kind].format(amount=amount, unit=found.unit, of=found.of, aim=acid_aim())


def panel_json(settings: Settings, advice: list[Advice]) -> Json:
    """What the browser needs to judge another water: plain numbers and the templates of the words."""
    return {
        "archive": settings.title,
        "waters": [_water_json(water) for water in settings.waters],
        "items": [_advice_json(one) for one in advice],
        **common_json(),
    }


def sums_json() -> Json:
    """What the bench needs: measures with their units, and every acid of the table."""
    acids = {id_: acid_sum(id_) for id_ in water_table().acids}
    notes = {id_: doc.note or "" for id_, doc in water_table().acids.items()}
    return {
        **common_json(),
        "acids": [{"per": str(a.per), "unit": a.unit, "of": a.of, "note": notes[id_]} for id_, a in acids.items()],
    }


def acid_aim() -> str:
    """The pH to which acid is reckoned."""
    return exact_text(water_table().aim.ph)


def common_json() -> Json:
    """Measures with their units, and the templates; exact numbers as text."""
    return {
        "measures": {
            m: {
                "name": NAMES[m],
                "example": EXAMPLES[m],
                "units": [{"symbol": u.symbol, "per": str(u.per), "means": u.means} for u in UNITS_OF.get(m, ())],
            }
            for m in MEASURES
        },
        "states": dict(STATES),
        "figures": dict(FIGURES),
        "aim": acid_aim(),
    }


def _water_json(water: Water) -> Json:
    readings = {m: [str(r.low), str(r.high), r.written] for m, r in water.readings.items()}
    return {"id": water.id, "name": water.name, "readings": readings}


def _advice_json(advice: Advice) -> Json:
    over = [str(advice.over.high), advice.over.written] if advice.over else None
    return {
        "measure": advice.measure,
        "over": over,
        "acid": _sum_json(advice.acid),
        "lost": _sum_json(advice.lost),
    }


def _sum_json(found: Sum | None) -> Json | None:
    if found is None:
        return None
    return {"measure": found.measure, "per": str(found.per), "unit": found.unit, "of": found.of}
