"""Rounding: the nearest that can be measured, never twice, never out of order."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.rounding import Kind, Ladder, Shown, System, ladders, show, to_figures, to_step
from sitegen.model.archive import Measuring, Vessel
from sitegen.model.units import per_unit
from tests.strategies import positive

MEASURING = Measuring()
METRIC = ladders(MEASURING)["metric"]
values = st.fractions(min_value=Fraction(1, 10**5), max_value=50_000, max_denominator=10**5)
steps = st.sampled_from(
    [Fraction(1, 1000), Fraction(1, 100), Fraction(1, 20), Fraction(1, 10), Fraction(1, 2), Fraction(5)]
)
every_ladder = st.sampled_from([ladder for kinds in ladders(MEASURING).values() for ladder in kinds.values()])


@given(values, steps)
def test_is_off_by_half_a_step_at_most(value: Fraction, step: Fraction) -> None:
    assert abs(to_step(value, step) - value) <= step / 2


@given(values, steps)
def test_gives_a_multiple_and_leaves_a_multiple_alone(value: Fraction, step: Fraction) -> None:
    rounded = to_step(value, step)
    assert (rounded / step).denominator == 1
    assert to_step(rounded, step) == rounded


@given(values, values, steps)
def test_keeps_order(a: Fraction, b: Fraction, step: Fraction) -> None:
    low, high = sorted((a, b))
    assert to_step(low, step) <= to_step(high, step)


@given(st.integers(0, 10**9), st.integers(0, 3))
def test_agrees_with_the_decimal_module_halves_up(thousandths: int, places: int) -> None:
    value = Decimal(thousandths) / 1000
    expected = value.quantize(Decimal(1).scaleb(-places), ROUND_HALF_UP)
    assert to_step(Fraction(thousandths, 1000), Fraction(1, 10**places)) == Fraction(expected)


@given(values, st.integers(1, 6))
def test_figures_are_off_by_half_of_the_last_one(value: Fraction, count: int) -> None:
    rounded = to_figures(value, count)
    assert to_figures(rounded, count) == rounded
    assert abs(rounded - value) <= value / (2 * Fraction(10) ** (count - 1))


@given(values, values, every_ladder)
def test_a_range_is_shown_in_order_and_in_one_unit(a: Fraction, b: Fraction, ladder: Ladder) -> None:
    low, high = sorted((a, b))
    shown = show(low, high, ladder)
    assert Fraction(shown.low) <= Fraction(shown.high)
    assert Fraction(shown.low) > 0


@given(values, every_ladder)
def test_what_is_shown_is_off_by_half_a_step_at_most(value: Fraction, ladder: Ladder) -> None:
    rung = next(r for r in ladder if r.upto is None or value <= r.upto)
    shown = Fraction(show(value, value, ladder).low)
    # Below one step two figures are kept, which is finer than the step.
    assert abs(shown - value / rung.per) <= rung.step / 2


@given(values, values, st.sampled_from(["mass", "volume"]))
def test_more_is_never_shown_as_less(a: Fraction, b: Fraction, kind: Kind) -> None:
    low, high = (show(v, v, METRIC[kind]) for v in sorted((a, b)))
    assert _base(low) <= _base(high)


@given(values, st.sampled_from(["mass", "volume"]))
def test_what_was_shown_is_shown_the_same_again(value: Fraction, kind: Kind) -> None:
    first = show(value, value, METRIC[kind])
    again = _base(first)
    assert _base(show(again, again, METRIC[kind])) == again


def _base(shown: Shown) -> Fraction:
    assert shown.low == shown.high
    return Fraction(shown.low) * per_unit(shown.unit)


@pytest.mark.parametrize(
    ("kind", "amount", "text"),
    [
        ("mass", "35", "35 g"),
        ("mass", "8.75", "8.8 g"),
        ("mass", "0.04", "0.04 g"),
        ("mass", "0.0123", "0.012 g"),
        ("mass", "10000", "10000 g"),
        ("mass", "12345.6", "12.346 kg"),
        ("volume", "9.96", "10 ml"),
        ("volume", "10.44", "10.4 ml"),
        ("volume", "50.4", "50 ml"),
        ("volume", "87.5", "88 ml"),
        ("volume", "104.4", "104 ml"),
        ("volume", "504", "500 ml"),
        ("volume", "1234", "1230 ml"),
        ("volume", "12345", "12.35 l"),
        ("drops", "2.5", "3 drops"),
        ("pieces", "1.25", "1.3 pieces"),
    ],
)
def test_metric_amounts_are_shown_to_the_authors_balance_and_vessels(kind: Kind, amount: str, text: str) -> None:
    assert show(Fraction(amount), Fraction(amount), METRIC[kind]).text() == text


@pytest.mark.parametrize(
    ("system", "kind", "amount", "text"),
    [
        ("US", "mass", "5", "77 grain"),
        ("US", "mass", "35", "1.23 oz av"),
        ("imp", "mass", "500", "17.6 oz av"),
        ("US", "volume", "200", "6.75 fl oz US"),
        ("imp", "volume", "200", "7.05 fl oz imp"),
        ("imp", "volume", "1000", "35 fl oz imp"),
    ],
)
def test_other_measures_are_shown_in_their_own_steps(system: System, kind: Kind, amount: str, text: str) -> None:
    ladder = ladders(MEASURING)[system][kind]
    assert show(Fraction(amount), Fraction(amount), ladder).text() == text


def test_a_range_is_shown_with_a_dash() -> None:
    assert show(Fraction(2), Fraction(3), METRIC["mass"]).text() == "2–3 g"


def test_ends_that_round_together_are_shown_once() -> None:
    assert show(Fraction("2.01"), Fraction("2.04"), METRIC["mass"]).text() == "2 g"


def test_a_vessel_is_filled_five_times_before_the_next_larger_is_taken() -> None:
    unsorted = Measuring(
        vessels=(Vessel(holds=Fraction(500), step=Fraction(5)), Vessel(holds=Fraction(25), step=Fraction(1, 2)))
    )
    ladder = ladders(unsorted)["metric"]["volume"]
    assert [show(Fraction(n), Fraction(n), ladder).text() for n in (13, 27, 127, 702)] == [
        "13 ml",
        "27 ml",
        "125 ml",
        "700 ml",
    ]


@given(positive(100))
def test_a_finer_balance_is_never_further_off(value: Fraction) -> None:
    coarse, fine = (ladders(Measuring(balance=Fraction(b)))["metric"]["mass"] for b in ("0.1", "0.01"))
    off = [abs(Fraction(show(value, value, ladder).low) - value) for ladder in (coarse, fine)]
    assert off[1] <= max(off[0], Fraction(1, 200))
