"""Waters: what a place's water holds, read from text into exact figures, and for what a step uses water.

Figures lie in one base each: pH as it is, hardness and alkalinity in mmol/l, the rest in mg/l. What a water asks of
a recipe is `compute.water`; nothing here judges.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from fractions import Fraction
from typing import Final, Literal, get_args

from sitegen.model.quantity import exact_text, parse_range
from sitegen.problems import Refusal, did_you_mean

Measure = Literal["pH", "hardness", "alkalinity", "chlorine", "chloride", "iron"]
MEASURES: Final[tuple[Measure, ...]] = get_args(Measure)
Role = Literal["wash", "acid bath", "last rinse", "mixing"]
"""What a step, or a mixture, uses water for."""

_CA, _C, _O, _H = Fraction("40.078"), Fraction("12.011"), Fraction("15.999"), Fraction("1.008")
"""Standard atomic weights, abridged (IUPAC/CIAAW 2021)."""
CHALK: Final = _CA + _C + 3 * _O
"""Grams of calcium carbonate in a mole."""
_LIME: Final = _CA + _O
_BICARBONATE: Final = _H + _C + 3 * _O
_GRAIN: Final = Fraction("64.79891")  # mg, by definition (international yard and pound, 1959)
_GALLON_IMP, _GALLON_US = Fraction("4.54609"), Fraction("3.785411784")  # l, by definition


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterUnit:
    """A unit of hardness or alkalinity. `per`: mmol/l in one of it; `means`: by what it is defined."""

    symbol: str
    per: Fraction
    means: str


HARDNESS: Final = (
    WaterUnit(symbol="°dH", per=10 / _LIME, means="10 mg of calcium oxide a litre (German degree)"),
    WaterUnit(symbol="°fH", per=10 / CHALK, means="10 mg of calcium carbonate a litre (French degree)"),
    WaterUnit(
        symbol="°e",
        per=_GRAIN / _GALLON_IMP / CHALK,
        means="1 grain of calcium carbonate in an imperial gallon (Clark)",
    ),
    WaterUnit(symbol="gpg US", per=_GRAIN / _GALLON_US / CHALK, means="1 grain of calcium carbonate in a US gallon"),
    WaterUnit(symbol="mg/l CaCO3", per=1 / CHALK, means="1 mg of calcium carbonate a litre"),
    WaterUnit(symbol="ppm", per=1 / CHALK, means="1 mg of calcium carbonate a litre"),
    WaterUnit(symbol="mg/l Ca", per=1 / _CA, means="1 mg of calcium a litre"),
    WaterUnit(symbol="mmol/l", per=Fraction(1), means="1 mmol of calcium and magnesium a litre"),
)
ALKALINITY: Final = (
    # A mole of lime or chalk takes up two of acid.
    *(
        WaterUnit(symbol=unit.symbol, per=2 * unit.per, means=f"what takes up as much acid as {unit.means}")
        for unit in HARDNESS
        if unit.symbol not in ("mmol/l", "mg/l Ca")
    ),
    WaterUnit(symbol="mg/l HCO3", per=1 / _BICARBONATE, means="1 mg of bicarbonate a litre"),
    WaterUnit(symbol="mmol/l", per=Fraction(1), means="1 mmol of acid taken up by a litre, down to pH 4.3"),
)
_MASS: Final = (WaterUnit(symbol="mg/l", per=Fraction(1), means="1 mg a litre"),)
UNITS_OF: Final[Mapping[Measure, tuple[WaterUnit, ...]]] = {
    "hardness": HARDNESS,
    "alkalinity": ALKALINITY,
    "chlorine": _MASS,
    "chloride": _MASS,
    "iron": _MASS,
}
EXAMPLES: Final[Mapping[Measure, str]] = {
    "pH": "7.4-7.8",
    "hardness": "15 °dH",
    "alkalinity": "12 °dH",
    "chlorine": "0.2 mg/l",
    "chloride": "40 mg/l",
    "iron": "0.1 mg/l",
}
_OTHER_WORDS: Final = {
    "dh": "°dH", "°d": "°dH", "dgh": "°dH", "dkh": "°dH", "°dgh": "°dH", "°dkh": "°dH", "fh": "°fH", "clark": "°e",
    "°clark": "°e", "caco3": "mg/l CaCO3", "mg/l as caco3": "mg/l CaCO3", "ppm caco3": "mg/l CaCO3",
    "ppm as caco3": "mg/l CaCO3", "mg/l calcium": "mg/l Ca", "mg/l as ca": "mg/l Ca",
}  # fmt: skip
_TWO_READINGS: Final = {
    "°": ("`°dH`, `°fH` or `°e`", "degrees are German, French or English"),
    "degrees": ("`°dH`, `°fH` or `°e`", "degrees are German, French or English"),
    "°f": ("`°fH`", "`°F` is a temperature"),
    "gpg": ("`gpg US`, or `°e` for the imperial gallon", "grains in a US or in an imperial gallon"),
    "mg/l": ("`mg/l CaCO3`, or what the analysis is given as", "of calcium, of calcium carbonate, of bicarbonate"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """`low` to `high` in the measure's base; `written` is how it was given."""

    low: Fraction
    high: Fraction
    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """A place's water, as far as it is known."""

    id: str
    name: str
    readings: Mapping[Measure, Reading]
    measured: date | None = None
    source: str = ""
    note: str = ""
    edition: str = ""
    """Who may see it; '' for all readers of the archive."""


