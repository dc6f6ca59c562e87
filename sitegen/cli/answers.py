"""Answers as data: quantities as decimal strings, exact and rounded apart."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from sitegen.compute.rounding import Kind, Shown, ladders, show
from sitegen.compute.scale import BASE_UNIT, Scaled, ScaledLine, ScaledMixture
from sitegen.compute.together import Stock, Thing, Together
from sitegen.model.archive import Measuring
from sitegen.model.quantity import Quantity, exact_text

Json = dict[str, Any]


def quantity_json(low: Fraction, high: Fraction, unit: str) -> Json:
    """`{"value": "87.5", "unit": "g"}`, with `"to"` when it is a range."""
    return _json(exact_text(low), exact_text(high), unit)


def of_quantity(quantity: Quantity) -> Json:
    """A quantity in its own unit."""
    return quantity_json(quantity.low, quantity.high, quantity.unit)


def shown_json(shown: Shown) -> Json:
    """A rounded amount."""
    return _json(shown.low, shown.high, shown.unit)


def _json(low: str, high: str, unit: str) -> Json:
    return {"value": low, **({"to": high} if low != high else {}), "unit": unit}


def together_json(found: Together, baths: Mapping[str, Json]) -> Json:
    """The answer of `trayside scale`; `baths` are sessions by mixture.

    The figures of a question that stands alone are on the top level, too.
    """
    recipe = found.answers[0].target.recipe
    asked = [_asked(answer, baths.get(answer.target.local)) for answer in found.answers]
    return {
        "recipe": recipe,
        **(asked[0] if len(asked) == 1 else {}),
        "asked": asked,
        "mixtures": [_mixture(m, recipe) for m in found.batches],
        "total": {
            "mixtures": [_stock(stock, recipe) for stock in found.stocks],
            "ingredients": [_thing(thing) for thing in found.things],
            "unmeasured": [
                {"of": one.of, "name": one.name, "written": one.written, "into": one.batch} for one in found.unmeasured
            ],
        },
        "warnings": list(found.warnings),
    }


def _asked(scaled: Scaled, bath: Json | None) -> Json:
    return {
        "mixture": scaled.target.local,
        "factor": exact_text(scaled.factor),
        "makes": _makes(scaled.mixtures[-1]),
        **({"bath": bath} if bath else {}),
    }


def _stock(stock: Stock, recipe: str) -> Json:
    plan, unit = stock.batch.plan, _unit(stock.batch)
    return {
        "of": local_id(plan.id, recipe),
        "name": plan.name,
        "exact": _makes(stock.batch),
        "measure": shown_json(stock.batch.shown),
        "for": [
            {"mixture": local_id(share.taker, recipe), "exact": quantity_json(share.makes, share.makes, unit)}
            for share in stock.shares
        ],
    }


def _thing(thing: Thing) -> Json:
    return {
        "of": thing.of,
        "name": thing.name,
        "exact": quantity_json(thing.low, thing.high, BASE_UNIT[thing.kind]),
        "measure": shown_json(thing.shown),
        "notes": list(thing.said()),
    }


def local_id(mixture: str, recipe: str) -> str:
    """A mixture's id as the recipe names it: without its own slug, with another's."""
    return mixture.removeprefix(f"{recipe}/")


def _makes(mixture: ScaledMixture) -> Json:
    return quantity_json(mixture.makes, mixture.makes, _unit(mixture))


def _unit(mixture: ScaledMixture) -> str:
    return "ml" if mixture.plan.size == "volume" else "g"


def _mixture(mixture: ScaledMixture, recipe: str) -> Json:
    return {
        "id": local_id(mixture.plan.id, recipe),
        "name": mixture.plan.name,
        "makes": _makes(mixture),
        **({"for": mixture.plan.base} if mixture.plan.base else {}),
        "contains": [_line(line, recipe) for line in mixture.lines],
    }


def _line(line: ScaledLine, recipe: str) -> Json:
    plan = line.line
    exact = None if plan.kind == "words" else quantity_json(line.low, line.high, BASE_UNIT[plan.kind])
    return {
        "of": local_id(plan.of, recipe),
        "name": plan.name,
        "written": plan.written,
        "exact": exact,
        "measure": shown_json(line.shown) if line.shown else None,
        "notes": [note.text() for note in line.notes],
    }


def in_vessels(quantity: Quantity) -> str:
    """A mass or volume in words, to common vessels: where no archive says which ones are at hand."""
    low, high = quantity.base()
    kind: Kind = "mass" if quantity.dimension == "mass" else "volume"
    return show(low, high, ladders(Measuring())["metric"][kind]).text() if high else f"0 {quantity.unit}"
