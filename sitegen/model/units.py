"""Units: which words name one, what it measures, and how many base units it holds.

The only module that imports the unit library. Base units: g, ml, mm, min, °C, drops, pieces, ml/m²,
g/ml, mol/l. Words that name several units (`oz`, `pint`) are refused with all their readings.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Final, Literal

import pint

from sitegen.problems import Refusal, did_you_mean

Dimension = Literal[
    "mass", "volume", "length", "time", "temperature", "drops", "pieces", "coverage", "density", "molarity"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Unit:
    """A unit as it is written (`symbol`) and as the definition file names it."""

    symbol: str
    defined: str
    dimension: Dimension
    words: tuple[str, ...] = ()


def _units(dimension: Dimension, *rows: str) -> tuple[Unit, ...]:
    """Rows of `defined: symbol, word, word`; the symbol is what is shown."""
    made = []
    for row in rows:
        defined, _, words = row.partition(":")
        symbol, *rest = (word.strip() for word in words.split(","))
        made.append(Unit(symbol=symbol, defined=defined, dimension=dimension, words=(symbol, *rest)))
    return tuple(made)


# Which words name which unit? The first is shown. Plurals are listed: a guess at an "s" would take "ms".
UNITS: Final = (
    *_units(
        "mass",
        "microgram: µg, μg, ug, microgram, micrograms",
        "milligram: mg, milligram, milligrams",
        "gram: g, gram, grams, gramme, grammes",
        "kilogram: kg, kilogram, kilograms",
        "grain: grain, grains",
        "ounce_av: oz av, oz avdp",
        "ounce_ap: oz ap, oz troy",
        "pound: lb, lbs, pound, pounds",
    ),
    *_units(
        "volume",
        "microlitre: µl, μl, ul, µL, microlitre, microlitres",
        "millilitre: ml, mL, cc, cm3, cm³, millilitre, millilitres, milliliter, milliliters",
        "centilitre: cl, cL",
        "decilitre: dl, dL",
        "litre: l, L, litre, litres, liter, liters",
        "minim_us: minim US, minims US",
        "fluid_dram_us: fl dr US",
        "fluid_ounce_us: fl oz US",
        "cup_us: cup US, cups US",
        "pint_us: pint US, pints US, pt US",
        "quart_us: quart US, quarts US, qt US",
        "gallon_us: gallon US, gallons US, gal US",
        "minim_imp: minim imp, minims imp",
        "fluid_dram_imp: fl dr imp",
        "fluid_ounce_imp: fl oz imp",
        "cup_imp: cup imp, cups imp",
        "pint_imp: pint imp, pints imp, pt imp",
        "quart_imp: quart imp, quarts imp, qt imp",
        "gallon_imp: gallon imp, gallons imp, gal imp",
    ),
    *_units(
        "length",
        "millimetre: mm",
        "centimetre: cm, centimetre, centimetres",
        "metre: m, metre, metres",
        "inch: in, inch, inches, ″",
        "foot: ft, foot, feet",
    ),
    *_units(
        "time",
        "second: s, sec, second, seconds",
        "minute: min, minute, minutes",
        "hour: h, hour, hours",
        "day: days, day, d",
        "week: weeks, week",
        "month: months, month",
        "year: years, year",
    ),
    *_units("temperature", "celsius: °C, C, degC", "fahrenheit: °F, F, degF"),
    *_units("drops", "drop: drops, drop"),
    *_units("pieces", "piece: pieces, piece"),
    *_units(
        "coverage",
        "ml_per_m2: ml/m², ml/m2, ml per m²",
        "ml_per_100cm2: ml/100 cm², ml/100 cm2, ml per 100 cm²",
    ),
    *_units("density", "g_per_ml: g/ml, g/mL, g/cm3, g/cm³", "kg_per_l: kg/l, kg/L", "g_per_l: g/l, g/L"),
    *_units("molarity", "mol_per_l: mol/l, mol/L, M"),
)

# Which words name several units, or none that can be weighed? What to write instead.
_REFUSED: Final = {
    "oz": (
        "unit-two-readings",
        "write `oz av` (437.5 grains), `oz ap` (480 grains), `fl oz US` or `fl oz imp`",
    ),
    "fl oz": ("unit-two-readings", "write `fl oz US` (29.57 ml) or `fl oz imp` (28.41 ml)"),
    "pint": ("unit-two-readings", "write `pint US` (473.2 ml) or `pint imp` (568.3 ml)"),
    "quart": ("unit-two-readings", "write `quart US` (946.4 ml) or `quart imp` (1136.5 ml)"),
    "gallon": ("unit-two-readings", "write `gallon US` (3.785 l) or `gallon imp` (4.546 l)"),
    "cup": ("unit-two-readings", "write `cup US` (236.6 ml) or `cup imp` (284.1 ml)"),
    "dram": (
        "unit-two-readings",
        "write `fl dr US` (3.70 ml) or `fl dr imp` (3.55 ml); for a weight write grains: a dram "
        "avoirdupois is 27.34 grains, a drachm apothecaries 60 grains",
    ),
    "minim": ("unit-two-readings", "write `minim US` (0.0616 ml) or `minim imp` (0.0592 ml)"),
    "gr": ("unit-two-readings", "write `g` for grams or `grain` for grains"),
    "teaspoon": ("unit-not-measured", "weigh what your spoon holds once and write grams, or measure in ml"),
    "pinch": ("unit-not-measured", "weigh it once and write grams, or write `as needed`"),
}
_REFUSED_WORDS: Final = {
    "ounce": "oz", "ounces": "oz", "ozs": "oz",
    "fluid ounce": "fl oz", "fluid ounces": "fl oz", "floz": "fl oz",
    "pints": "pint", "pt": "pint", "quarts": "quart", "qt": "quart", "gallons": "gallon", "gal": "gallon",
    "cups": "cup", "dr": "dram", "drams": "dram", "drachm": "dram", "drachms": "dram", "fl dr": "dram",
    "minims": "minim", "grs": "gr", "tsp": "teaspoon", "teaspoons": "teaspoon", "tbsp": "teaspoon",
    "tablespoon": "teaspoon", "tablespoons": "teaspoon", "spoon": "teaspoon", "spoons": "teaspoon",
    "splash": "pinch", "dash": "pinch",
}  # fmt: skip

_BY_WORD: Final = {word: unit for unit in UNITS for word in unit.words}


def unit_named(word: str) -> Unit:
    """The unit a word names; `Refusal` when it names none, or more than one.

    >>> unit_named("mL").symbol
    'ml'
    """
    word = " ".join(word.split())
    if unit := _BY_WORD.get(word):
        return unit
    family = _REFUSED_WORDS.get(word.casefold(), word.casefold())
    if family in _REFUSED:
        code, remedy = _REFUSED[family]
        why = "does not say which one" if code == "unit-two-readings" else "is not a measure"
        raise Refusal(code, f"`{word}` {why}", remedy)
    known = [w for w in _BY_WORD if w.isascii()]
    raise Refusal(
        "unknown-unit",
        f"`{word}` is not a unit known here" if word else "the unit is missing",
        did_you_mean(word, known) or "write a unit such as `g`, `ml`, `fl oz US`, `min` or `°C`",
    )


@cache
def _registry() -> "pint.UnitRegistry[Fraction]":
    lines = files("sitegen.model").joinpath("units.txt").read_text(encoding="utf-8").splitlines()
    defined = [line for line in lines if line.strip() and not line.startswith("#")]
    return pint.UnitRegistry(defined, non_int_type=Fraction)


_BASE: Final[dict[Dimension, str]] = {
    "mass": "gram", "volume": "millilitre", "length": "millimetre", "time": "minute",
    "temperature": "celsius", "drops": "drop", "pieces": "piece", "coverage": "ml_per_m2",
    "density": "g_per_ml", "molarity": "mol_per_l",
}  # fmt: skip


@cache
def per_unit(symbol: str) -> Fraction:
    """How many base units one of `symbol` holds; exact. Not for temperatures, whose scales have offsets.

    >>> per_unit("lb")
    Fraction(45359237, 100000)
    """
    unit = _BY_WORD[symbol]
    quantity = _registry().Quantity(Fraction(1), unit.defined)
    return Fraction(quantity.to(_BASE[unit.dimension]).magnitude)


def to_base(value: Fraction, symbol: str) -> Fraction:
    """`value` in `symbol` as base units; temperatures with their offset.

    >>> to_base(Fraction(68), "°F")
    Fraction(20, 1)
    """
    unit = _BY_WORD[symbol]
    if unit.dimension == "temperature":
        return Fraction(_registry().Quantity(value, unit.defined).to("celsius").magnitude)
    return value * per_unit(symbol)


def from_base(value: Fraction, symbol: str) -> Fraction:
    """Base units as `symbol`; the inverse of `to_base`."""
    unit = _BY_WORD[symbol]
    if unit.dimension == "temperature":
        return Fraction(_registry().Quantity(value, "celsius").to(unit.defined).magnitude)
    return value / per_unit(symbol)


def dimension_of(symbol: str) -> Dimension:
    """What a unit's symbol measures."""
    return _BY_WORD[symbol].dimension


def phrase(dimension: str) -> str:
    """A dimension with its article, for a sentence: `a mass`, `a count of drops`."""
    return f"a count of {dimension}" if dimension in ("drops", "pieces") else f"a {dimension}"
