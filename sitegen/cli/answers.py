"""Answers as data: quantities as decimal strings, exact and rounded apart."""

from fractions import Fraction
from typing import Any

from sitegen.compute.rounding import Kind, Shown, ladders, show
from sitegen.compute.scale import BASE_UNIT, Scaled, ScaledLine, ScaledMixture
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


def scaled_json(scaled: Scaled) -> Json:
    """The answer of `trayside scale`."""
    wanted = scaled.mixtures[-1]
    return {
        "recipe": scaled.target.recipe,
        "mixture": scaled.target.local,
        "factor": exact_text(scaled.factor),
        "makes": _makes(wanted),
        "mixtures": [_mixture(m, scaled) for m in scaled.mixtures],
        "warnings": list(scaled.warnings),
    }


def local_id(mixture: str, recipe: str) -> str:
    """A mixture's id as the recipe names it: without its own slug, with another's."""
    return mixture.removeprefix(f"{recipe}/")


def _makes(mixture: ScaledMixture) -> Json:
    unit = "ml" if mixture.plan.size == "volume" else "g"
    return quantity_json(mixture.makes, mixture.makes, unit)


def _mixture(mixture: ScaledMixture, scaled: Scaled) -> Json:
    return {
        "id": local_id(mixture.plan.id, scaled.target.recipe),
        "name": mixture.plan.name,
        "makes": _makes(mixture),
        **({"for": mixture.plan.base} if mixture.plan.base else {}),
        "contains": [_line(line, scaled.target.recipe) for line in mixture.lines],
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
