"""Units: against an independent library, the words that name one, and the words that are refused."""

from fractions import Fraction

import pytest
import unyt
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model.units import UNITS, dimension_of, from_base, per_unit, to_base, unit_named
from tests.compute.shelf import answered, refused
from tests.strategies import odd_text

_LITRE = unyt.unyt_quantity(1, "L")
_POUND = unyt.unyt_quantity(1, "lb")
# unyt knows no gallons: US gallon = 231 cubic inches (NIST Handbook 44, appendix C), imperial gallon =
# 4.54609 l (UK Weights and Measures Act 1985, schedule 1), grain = 1/7000 lb (yard and pound agreement, 1959).
_GALLON_US = 231 * unyt.unyt_quantity(1, "inch") ** 3
_GALLON_IMP = 4.54609 * _LITRE
_BASE = {"mass": "g", "volume": "mL", "length": "mm", "time": "minute", "density": "g/mL", "molarity": "mol/L"}

OUTSIDE = {
    "µg": unyt.unyt_quantity(1, "ug"),
    "mg": unyt.unyt_quantity(1, "mg"),
    "g": unyt.unyt_quantity(1, "g"),
    "kg": unyt.unyt_quantity(1, "kg"),
    "grain": _POUND / 7000,
    "oz av": unyt.unyt_quantity(1, "oz"),
    "oz ap": _POUND * 480 / 7000,
    "lb": _POUND,
    "µl": _LITRE / 10**6,
    "ml": unyt.unyt_quantity(1, "mL"),
    "cl": _LITRE / 100,
    "dl": _LITRE / 10,
    "l": _LITRE,
    "minim US": _GALLON_US / 61440,
    "fl dr US": _GALLON_US / 1024,
    "fl oz US": _GALLON_US / 128,
    "cup US": _GALLON_US / 16,
    "pint US": _GALLON_US / 8,
    "quart US": _GALLON_US / 4,
    "gallon US": _GALLON_US,
    "minim imp": _GALLON_IMP / 76800,
    "fl dr imp": _GALLON_IMP / 1280,
    "fl oz imp": _GALLON_IMP / 160,
    "cup imp": _GALLON_IMP / 16,
    "pint imp": _GALLON_IMP / 8,
    "quart imp": _GALLON_IMP / 4,
    "gallon imp": _GALLON_IMP,
    "mm": unyt.unyt_quantity(1, "mm"),
    "cm": unyt.unyt_quantity(1, "cm"),
    "m": unyt.unyt_quantity(1, "m"),
    "in": unyt.unyt_quantity(1, "inch"),
    "ft": unyt.unyt_quantity(1, "ft"),
    "s": unyt.unyt_quantity(1, "s"),
    "min": unyt.unyt_quantity(1, "minute"),
    "h": unyt.unyt_quantity(1, "hr"),
    "days": unyt.unyt_quantity(1, "day"),
    "weeks": unyt.unyt_quantity(1, "week"),
    "months": unyt.unyt_quantity(1, "yr") / 12,
    "years": unyt.unyt_quantity(1, "yr"),
    "g/ml": unyt.unyt_quantity(1, "g/mL"),
    "kg/l": unyt.unyt_quantity(1, "kg/L"),
    "g/l": unyt.unyt_quantity(1, "g/L"),
    "mol/l": unyt.unyt_quantity(1, "mol/L"),
    "ml/m²": unyt.unyt_quantity(1, "mL/m**2"),
    "ml/100 cm²": unyt.unyt_quantity(1, "mL") / (100 * unyt.unyt_quantity(1, "cm") ** 2),
}
COUNTED = {"drops", "pieces"}


@pytest.mark.parametrize("symbol", OUTSIDE)
def test_agrees_with_unyt(symbol: str) -> None:
    base = _BASE.get(dimension_of(symbol), "mL/m**2")
    expected = float(OUTSIDE[symbol].to(base).value)
    assert float(per_unit(symbol)) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize("degrees", [-40, 0, 32, 68, 125, 212])
def test_fahrenheit_agrees_with_unyt(degrees: int) -> None:
    expected = float(unyt.unyt_quantity(degrees, "degF").to("degC").value)
    assert float(to_base(Fraction(degrees), "°F")) == pytest.approx(expected, abs=1e-9)


def test_every_unit_is_compared_or_counted() -> None:
    symbols = {unit.symbol for unit in UNITS if unit.dimension != "temperature"}
    assert symbols == set(OUTSIDE) | COUNTED


