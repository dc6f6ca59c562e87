"""Questions: the ways of saying how much is wanted, read from text, and the factor each gives.

make 350 ml · factor 3.5 · tray 30x40x2 cm · sheets 12 of 24x30 cm · have 18 g of something ·
base fibre=250 g · people 14
"""

import re
from dataclasses import dataclass
from fractions import Fraction

from sitegen.compute.plan import Target, Total
from sitegen.model.quantity import Quantity, format_quantity, parse_number, parse_quantity
from sitegen.model.sizes import parse_count, parse_sheet_size, parse_sides
from sitegen.problems import Refusal, did_you_mean


@dataclass(frozen=True, slots=True, kw_only=True)
class Make:
    """A volume or a mass of the target."""

    quantity: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Factor:
    """So many times the recipe as written."""

    times: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Tray:
    """A tray filled to a depth: inside length, width and depth in mm."""

    length: Fraction
    width: Fraction
    depth: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheets:
    """So many sheets of one size (mm), coated so often, with an allowance (0.15 = 15 % extra)."""

    count: Fraction
    length: Fraction
    width: Fraction
    coats: Fraction
    allowance: Fraction
    coverage: Quantity | None = None
    """Instead of the mixture's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Have:
    """What is left of some ingredients, by the names the asker used; the scarcest decides."""

    left: tuple[tuple[str, Quantity], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """The weight of the base that percents are taken of."""

    name: str
    quantity: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class People:
    """So many people, each with `each` (another question), or the mixture's `per person`."""

    count: Fraction
    each: "Make | Tray | Sheets | None" = None


Question = Make | Factor | Tray | Sheets | Have | Base | People


def parse_factor(text: str) -> Factor:
    """A plain number above zero."""
    number = parse_number(text)
    if number <= 0:
        raise Refusal("quantity-not-positive", f"`{text}` is not more than nothing", "write a factor above zero")
    return Factor(times=number)


def parse_tray(text: str) -> Tray:
    """`30x40x2 cm`: inside length, width and depth of the liquid."""
    sides = parse_sides(text, 3, "a tray", "`30x40x2 cm`, the last one being the depth of the liquid")
    return Tray(length=sides[0], width=sides[1], depth=sides[2])


def parse_sheets(text: str, *, coats: str, allowance: Fraction, coverage: str | None = None) -> Sheets:
    """`12 of 24x30 cm` or `12 of A4`; `coverage` such as `40 ml/m²` replaces the mixture's own."""
    match = re.fullmatch(r"\s*(\S+)\s+of\s+(.+?)\s*", text, re.S)
    if not match:
        raise Refusal(
            "sheets-not-read", f"`{text}` does not say how many sheets of what size", "write `12 of 24x30 cm`"
        )
    length, width = parse_sheet_size(match[2])
    return Sheets(
        count=parse_count(match[1], "sheets"),
        length=length,
        width=width,
        coats=parse_count(coats, "coats"),
        allowance=allowance,
        coverage=parse_quantity(coverage, "coverage") if coverage else None,
    )


def parse_allowance(text: str) -> Fraction:
    """`15 %` as 0.15; from nothing to 300 %."""
    match = re.fullmatch(r"\s*(\S+)\s*%\s*", text)
    share = parse_number(match[1]) / 100 if match else Fraction(-1)
    if not 0 <= share <= 3:
        raise Refusal("allowance-not-read", f"`{text}` is not an allowance", "write a percent, such as `15 %`")
    return share


def parse_left(text: str) -> tuple[str, Quantity]:
    """`name=18 g`: a name and how much of it there is."""
    name, equals, amount = text.partition("=")
    if not equals or not name.strip():
        raise Refusal("named-amount-not-read", f"`{text}` does not name an amount", "write `name=18 g`")
    return name.strip(), parse_quantity(amount, single=True)


def parse_base(text: str) -> Base:
    """`fibre=250 g`."""
    name, quantity = parse_left(text)
    if quantity.dimension != "mass":
        raise Refusal("wrong-dimension", f"`{text}` is not a weight", f"write a mass, such as `{name}=250 g`")
    return Base(name=name, quantity=quantity)


def factor_of(question: Question, target: Target) -> Fraction:
    """By what the plan is multiplied to answer; exact. `Refusal` when it cannot be answered."""
    match question:
        case Factor(times=times):
            return _by_factor(times, target)
        case Base(name=name, quantity=quantity):
            return _by_base(name, quantity, target)
        case Have(left=left):
            return min(_by_left(name, quantity, target) for name, quantity in left)
        case People(count=count, each=each):
            return count * _for_one(each, target)
        case _:
            amount, dimension, asked = _amount_of(question, target)
            return _by_amount(amount, dimension, asked, target=target)


