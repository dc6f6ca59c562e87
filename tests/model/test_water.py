"""Waters: figures as analyses give them, in the units of several countries, and what is refused."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from molmass import Formula

from sitegen.model.quantity import exact_number
from sitegen.model.water import ALKALINITY, CHALK, HARDNESS, MEASURES, UNITS_OF, parse_reading, unit_of
from sitegen.problems import Refusal

# Hach, "What are some common Hardness unit conversions?" (support.hach.com, answer 1000710), read 2026-11-25:
# mg/l of calcium carbonate in one of each unit, and in a milliequivalent (half a mmol).
PUBLISHED = {"°e": "14.3", "gpg US": "17.1", "°fH": "10.0", "°dH": "17.9"}


@pytest.mark.parametrize(("symbol", "chalk"), PUBLISHED.items())
def test_hardness_units_hold_as_much_chalk_as_a_published_table_says(symbol: str, chalk: str) -> None:
    held = parse_reading("hardness", f"1 {symbol}").low * CHALK
    assert abs(held - Fraction(chalk)) <= Fraction("0.06")


def test_a_mmol_is_two_milliequivalents_of_fifty_milligrams() -> None:
    assert abs(parse_reading("hardness", "50.0 mg/l CaCO3").low - Fraction(1, 2)) < Fraction("0.001")


def test_the_german_degree_agrees_with_its_law() -> None:
    # German detergents act (WRMG 2007), section 9: 1.5 mmol/l are 8.4 °dH, 2.5 mmol/l are 14 °dH.
    assert float(parse_reading("hardness", "8.4 °dH").low) == pytest.approx(1.5, abs=0.005)
    assert float(parse_reading("hardness", "14 °dH").low) == pytest.approx(2.5, abs=0.005)


def test_atomic_weights_are_those_of_the_library_for_molar_masses() -> None:
    assert float(CHALK) == pytest.approx(Formula("CaCO3").mass, rel=2e-5)
    assert float(unit_of("alkalinity", "mg/l HCO3").per) == pytest.approx(1 / Formula("HCO3").mass, rel=2e-5)
    assert float(unit_of("hardness", "°dH").per) == pytest.approx(10 / Formula("CaO").mass, rel=2e-5)


def test_chalk_takes_up_two_of_acid() -> None:
    both = {u.symbol for u in HARDNESS} & {u.symbol for u in ALKALINITY} - {"mmol/l"}
    assert both
    for symbol in both:
        assert unit_of("alkalinity", symbol).per == 2 * unit_of("hardness", symbol).per


@pytest.mark.parametrize(
    ("measure", "text", "written"),
    [
        ("hardness", "14-16 dH", "14–16 °dH"),
        ("hardness", "9 °Clark", "9 °e"),
        ("hardness", "150 mg/L as CaCO3", "150 mg/l CaCO3"),
        ("alkalinity", "7 °dKH", "7 °dH"),
        ("alkalinity", "200 mg/l HCO₃⁻", "200 mg/l HCO3"),
        ("pH", "pH 7.2 to 7.6", "7.2–7.6"),
        ("chlorine", "0.2 ppm", "0.2 mg/l"),
        ("iron", "0 mg/l", "0 mg/l"),
    ],
)
def test_other_ways_of_writing_are_read(measure: str, text: str, written: str) -> None:
    assert parse_reading(measure, text).written == written  # type: ignore[arg-type]  # a measure


@pytest.mark.parametrize(
    ("measure", "text", "code", "told"),
    [
        ("hardness", "15", "unit-missing", "°dH"),
        ("hardness", "15 °", "unit-two-readings", "°fH"),
        ("hardness", "15 °F", "unit-two-readings", "°fH"),
        ("hardness", "9 gpg", "unit-two-readings", "gpg US"),
        ("hardness", "60 mg/l", "unit-two-readings", "mg/l CaCO3"),
        ("hardness", "3 mg/l HCO3", "unknown-unit", "mg/l"),
        ("hardness", "1,5 mmol/l", "number-comma", "1.5"),
        ("hardness", "16-14 °dH", "range-backwards", "14-16"),
        ("pH", "17", "bad-ph", "0 to 14"),
        ("pH", "7.2 or so", "bad-ph", "0 to 14"),
        ("chlorine", "-0.1 mg/l", "water-below-nothing", "0.2 mg/l"),
        ("iron", "2 g/l", "unknown-unit", "mg/l"),
    ],
)
def test_what_could_be_read_in_two_ways_is_refused(measure: str, text: str, code: str, told: str) -> None:
    with pytest.raises(Refusal) as caught:
        parse_reading(measure, text)  # type: ignore[arg-type]  # a measure
    assert caught.value.code == code
    assert told in caught.value.help


@given(st.sampled_from([m for m in MEASURES if m != "pH"]), st.fractions(0, 1000), st.fractions(0, 1000), st.data())
def test_a_reading_is_its_unit_times_its_figures(
    measure: str, one: Fraction, other: Fraction, data: st.DataObject
) -> None:
    unit = data.draw(st.sampled_from(UNITS_OF[measure]))  # type: ignore[index]  # a measure
    low, high = sorted((one, other))
    found = parse_reading(measure, f"{exact_number(low)} to {exact_number(high)} {unit.symbol}")  # type: ignore[arg-type]
    assert (found.low, found.high) == (low * unit.per, high * unit.per)
