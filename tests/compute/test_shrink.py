"""Shrink: measured shares, and films that fit, against the dossier's figures (B111, B112, B115)."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.shrink import fitted, measured_shrink, millimetres, percent
from sitegen.model.layers import Shrink, parse_shrink, parse_size
from sitegen.problems import Refusal

SIDES = st.fractions(min_value=Fraction(10), max_value=Fraction(2000), max_denominator=100)
SHARES = st.fractions(min_value=0, max_value=Fraction(1, 10), max_denominator=10_000)


@pytest.mark.parametrize(("side", "miss"), [("300", "1"), ("420", "1.4")])
def test_a_third_of_a_percent_is_a_miss_one_sees(side: str, miss: str) -> None:
    # B112: 0.33 % of 300 mm = 1.0 mm; of 420 mm = 1.4 mm.
    film = fitted(parse_size(f"{side} x {side} mm"), Shrink(across=parse_shrink("0.33 %"), along=Fraction(0)))
    assert millimetres(film.miss_across) == miss
    assert film.miss_along == 0


@pytest.mark.parametrize(("before", "after", "shown"), [("300", "299", "0.33"), ("300", "297", "1")])
def test_papers_measured_before_and_after_a_soak(before: str, after: str, shown: str) -> None:
    # B111: five of six papers ended 0.33 % smaller, a thin one 1.00 %.
    assert percent(measured_shrink(Fraction(before), Fraction(after))) == shown


def test_each_direction_shrinks_for_itself() -> None:
    # B115: one direction may lose only about 60 % of what the other loses.
    along = parse_shrink("0.5 %")
    film = fitted(parse_size("180 x 240 mm"), Shrink(across=along * Fraction(6, 10), along=along))
    assert (millimetres(film.width), millimetres(film.height)) == ("179.5", "238.8")


@given(side=SIDES, share=SHARES)
def test_what_is_measured_on_a_fitted_film_is_the_shrink(side: Fraction, share: Fraction) -> None:
    assert measured_shrink(side, side * (1 - share)) == share


def test_paper_that_grew_is_refused() -> None:
    with pytest.raises(Refusal, match="has grown") as said:
        measured_shrink(Fraction(299), Fraction(300))
    assert said.value.code == "paper-grew"


def test_two_units_mixed_up_are_refused() -> None:
    with pytest.raises(Refusal, match="no paper shrinks by 90 %") as said:
        measured_shrink(Fraction(300), Fraction(30))
    assert said.value.code == "shrink-too-much"
