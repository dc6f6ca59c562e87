"""Random questions, each as a reader fills it in and as Python puts it; every way of asking, seeded."""

import random
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from sitegen.compute.ask import (
    Have,
    Make,
    People,
    Question,
    Sheets,
    Tray,
    parse_allowance,
    parse_base,
    parse_factor,
    parse_left,
    parse_sheets,
    parse_tray,
)
from sitegen.compute.plan import Target
from sitegen.compute.rounding import System
from sitegen.model.quantity import parse_quantity
from sitegen.model.sizes import PAPER_SIZES
from sitegen.model.units import UNITS
from tests.browser.desk import Asked

SYSTEMS: tuple[System, ...] = ("metric", "US", "imp")
TINY = ("µg", "µl")
UNITS_OF = {
    dimension: [u.symbol for u in UNITS if u.dimension == dimension and u.symbol not in TINY]
    for dimension in ("mass", "volume", "length", "coverage", "drops", "pieces")
}
SHARED_WAYS = ("make", "tray", "sheets")
Filled = tuple[dict[str, Any], Question]


def questions(target: Target, dice: random.Random) -> Iterator[Asked]:
    """One question for every way of asking that makes sense, in every system of measures."""
    for way in ways(target):
        for system in SYSTEMS:
            blanks, question = fill(way, target, dice)
            filled = {"mix": target.local, "ask": way, "measures": system, **blanks}
            yield Asked(target=target, blanks=filled, question=question, system=system)


def ways(target: Target) -> list[str]:
    """The ways of asking that make sense for a target: what the page must offer."""
    if target.size == "base":
        return ["base", "have"] if target.totals else ["base"]
    found = ["make"]
    if not target.nominal:
        found.append("factor")
    if target.size == "volume" or target.density is not None:
        found += ["tray", "sheets"]
    if target.totals:
        found.append("have")
    return [*found, "people"]


def fill(way: str, target: Target, dice: random.Random) -> Filled:
    """One way's blanks filled in at random, and the question they ask."""
    match way:
        case "make":
            amount, unit = number(dice), dice.choice(units(target.size, has_density=target.density is not None))
            return {"amount": amount, "unit": unit}, Make(quantity=parse_quantity(f"{amount} {unit}"))
        case "factor":
            times = number(dice)
            return {"times": times}, parse_factor(times)
        case "tray":
            return tray(dice)
        case "sheets":
            return sheets(target, dice)
        case "have":
            return have(target, dice)
        case "base":
            amount, unit = number(dice), dice.choice(UNITS_OF["mass"])
            return {"base": amount, "base-unit": unit}, parse_base(f"{target.base}={amount} {unit}")
        case _:
            return people(target, dice)


def tray(dice: random.Random) -> Filled:
    sides, unit = [number(dice) for _ in range(3)], dice.choice(UNITS_OF["length"])
    names = ("tray-long", "tray-wide", "depth")
    return {**dict(zip(names, sides, strict=True)), "tray-unit": unit}, parse_tray(f"{'x'.join(sides)} {unit}")


def sheets(target: Target, dice: random.Random) -> Filled:
    count, coats, extra = (str(dice.randint(1, top)) for top in (40, 4, 300))
    blanks = {"sheets": count, "coats": coats, "extra": extra}
    if dice.random() < 0.4:
        blanks["paper"] = size = dice.choice(list(PAPER_SIZES)).upper()
    else:
        long, wide, unit = number(dice), number(dice), dice.choice(UNITS_OF["length"])
        blanks |= {"long": long, "wide": wide, "size-unit": unit}
        size = f"{long}x{wide} {unit}"
    coverage = None
    if target.coverage is None or dice.random() < 0.3:
        rate, unit = number(dice), dice.choice(UNITS_OF["coverage"])
        blanks |= {"coverage": rate, "coverage-unit": unit}
        coverage = f"{rate} {unit}"
    allowance = parse_allowance(f"{extra} %")
    return blanks, parse_sheets(f"{count} of {size}", coats=coats, allowance=allowance, coverage=coverage)


def have(target: Target, dice: random.Random) -> Filled:
    names = list(dict.fromkeys(total.of for total in target.totals))
    left = []
    for name in dice.sample(names, dice.randint(1, min(3, len(names)))):
        totals = [t for t in target.totals if t.of == name]
        ways = [set(units(t.kind, has_density=t.density is not None)) for t in totals]
        left.append({"of": name, "amount": number(dice), "unit": dice.choice(sorted(set.intersection(*ways)))})
    return {"left": left}, Have(left=tuple(parse_left(f"{o['of']}={o['amount']} {o['unit']}") for o in left))


def people(target: Target, dice: random.Random) -> Filled:
    count = str(dice.randint(1, 30))
    shares = ["share"] if target.per_person is not None or not target.nominal else []
    each = dice.choice([*shares, *(w for w in ways(target) if w in SHARED_WAYS)])
    if each == "share":
        return {"people": count, "each": each}, People(count=Fraction(count))
    blanks, question = fill(each, target, dice)
    assert isinstance(question, Make | Tray | Sheets)
    return {"people": count, "each": each, **blanks}, People(count=Fraction(count), each=question)


def units(kind: str, *, has_density: bool) -> list[str]:
    """The units that a thing measured by `kind` can be asked for in."""
    other = {"mass": "volume", "volume": "mass"}.get(kind)
    return UNITS_OF[kind] + (UNITS_OF[other] if has_density and other else [])


def number(dice: random.Random) -> str:
    """An amount as people type one: whole, decimal, a fraction or a mixed number."""
    match dice.randrange(4):
        case 0:
            return str(dice.randint(1, 2000))
        case 1:
            return f"{dice.randint(0, 400)}.{dice.randint(1, 999):03d}"
        case 2:
            return f"{dice.randint(1, 9)}/{dice.randint(2, 16)}"
        case _:
            return f"{dice.randint(1, 60)} {dice.randint(1, 7)}/{dice.randint(2, 9)}"
