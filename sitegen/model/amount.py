"""Amounts: the ways a mixture says how much of one thing goes in.

35 g, 2-3 g, 3 drops       Absolute
to make 1 l                FillUp      fill up to this volume (or mass)
2 parts [by weight]        Parts
2 % w/v                    Percent     of the finished mixture
12 % of fibre, 30 times fibre   OfBase of a named base, weighed when mixing
as needed, to pH 8         Unscaled    never scaled
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from sitegen.model.quantity import Quantity, exact_number, format_quantity, parse_quantity, parse_range
from sitegen.model.units import phrase
from sitegen.problems import Refusal

Basis = Literal["w/v", "w/w", "v/v"]
By = Literal["weight", "volume"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Absolute:
    """So much of it, weighed, measured or counted."""

    quantity: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class FillUp:
    """Added last of all until the whole measures this: not an amount of this ingredient."""

    quantity: Quantity


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """Equal measures, by volume unless the author says by weight; `by` is None when unsaid."""

    count: Fraction
    by: By | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Percent:
    """Percent of the finished mixture: g per 100 ml (w/v), g per 100 g (w/w) or ml per 100 ml (v/v)."""

    low: Fraction
    high: Fraction
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class OfBase:
    """Percent by weight of something weighed when mixing, as dyers weigh by fibre."""

    low: Fraction
    high: Fraction
    base: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Unscaled:
    """Added by eye or by meter: the same words at every batch size."""

    words: str


Amount = Absolute | FillUp | Parts | Percent | OfBase | Unscaled

_BASE_NAME = r"(?P<base>[a-z][a-z0-9-]*)"
_SHOWN = "write an amount such as `35 g`, `to make 1 l`, `2 parts`, `2 % w/v`, `12 % of fibre` or `as needed`"


def parse_amount(text: str, *, percent_means: Basis | None = None) -> Amount:
    """The amount a text gives; `Refusal` for what has two readings or none.

    `percent_means` is what the archive declares for a bare `%`; None refuses it.

    >>> parse_amount("2 parts")
    Parts(count=Fraction(2, 1), by=None)
    """
    text = " ".join(text.split())
    lowered = text.casefold()
    if lowered == "as needed" or re.fullmatch(r"to ph \d+(\.\d+)?((-|–)\d+(\.\d+)?)?", lowered):
        return Unscaled(words=text)
    if lowered.startswith("to make "):
        return FillUp(quantity=_measured(text[len("to make ") :], single=True))
    if ratio := re.fullmatch(r"(\d+) ?([:+]) ?(\d+)", text):
        raise _ratio_in_one_line(text, int(ratio[1]), int(ratio[3]), apart=ratio[2] == "+")
    if not text[:1].isdigit() and not text.startswith("."):
        raise Refusal("amount-not-read", f"`{text}` is not an amount", _SHOWN)
    low, high, rest = parse_range(text)
    if not rest:
        raise Refusal("unknown-unit", "the unit is missing", f"write `{text} g`, `{text} ml` or `{_parts_of(text)}`")
    if low <= 0:
        raise Refusal("quantity-not-positive", f"`{text}` is not more than nothing", "write an amount above zero")
    return (
        _parts(text, low, high, rest)
        or _share(text, low, high, rest, percent_means)
        or Absolute(quantity=_measured(text))
    )


def _parts_of(count: object) -> str:
    return f"{count} part" if str(count) == "1" else f"{count} parts"


def _ratio_in_one_line(text: str, first: int, second: int, *, apart: bool) -> Refusal:
    """The refusal of `1:9` or `1+9` behind one ingredient: the other's share stands behind the other."""
    here = f"write `{_parts_of(first)}` here and `{_parts_of(second)}` in the line of the other"
    if apart:
        return Refusal("amount-not-read", f"`{text}` holds the shares of two ingredients", here)
    notes = (f"{_parts_of(first)} to {_parts_of(second)}, or {_parts_of(first)} in {second}",)
    less = f"; or `{_parts_of(second - first)}` there, if `{text}` counts the whole" if second > first else ""
    return Refusal("ratio-two-readings", f"`{text}` can be read in two ways", here + less, notes)