def _amount_of(question: Make | Tray | Sheets, target: Target) -> tuple[Fraction, str, str]:
    """How much is wanted in base units, of which dimension, and what to call it."""
    match question:
        case Make(quantity=quantity):
            return quantity.base()[1], quantity.dimension, format_quantity(quantity)
        case Tray(length=length, width=width, depth=depth):
            return length * width * depth / 1000, "volume", "the tray"  # mm³ to ml
        case Sheets():
            return coating(question, target), "volume", "the coating"


def _by_factor(times: Fraction, target: Target) -> Fraction:
    if target.nominal:
        raise Refusal(
            "no-size-as-written",
            f"`{target.local}` has no size of its own to multiply",
            f'ask with the base: `--base "{target.base}=250 g"`'
            if target.size == "base"
            else 'say how much to make: `--make "350 ml"`',
        )
    return times


def coating(sheets: Sheets, target: Target) -> Fraction:
    """ml to mix for the sheets; a coverage range is taken at its upper end, so that there is enough."""
    coverage = sheets.coverage.base() if sheets.coverage else target.coverage
    if coverage is None:
        raise Refusal(
            "no-coverage",
            f"`{target.local}` does not say how much liquid a sheet takes",
            'give a coverage, such as `--coverage "40 ml/m²"`, or write `coverage: 40 ml/m²` on the mixture',
        )
    area = sheets.length * sheets.width / 1_000_000  # mm² to m²
    return sheets.count * area * coverage[1] * sheets.coats * (1 + sheets.allowance)


def _by_amount(amount: Fraction, dimension: str, asked: str, *, target: Target) -> Fraction:
    if target.size == "base":
        raise Refusal(
            "asked-of-base",
            f"`{target.local}` goes by the weight of {target.base}, not by volume",
            f'ask with the base: `--base "{target.base}=250 g"`',
        )
    if dimension == target.size:
        return amount / target.makes
    if dimension not in ("mass", "volume"):
        raise Refusal(
            "wrong-dimension",
            f"`{asked}` is a {dimension}; `{target.local}` is made by {target.size}",
            f"write a {target.size}, such as `350 {'g' if target.size == 'mass' else 'ml'}`",
        )
    if target.density is None:
        raise Refusal(
            "no-density",
            f"{asked} is a {dimension}, and `{target.local}` is made by {target.size}: mass and volume meet "
            "only through a density, which it does not give",
            f"ask for a {target.size}, or write its `density: 1.05 g/ml`",
        )
    return (amount * target.density if target.size == "mass" else amount / target.density) / target.makes


def _by_base(name: str, quantity: Quantity, target: Target) -> Fraction:
    if target.size != "base":
        raise Refusal(
            "no-base", f"`{target.local}` does not go by the weight of anything", 'ask with `--make "350 ml"`'
        )
    if name.casefold() != target.base:
        raise Refusal(
            "no-base",
            f"`{target.local}` goes by the weight of {target.base}, not of {name}",
            f"write `{target.base}=250 g`",
        )
    return quantity.base()[0] / target.makes


def totals_named(name: str, target: Target) -> list[Total]:
    """What a target takes of the thing of that name, by its id, its id within its recipe or its name."""
    word = name.casefold()
    return [t for t in target.totals if word in (t.of, t.of.rpartition("/")[2], t.name.casefold())]


def _by_left(name: str, quantity: Quantity, target: Target) -> Fraction:
    named = totals_named(name, target)
    if not named:
        known = [t.of if "/" not in t.of else t.of.rpartition("/")[2] for t in target.totals]
        raise Refusal(
            "not-in-recipe",
            f"`{name}` is not weighed or measured out for `{target.local}`",
            did_you_mean(name.casefold(), known) or "write one of " + ", ".join(f"`{k}`" for k in known),
        )
    return quantity_left(quantity, named, target)


def quantity_left(quantity: Quantity, named: list[Total], target: Target) -> Fraction:
    """How many times the plan one thing allows; it may be weighed in one mixture and poured in another."""
    left, needed = quantity.base()[0], Fraction(0)
    for total in named:
        if total.kind == quantity.dimension:
            needed += total.amount
        elif total.density is not None and {total.kind, quantity.dimension} == {"mass", "volume"}:
            needed += total.amount * total.density if total.kind == "volume" else total.amount / total.density
        else:
            raise Refusal(
                "no-density",
                f"`{total.of}` is measured by {total.kind} in `{target.local}`, and a {quantity.dimension} was given",
                f"say how much is left as a {total.kind}",
            )
    return left / needed


def _for_one(each: Make | Tray | Sheets | None, target: Target) -> Fraction:
    if each is not None:
        return factor_of(each, target)
    if target.per_person is not None:
        return target.per_person / target.makes
    if target.nominal:
        raise Refusal(
            "no-size-as-written",
            f"`{target.local}` does not say how much one person gets",
            'add `--make "20 ml"` for each, or write `per person: 20 ml` on the mixture',
        )
    return Fraction(1)
