"""Exposure: published figures, the slips they were printed with, and every refusal with its help."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.exposure import (
    MEASURED_IN_UV,
    SMALL_SOURCE,
    by_distance,
    by_lamp,
    by_light,
    by_stops,
    clock,
    exposed,
    factor_of_stops,
    film_time,
    middle_in_stops,
    parse_stops,
    shown_seconds,
    stops_of_factor,
    through_layer,
)
from tests.compute.shelf import q, refused

INCH = Fraction("25.4")
HALF_SECOND = Fraction(1, 2)
FIVE_HUNDREDTHS = Fraction(5, 100)


# K01: The Dictionary of Photography (E. J. Wall; about 1902), page 372: 45 s at 12 in.
@pytest.mark.parametrize(("inches", "seconds"), [(24, 180), (36, 405), (48, 720)])
def test_a_lamp_moved_away_asks_for_the_square_of_the_distance(inches: int, seconds: int) -> None:
    got = exposed(q("45 s"), (by_distance(12 * INCH, inches * INCH),)).time
    assert got == q(f"{seconds} s")
    # the copy prints 395 s for 36 in; 45 s more for each foot is the error the source warns of
    assert got.low not in (395, 45 * inches // 12)


def test_a_lamp_moved_from_two_to_four_feet() -> None:
    # B065: M. J. Martin, Wireless Transmission of Photographs, 1919: 5 min at 2 ft, 20 min at 4 ft
    got = exposed(q("5 min"), (by_distance(24 * INCH, 48 * INCH),))
    assert (got.time, got.warnings) == (q("1200 s"), (SMALL_SOURCE,))


def test_time_in_proportion_to_a_meter() -> None:
    # K02: The Wellington Photographic Handbook: 360 s x 16/28 = 206 s
    got = exposed(q("360 s"), (by_light(Fraction(16), Fraction(28)),))
    assert abs(got.time.low - 206) <= HALF_SECOND


@pytest.mark.parametrize(("stops", "seconds"), [("-1/3", "5.2"), ("1/2", "10.5")])
def test_held_back_and_added_parts_of_a_stop_are_not_alike(stops: str, seconds: str) -> None:
    # K09: R. W. Lambrecht, f/stop Timing Table: from 25.4 s, 1/3 stop held back, 1/2 stop added
    least, most = exposed(q("25.4 s"), (by_stops(parse_stops(stops)),)).added
    assert least == most
    assert abs(abs(least) - Fraction(seconds)) <= FIVE_HUNDREDTHS


def test_half_a_stop_is_not_half_as_much_again() -> None:
    # K10: +6.6 s on 16 s, not +8
    least, _ = exposed(q("16 s"), (by_stops(Fraction(1, 2)),)).added
    assert abs(least - Fraction("6.6")) <= FIVE_HUNDREDTHS


def test_a_film_needs_more_than_its_meter_says_but_never_less() -> None:
    # K15: Ilford, Film reciprocity failure compensation: Tc = Tm^1.31, 10 s become 20.4 s; none to 1 s
    power = Fraction("1.31")
    assert abs(film_time(Fraction(10), power) - Fraction("20.4")) <= FIVE_HUNDREDTHS
    assert film_time(Fraction(1, 2), power) == HALF_SECOND
    assert film_time(Fraction(1), power) == 1
    assert exposed(q("5 s"), (by_stops(Fraction(1)),), film_power=power).time.low == film_time(Fraction(10), power)


def test_a_stop_is_a_density_of_three_tenths() -> None:
    # B069: 1 stop = 0.30 log density, a step of the common 21-step tablet 0.15
    assert stops_of_factor(through_layer("density 0.3").factor) == 1
    assert stops_of_factor(through_layer("density 0.15").factor) == HALF_SECOND
    assert through_layer("density 0.3").warnings == (MEASURED_IN_UV,)


def test_a_layer_is_given_in_stops_or_by_two_strips() -> None:
    assert through_layer("1 stop").factor == 2
    assert through_layer("0 stops").factor == 1
    by_strips = through_layer("4 min to 6 min")
    assert (by_strips.factor, by_strips.words) == (
        Fraction(3, 2),
        "through a layer of 0.58 stops, 4 min to 6 min",
    )
    got = exposed(q("8-10 min"), (through_layer("1 stop"),))
    assert (got.time, got.added) == (q("960-1200 s"), (480, 600))


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("0.3", "layer-not-read"),
        ("-1/2 stop", "layer-adds-light"),
        ("6 min to 4 min", "layer-adds-light"),
        ("density 6", "density-out-of-reach"),
        ("density -0.3", "density-out-of-reach"),
        ("4 min to 6 cm", "wrong-dimension"),
    ],
)
def test_refuses_what_a_layer_cannot_be(text: str, code: str) -> None:
    got = refused(through_layer, text)
    assert (got[0], bool(got[2])) == (code, True)


def test_a_broad_lamp_is_told_by_how_much_it_is_off() -> None:
    # An even disk on its axis: light as 1/(d² + r²). At five widths r/d is a tenth: one percent.
    far = by_distance(Fraction(1000), Fraction(2000), width=Fraction(200))
    assert (far.factor, far.warnings) == (4, ())
    near = by_distance(Fraction(200), Fraction(400), width=Fraction(200))
    # (400² + 100²) / (200² + 100²) = 3.4, and 4 is 17.6 % more
    assert near.factor == 4
    assert "too long: by 17.6 %" in near.warnings[0]
    back = by_distance(Fraction(400), Fraction(200), width=Fraction(200))
    assert "too short: by 15 %" in back.warnings[0]


def test_refuses_inverse_square_nearer_than_the_lamp_is_wide() -> None:
    assert refused(by_distance, Fraction(100), Fraction(400), width=Fraction(200)) == (
        "lamp-too-wide",
        "the lamp is 20 cm wide and 10 cm off: so near, its light does not fall with the square of the distance",
        "make a test strip at the new distance",
    )


def test_a_lamp_says_what_it_is_before_its_distance_counts() -> None:
    """Inverse square is for small sources (B065); not for the sun, and not close to a wide bank (B066)."""
    near, far = 24 * INCH, 48 * INCH
    assert by_lamp("small", near, far) == by_distance(near, far)
    assert by_lamp("wide", near, far, width=4 * INCH) == by_distance(near, far, width=4 * INCH)
    assert refused(by_lamp, "wide", near, far)[0] == "lamp-width-missing"
    assert refused(by_lamp, "sun", near, far) == (
        "sun-has-no-distance",
        "the sun is as far off wherever the frame stands",
        "make a test strip in the light there is",
    )


@given(st.fractions(min_value="1/100", max_value=10**5), st.fractions(min_value="1/100", max_value=10**5))
def test_the_middle_in_stops_is_as_far_from_both_ends(one: Fraction, other: Fraction) -> None:
    low, high = sorted((one, other))
    middle = middle_in_stops(low, high)
    assert abs(middle / low - high / middle) < Fraction(high / low, 10**37)
    assert middle_in_stops(low, low * 4) == 2 * low


def test_says_so_when_distance_and_time_change_together() -> None:
    both = (by_stops(Fraction(1)), by_distance(Fraction(100), Fraction(200)))
    assert any("several things change at once" in warning for warning in exposed(q("1 min"), both).warnings)


@pytest.mark.parametrize(
    ("text", "stops"), [("1/3", "1/3"), ("+1 1/2", "3/2"), ("-1/2 stop", "-1/2"), ("2 stops", "2"), ("0.5", "1/2")]
)
def test_reads_stops(text: str, stops: str) -> None:
    assert parse_stops(text) == Fraction(stops)


@pytest.mark.parametrize(
    ("text", "code"), [("21", "stops-out-of-reach"), ("1,5", "number-comma"), ("", "number-not-read")]
)
def test_refuses_other_stops(text: str, code: str) -> None:
    assert refused(parse_stops, text)[0] == code


def test_refuses_a_dead_meter_and_a_strange_film() -> None:
    assert refused(by_light, Fraction(0), Fraction(1))[0] == "quantity-not-positive"
    assert refused(film_time, Fraction(10), Fraction(3))[0] == "power-out-of-reach"


@given(st.integers(-60, 60), st.integers(1, 12))
def test_parts_of_a_stop_make_up_whole_ones(numerator: int, parts: int) -> None:
    """The part's factor to the power of the parts is the whole stops' factor, to 38 figures."""
    whole = Fraction(2) ** numerator
    error = abs(factor_of_stops(Fraction(numerator, parts)) ** parts / whole - 1)
    assert error < Fraction(Decimal("1e-38"))
    assert factor_of_stops(Fraction(numerator)) == whole


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [("0", "0 s"), ("0.25", "0.25 s"), ("5.24", "5 s"), ("59.5", "1'00"), ("302.4", "5'02"), ("3665", "1 h 01'05")],
)
def test_shows_whole_seconds_and_never_none_for_some(seconds: str, shown: str) -> None:
    assert clock(Fraction(seconds)) == shown
    assert (shown_seconds(Fraction(seconds)) == 0) == (seconds == "0")