def _measured(text: str, *, single: bool = False) -> Quantity:
    quantity = parse_quantity(text, single=single)
    if quantity.dimension not in ("mass", "volume", "drops", "pieces"):
        raise Refusal("wrong-dimension", f"`{text}` is {phrase(quantity.dimension)}; an amount was expected", _SHOWN)
    if single and quantity.dimension in ("drops", "pieces"):
        raise Refusal("wrong-dimension", f"`{text}` cannot be filled up to", "write a volume, such as `to make 1 l`")
    return quantity


def _parts(text: str, low: Fraction, high: Fraction, rest: str) -> Parts | None:
    match = re.fullmatch(r"parts?(?: by (?P<by>weight|volume))?", rest)
    if not match:
        return None
    if low != high:
        raise Refusal(
            "range-not-here",
            f"`{text}` is a range; parts are single figures",
            "write one figure, such as `2 parts`",
        )
    by: By | None = match["by"] if match["by"] in get_args(By) else None  # type: ignore[assignment]  # just checked
    return Parts(count=low, by=by)


def _share(text: str, low: Fraction, high: Fraction, rest: str, bare: Basis | None) -> Percent | OfBase | None:
    if match := re.fullmatch(rf"times {_BASE_NAME}", rest):
        return OfBase(low=low * 100, high=high * 100, base=match["base"])
    if match := re.fullmatch(rf"% of {_BASE_NAME}", rest):
        return OfBase(low=low, high=high, base=match["base"])
    if rest == "%" and bare is None:
        number = text.removesuffix("%").strip()
        raise Refusal(
            "percent-without-basis",
            f"`{text}` does not say percent of what",
            f"write `{number} % w/v` (g per 100 ml), `{number} % w/w` (g per 100 g) or "
            f"`{number} % v/v` (ml per 100 ml)",
            ("or say once in archive.yaml what a bare percent means: `percent means: w/v`",),
        )
    if not rest.startswith("%"):
        return None
    basis = rest[1:].strip() or bare
    if basis not in get_args(Basis):
        raise Refusal(
            "percent-without-basis",
            f"`{rest}` is not a kind of percent",
            "write `% w/v`, `% w/w`, `% v/v` or `% of fibre`",
        )
    if low > 100 or high > 100:
        raise Refusal("percent-over-100", f"`{text}` is more than the whole", "write a percent of at most 100")
    return Percent(low=low, high=high, basis=basis)  # type: ignore[arg-type]  # just checked


def parse_percent(text: str, want: tuple[Basis, ...] = get_args(Basis)) -> Percent:
    """A strength in percent with its basis, such as `28 % w/w`; `Refusal` otherwise."""
    amount = parse_amount(text)
    if not isinstance(amount, Percent) or amount.basis not in want:
        kinds = " or ".join(f"`28 % {basis}`" for basis in want)
        raise Refusal("percent-not-read", f"`{text}` is not a percent of the kind needed here", f"write {kinds}")
    return amount


def format_amount(amount: Amount) -> str:
    """Text that `parse_amount` reads back to an equal amount."""
    match amount:
        case Absolute(quantity=quantity):
            return format_quantity(quantity)
        case FillUp(quantity=quantity):
            return f"to make {format_quantity(quantity)}"
        case Parts(count=count, by=by):
            return f"{exact_number(count)} {'part' if count == 1 else 'parts'}{f' by {by}' if by else ''}"
        case Percent(low=low, high=high, basis=basis):
            return f"{_numbers(low, high)} % {basis}"
        case OfBase(low=low, high=high, base=base):
            return f"{_numbers(low, high)} % of {base}"
        case Unscaled(words=words):
            return words


def _numbers(low: Fraction, high: Fraction) -> str:
    first, last = exact_number(low), exact_number(high)
    return first if low == high else f"{first} to {last}" if "/" in first + last else f"{first}-{last}"
