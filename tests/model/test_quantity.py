"""Quantities: what is read, what is refused and how, and that text written is read back."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model.quantity import (
    Quantity,
    exact_number,
    exact_text,
    format_quantity,
    parse_number,
    parse_quantity,
    parse_range,
)
from sitegen.problems import Refusal
from tests.compute.shelf import answered, refused
from tests.strategies import odd_text, quantities


@pytest.mark.parametrize(
    ("text", "number"),
    [("12", 12), ("1.5", Fraction(3, 2)), ("1/2", Fraction(1, 2)), (" 1 1/2 ", Fraction(3, 2)), ("-4", -4),
     ("0", 0), ("0.1", Fraction(1, 10)), ("-1 1/2", Fraction(-3, 2))],
)  # fmt: skip
def test_reads_numbers_exactly(text: str, number: Fraction) -> None:
    assert parse_number(text) == number


NUMBER_HELP = "write a number such as `12`, `1.5` or `1/2`"


@pytest.mark.parametrize(
    ("text", "code", "message", "remedy"),
    [
        ("1,5", "number-comma", "`1,5` has a comma", "write `1.5`"),
        ("1,000", "number-two-readings", "the comma in `1,000` can be read in two ways", "write `1000` or `1.000`"),
        ("1,000,000", "number-two-readings", "the comma in `1,000,000` can be read in two ways", "write `1000000`"),
        ("1e3", "number-exponent", "`1e3` is written with an exponent", "write `1000`"),
        ("5e-2", "number-exponent", "`5e-2` is written with an exponent", "write `0.05`"),
        ("010", "number-leading-zero", "`010` starts with a zero", "write `10`"),
        ("00.5", "number-leading-zero", "`00.5` starts with a zero", "write `0.5`"),
        ("-05", "number-leading-zero", "`-05` starts with a zero", "write `-5`"),
        ("00", "number-leading-zero", "`00` starts with a zero", "write `0`"),
        ("1:10", "ratio-two-readings", "`1:10` can be read in two ways", "write `1+10` or `1+9`"),
        ("1:1", "ratio-two-readings", "`1:1` can be read in two ways", "write `1+1`"),
        ("1/0", "number-not-read", "`1/0` divides by zero", "write a number such as `1/2`"),
        ("1 1/00", "number-not-read", "`1 1/00` divides by zero", "write a number such as `1/2`"),
        ("ten", "number-not-read", "`ten` is not a number", NUMBER_HELP),
        (".5", "number-not-read", "`.5` has nothing before its point", "write `0.5`"),
        ("1.", "number-not-read", "`1.` is not a number", NUMBER_HELP),
        ("٣", "number-not-read", "`٣` is not a number", NUMBER_HELP),
        ("½", "number-not-read", "`½` is not a number", NUMBER_HELP),
        ("", "number-not-read", "the number is missing", NUMBER_HELP),
        ("9" * 5000, "number-not-read", f"`{'9' * 20}…` is too long for a number", NUMBER_HELP),
        ("1:" + "9" * 5000, "number-not-read", f"`1:{'9' * 18}…` is too long for a number", NUMBER_HELP),
    ],
)
def test_refuses_numbers_that_could_be_misread(text: str, code: str, message: str, remedy: str) -> None:
    assert refused(parse_number, text) == (code, message, remedy)


def test_a_refused_ratio_notes_both_readings() -> None:
    with pytest.raises(Refusal) as caught:
        parse_number("1:10")
    assert caught.value.notes == ("1 part to 10 parts, or 1 part in 10",)


@pytest.mark.parametrize("text", ["2-3 min", "2–3 min", "2 - 3 min", "2 to 3 min", "2-3min"])
def test_reads_a_range_in_every_dash(text: str) -> None:
    assert parse_range(text) == (2, 3, "min")


def test_a_hyphen_before_a_temperature_is_its_sign() -> None:
    assert parse_quantity("-5 to -2 °C") == Quantity(low=Fraction(-5), high=Fraction(-2), unit="°C")


@pytest.mark.parametrize(
    ("text", "code", "message", "remedy"),
    [
        ("3-2 g", "range-backwards", "the range `3-2` runs backwards", "write `2-3`"),
        ("0 g", "quantity-not-positive", "`0 g` is not more than nothing", "write an amount above zero"),
        ("-3 g", "quantity-not-positive", "`-3 g` is not more than nothing", "write an amount above zero"),
        ("1,5 g", "number-comma", "`1,5` has a comma", "write `1.5`"),
        ("1:10 ml", "ratio-two-readings", "`1:10` can be read in two ways", "write `1+10` or `1+9`"),
        ("1e3 g", "number-exponent", "`1e3` is written with an exponent", "write `1000`"),
        ("g", "number-not-read", "`g` is not a number", NUMBER_HELP),
        ("", "number-not-read", "the number is missing", NUMBER_HELP),
        ("5", "unknown-unit", "the unit is missing", "write a unit such as `g`, `ml`, `fl oz US`, `min` or `°C`"),
    ],
)
def test_refuses_quantities_that_are_none(text: str, code: str, message: str, remedy: str) -> None:
    assert refused(parse_quantity, text) == (code, message, remedy)


def test_refuses_a_range_where_one_figure_is_needed() -> None:
    got = refused(lambda: parse_quantity("2-3 ml", single=True))
    assert got == (
        "range-not-here",
        "`2-3 ml` is a range; one figure is needed here",
        "write the one figure the amounts were weighed for",
    )


@pytest.mark.parametrize(
    ("want", "remedy"),
    [("volume", "write a volume, such as `350 ml`"), ("time", "write a time, such as `8 min` or `2-3 h`"),
     ("molarity", "write a molarity")],
)  # fmt: skip
def test_refuses_another_dimension_than_asked(want: str, remedy: str) -> None:
    got = refused(parse_quantity, "35 g", want)
    assert got == ("wrong-dimension", f"`35 g` is a mass; a {want} was expected", remedy)


def test_converts_within_a_dimension_only() -> None:
    assert parse_quantity("2-3 l").in_unit("ml") == Quantity(low=Fraction(2000), high=Fraction(3000), unit="ml")
    assert refused(parse_quantity("2 l").in_unit, "g")[:2] == (
        "wrong-dimension",
        "`2 l` is a volume; a mass was expected",
    )


def test_knows_its_dimension_and_whether_it_is_a_range() -> None:
    got = parse_quantity("18-22 °C")
    assert (got.dimension, got.is_range, got.base()) == ("temperature", True, (18, 22))


def test_zero_degrees_is_a_temperature() -> None:
    assert parse_quantity("0 °C").low == 0


@pytest.mark.parametrize(
    ("value", "text"),
    [(Fraction(-1, 3), "-0.333333333333"), (Fraction(1, 10**13), "0"), (Fraction(5, 10**13), "0.000000000001"),
     (Fraction(-1, 10**13), "0"), (Fraction(10**7), "10000000")],
)  # fmt: skip
def test_exact_text_ends_after_twelve_places(value: Fraction, text: str) -> None:
    assert exact_text(value) == text


@given(st.fractions())
def test_exact_number_reads_back(value: Fraction) -> None:
    assert parse_number(exact_number(value)) == value


@given(quantities())
def test_a_quantity_written_is_read_back(quantity: Quantity) -> None:
    assert parse_quantity(format_quantity(quantity)) == quantity


@given(quantities())
def test_a_range_keeps_its_order_in_every_unit(quantity: Quantity) -> None:
    low, high = quantity.base()
    assert low <= high
    assert (low == high) == (not quantity.is_range)


@given(odd_text)
def test_any_text_is_read_or_refused_and_nothing_else(text: str) -> None:
    answered(parse_number, text)
    answered(parse_range, text)
    quantity = answered(parse_quantity, text)
    assert quantity is None or parse_quantity(format_quantity(quantity)) == quantity


@pytest.mark.parametrize(
    ("text", "remedy"),
    [
        ("8:30", "write `8 1/2 min` or `8 1/2 h`"),
        ("0:45", "write `3/4 min` or `3/4 h`"),
        ("8:00", "write `8 min` or `8 h`"),
    ],
)
def test_a_clock_has_two_readings(text: str, remedy: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_quantity(text, "time")
    assert (refused.value.code, refused.value.help) == ("time-two-readings", remedy)