def test_factors_are_exact() -> None:
    """SP 811 appendix B.8: 1 lb = 453.59237 g, 1 fl oz US = 29.5735295625 ml, both exact."""
    assert per_unit("lb") == Fraction("453.59237")
    assert per_unit("fl oz US") == Fraction("29.5735295625")


@given(st.sampled_from([unit.symbol for unit in UNITS]), st.fractions(-(10**6), 10**6, max_denominator=10**6))
def test_there_and_back_is_the_same_number(symbol: str, value: Fraction) -> None:
    assert from_base(to_base(value, symbol), symbol) == value


@pytest.mark.parametrize(
    ("word", "symbol"),
    [
        ("mL", "ml"),
        ("cc", "ml"),
        ("Grams".lower(), "g"),
        ("fl  oz   US", "fl oz US"),
        ("ml/m2", "ml/m²"),
        ("M", "mol/l"),
    ],
)
def test_words_and_loose_spacing_name_a_unit(word: str, symbol: str) -> None:
    assert unit_named(word).symbol == symbol


def test_no_word_names_two_units() -> None:
    words = [word for unit in UNITS for word in dict.fromkeys(unit.words)]
    assert len(words) == len(set(words))


@pytest.mark.parametrize(
    ("word", "code", "message", "remedy"),
    [
        ("oz", "unit-two-readings", "`oz` does not say which one", "write `oz av` (437.5 grains)"),
        ("Ounces", "unit-two-readings", "`Ounces` does not say which one", "write `oz av` (437.5 grains)"),
        ("fluid ounces", "unit-two-readings", "`fluid ounces` does not say which one", "write `fl oz US` (29.57 ml)"),
        ("pints", "unit-two-readings", "`pints` does not say which one", "write `pint US` (473.2 ml)"),
        ("qt", "unit-two-readings", "`qt` does not say which one", "write `quart US` (946.4 ml)"),
        ("gal", "unit-two-readings", "`gal` does not say which one", "write `gallon US` (3.785 l)"),
        ("cups", "unit-two-readings", "`cups` does not say which one", "write `cup US` (236.6 ml)"),
        ("fl dr", "unit-two-readings", "`fl dr` does not say which one", "write `fl dr US` (3.70 ml)"),
        ("minims", "unit-two-readings", "`minims` does not say which one", "write `minim US` (0.0616 ml)"),
        ("gr", "unit-two-readings", "`gr` does not say which one", "write `g` for grams"),
        ("tbsp", "unit-not-measured", "`tbsp` is not a measure", "weigh what your spoon holds once"),
        ("splash", "unit-not-measured", "`splash` is not a measure", "weigh it once and write grams"),
        ("grms", "unknown-unit", "`grms` is not a unit known here", "did you mean `grams` or `gram`"),
        ("xyzzy", "unknown-unit", "`xyzzy` is not a unit known here", "write a unit such as `g`, `ml`"),
        ("", "unknown-unit", "the unit is missing", "write a unit such as `g`, `ml`"),
    ],
)
def test_refuses_words_with_several_readings_or_none(word: str, code: str, message: str, remedy: str) -> None:
    got = refused(unit_named, word)
    assert got[:2] == (code, message)
    assert got[2].startswith(remedy)


# What the refusals say a unit holds, against the unit itself, to the digits that are said.
@pytest.mark.parametrize(
    ("word", "unit", "said"),
    [
        ("fl oz", "fl oz US", "29.57"), ("fl oz", "fl oz imp", "28.41"), ("pint", "pint US", "473.2"),
        ("pint", "pint imp", "568.3"), ("quart", "quart US", "946.4"), ("quart", "quart imp", "1136.5"),
        ("cup", "cup US", "236.6"), ("cup", "cup imp", "284.1"), ("dram", "fl dr US", "3.70"),
        ("dram", "fl dr imp", "3.55"), ("minim", "minim US", "0.0616"), ("minim", "minim imp", "0.0592"),
    ],
)  # fmt: skip
def test_the_figures_in_refusals_are_right(word: str, unit: str, said: str) -> None:
    places = len(said.partition(".")[2])
    assert f"{float(per_unit(unit)):.{places}f}" == said
    assert f"`{unit}` ({said} ml)" in refused(unit_named, word)[2]


@given(odd_text)
def test_any_text_names_a_unit_or_is_refused(text: str) -> None:
    unit = answered(unit_named, text)
    assert unit is None or unit in UNITS
