"""Dilution: parts (1+9), and from one strength to another.

The strength equation c1·V1 = c2·V2 is exact for amount of substance per volume; how much diluent that
takes is not, since volumes do not add: the answer says "make up to". Percent by weight is diluted by
weight, unless the stock's density turns it into grams per litre.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.compute.molar import molar_mass
from sitegen.model.dilution import Dilution
from sitegen.model.quantity import Quantity, format_quantity, parse_quantity, parse_range
from sitegen.problems import Refusal

Per = Literal["g/l", "mol/l", "v/v", "w/w"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Concentration:
    """A strength: `value` g/l, mol/l, ml per 100 ml (v/v) or g per 100 g (w/w)."""

    value: Fraction
    per: Per
    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Diluted:
    """How much stock and diluent make how much, all three in the unit asked in; exact."""

    stock: Quantity
    diluent: Quantity
    makes: Quantity
    make_up: bool
    """Whether the diluent is "up to" the volume rather than a measure of its own."""
    warnings: tuple[str, ...]


MAKE_UP: Final = "make up to the final volume: the diluent is what is left, not a measure of its own"
NOT_ADDED: Final = "parts by volume: strong solutions and alcohol shrink when mixed, so the total is nearly this"


def parse_concentrations(
    stock: str, to: str, *, density: str = "", formula: str = ""
) -> tuple[Concentration, Concentration]:
    """A stock's strength and the one wanted, read so that they compare where they can.

    The density is the stock's. Between two percents by weight it is not needed: they go by weight.
    """
    wanted = parse_concentration(to, formula=formula)
    used = "" if wanted.per == "w/w" else density
    return parse_concentration(stock, density=used, formula=formula), wanted


def parse_concentration(text: str, *, density: str = "", formula: str = "") -> Concentration:
    """`10 % w/v`, `2 % v/v`, `37 % w/w`, `50 g/l` or `1 mol/l`.

    A density turns percent by weight, and a formula turns moles, into grams per litre. `Refusal` otherwise.
    """
    low, high, rest = parse_range(text)
    if low != high or low <= 0:
        raise Refusal("strength-not-read", f"`{text}` is not one strength", "write one figure, such as `10 % w/v`")
    unit = re.sub(r"\s+", "", rest)
    if unit in ("g/l", "g/L"):
        return Concentration(value=low, per="g/l", written=text)
    if unit in ("mol/l", "mol/L", "M"):
        grams = molar_mass(formula) * low if formula else None
        return Concentration(value=grams or low, per="g/l" if grams else "mol/l", written=text)
    if unit.startswith("%") and low > 100 and unit != "%w/v":
        raise Refusal("percent-over-100", f"`{text}` is more than the whole", "write a percent of at most 100")
    match unit:
        case "%w/v":
            return Concentration(value=low * 10, per="g/l", written=text)
        case "%v/v":
            return Concentration(value=low, per="v/v", written=text)
        case "%w/w" if density:
            grams_per_ml = parse_quantity(density, "density", single=True).base()[0]
            return Concentration(value=low * 10 * grams_per_ml, per="g/l", written=text)
        case "%w/w":
            return Concentration(value=low, per="w/w", written=text)
        case _:
            raise Refusal(
                "percent-without-basis" if unit == "%" else "strength-not-read",
                f"`{text}` does not say percent of what" if unit == "%" else f"`{text}` is not a strength",
                "write `10 % w/v`, `10 % w/w`, `10 % v/v`, `100 g/l` or `1 mol/l`",
            )


def dilute_by_parts(parts: Dilution, *, make: Quantity | None = None, have: Quantity | None = None) -> Diluted:
    """Stock and diluent in parts, for a volume (or mass) wanted, or from the stock that is left."""
    whole = parts.stock + parts.diluent
    asked = _asked(make, have)
    makes = asked.low if make else asked.low * whole / parts.stock
    warning = () if asked.dimension == "mass" else (NOT_ADDED,)
    return _diluted(makes * parts.stock / whole, makes, asked.unit, make_up=False, warnings=warning)


def dilute_to_strength(
    stock: Concentration, to: Concentration, *, make: Quantity | None = None, have: Quantity | None = None
) -> Diluted:
    """Stock of one strength brought to another. `Refusal` when the two cannot be compared."""
    if stock.per != to.per:
        raise Refusal(
            "strengths-differ",
            f"`{stock.written}` and `{to.written}` are not strengths of one kind",
            _bridge({stock.per, to.per}),
        )
    if to.value > stock.value:
        raise Refusal(
            "stronger-than-stock",
            f"`{to.written}` is stronger than the stock, `{stock.written}`",
            "ask for a strength below the stock's, or mix a stronger stock",
        )
    asked = _asked(make, have)
    by_weight = stock.per == "w/w"
    if by_weight != (asked.dimension == "mass"):
        raise Refusal(
            "dilute-by-weight" if by_weight else "dilute-by-volume",
            f"`{format_quantity(asked)}` is a {asked.dimension}, and "
            f"`{stock.written}` to `{to.written}` is diluted by {'weight' if by_weight else 'volume'}",
            "ask for a mass, such as `500 g`, or give the stock's density and a strength in % w/v"
            if by_weight
            else "ask for a volume, such as `500 ml`",
        )
    makes = asked.low if make else asked.low * stock.value / to.value
    return _diluted(
        makes * to.value / stock.value,
        makes,
        asked.unit,
        make_up=not by_weight,
        warnings=() if by_weight else (MAKE_UP,),
    )


def _asked(make: Quantity | None, have: Quantity | None) -> Quantity:
    asked = make or have
    if asked is None or (make and have):
        raise Refusal("say-how-much", "say how much is wanted or how much stock there is", "give one of the two")
    if asked.dimension not in ("mass", "volume") or asked.is_range:
        raise Refusal(
            "wrong-dimension",
            f"`{format_quantity(asked)}` is not one volume or mass",
            "write `500 ml` or `500 g`",
        )
    return asked


def _bridge(kinds: set[Per]) -> str:
    if "w/w" in kinds and "v/v" not in kinds:
        return "give the stock's density (`1.18 g/ml`), and its formula where moles are asked for"
    if kinds == {"g/l", "mol/l"}:
        return "give the formula, such as `HCl`, so that moles can be weighed"
    return "write both as % w/v, both as % v/v or both as % w/w"


def _diluted(stock: Fraction, makes: Fraction, unit: str, *, make_up: bool, warnings: tuple[str, ...]) -> Diluted:
    def quantity(value: Fraction) -> Quantity:
        return Quantity(low=value, high=value, unit=unit)

    return Diluted(
        stock=quantity(stock),
        diluent=quantity(makes - stock),
        makes=quantity(makes),
        make_up=make_up,
        warnings=warnings,
    )