def parse_reading(measure: Measure, text: str) -> Reading:
    """A figure or range of one measure; `Refusal` for everything that could be read in two ways.

    >>> parse_reading("hardness", "100.086 mg/l CaCO3").low
    Fraction(1, 1)
    """
    return _ph(text) if measure == "pH" else _amount(measure, text)


def unit_of(measure: Measure, word: str) -> WaterUnit:
    """The unit that a word means for a measure; `Refusal` when it is none, or could be several."""
    units = UNITS_OF[measure]
    plain = " ".join(word.casefold().replace("₃", "3").replace("⁻", "").split())
    plain = _OTHER_WORDS.get(plain, plain).casefold()
    found = next((unit for unit in units if unit.symbol.casefold() == plain), None)
    if measure not in ("hardness", "alkalinity") and plain == "ppm":
        found = units[0]
    if found:
        return found
    listed = ", ".join(f"`{unit.symbol}`" for unit in units)
    if plain in _TWO_READINGS:
        remedy, note = _TWO_READINGS[plain]
        raise Refusal("unit-two-readings", f"`{word}` can be read in more than one way", f"write {remedy}", (note,))
    if not plain:
        raise Refusal("unit-missing", f"the {measure} has no unit", f"write one of {listed}")
    near = did_you_mean(word, [unit.symbol for unit in units])
    raise Refusal("unknown-unit", f"`{word}` is not a unit of {measure}", near or f"write one of {listed}")


def _ph(text: str) -> Reading:
    low, high, rest = parse_range(text.strip().removeprefix("pH").strip())
    if rest or not 0 <= low <= high <= 14:
        raise Refusal("bad-ph", f"`{text}` is not a pH", "write a figure or a range from 0 to 14: `7.4-7.8`")
    return Reading(low=low, high=high, written=_range(low, high))


def _amount(measure: Measure, text: str) -> Reading:
    low, high, rest = parse_range(text)
    unit = unit_of(measure, rest)
    if low < 0:
        raise Refusal("water-below-nothing", f"`{text}` is less than nothing", f"write such as `{EXAMPLES[measure]}`")
    return Reading(low=low * unit.per, high=high * unit.per, written=f"{_range(low, high)} {unit.symbol}")


def _range(low: Fraction, high: Fraction) -> str:
    return exact_text(low) if low == high else f"{exact_text(low)}–{exact_text(high)}"
