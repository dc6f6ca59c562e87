"""Test strips: the series as defined and as misprinted, the card both ways, and what is refused."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sitegen.compute.exposure import clock
from sitegen.compute.strip import Move, Rise, Strip, parse_place, strip_about, strip_around, strip_from, usual_strip
from sitegen.problems import Refusal
from tests.compute.shelf import q, refused

THIRD = Rise(stops=Fraction(1, 3))


def clocks(strip: Strip) -> list[str]:
    return [clock(Fraction(band.seconds)) for band in strip.bands]


def test_thirds_of_a_stop_from_eight_seconds() -> None:
    # K12, by definition; 25.4 also in R. W. Lambrecht's table
    expected = ["8", "10.1", "12.7", "16", "20.2", "25.4", "32"]
    got = [band.exact for band in strip_from(Fraction(8), THIRD, 7).bands]
    assert all(abs(a - Fraction(b)) <= Fraction(5, 100) for a, b in zip(got, expected, strict=True))


def test_thirds_of_a_stop_from_four_minutes_without_the_misprint() -> None:
    # B068: the published table (alternativeprinting.co.uk, Base exposure) prints 13'42 for 12'42
    got = clocks(strip_from(Fraction(240), THIRD, 10))
    assert got == ["4'00", "5'02", "6'21", "8'00", "10'05", "12'42", "16'00", "20'10", "25'24", "32'00"]
    assert "13'42" not in got


def test_equal_steps() -> None:
    # B077: salted paper is tested in 5-minute steps up to 1 h
    strip = strip_from(Fraction(300), Rise(seconds=Fraction(300)), 12)
    assert [band.seconds for band in strip.bands] == list(range(300, 3601, 300))
    assert strip.bands[0].stops is None
    assert strip.warnings == ()


def test_the_card_covers_from_the_shortest_or_uncovers_from_the_longest() -> None:
    strip = strip_from(Fraction(10), Rise(stops=Fraction(1)), 3)
    assert strip.covering == (
        Move(at=10, do="cover", band=1),
        Move(at=20, do="cover", band=2),
        Move(at=40, do="lamp off", band=3),
    )
    assert strip.uncovering == (
        Move(at=0, do="uncover", band=3),
        Move(at=20, do="uncover", band=2),
        Move(at=30, do="uncover", band=1),
        Move(at=40, do="lamp off", band=1),
    )


@given(st.integers(1, 900), st.sampled_from(["1/6", "1/4", "1/3", "1/2", "1"]), st.integers(2, 12))
def test_either_way_each_band_gets_just_its_seconds(first: int, stops: str, count: int) -> None:
    try:
        strip = strip_from(Fraction(first), Rise(stops=Fraction(stops)), count)
    except Refusal:
        assume(False)  # steps below a second
        raise
    off = strip.bands[-1].seconds
    covered = {move.band: move.at for move in strip.covering}
    bared = {move.band: off - move.at for move in strip.uncovering if move.do == "uncover"}
    given_seconds = {band.number: band.seconds for band in strip.bands}
    assert covered == bared == given_seconds
    assert all(a.at < b.at for a, b in pairwise(strip.uncovering))


def test_a_strip_is_centred_on_a_time() -> None:
    strip = strip_around(Fraction(480), THIRD, 7)
    assert strip.bands[3].exact == 480
    assert clocks(strip)[0] == "4'00"
    assert strip.stretches == (240, 62, 79, 99, 125, 157, 198)
    equal = strip_around(Fraction(720), Rise(seconds=Fraction(180)), 5)
    assert [band.seconds for band in equal.bands] == [360, 540, 720, 900, 1080]


def test_a_strip_around_a_range_has_the_middle_of_its_own_kind() -> None:
    # between 3 and 12 min lie two stops, 6 min in their middle; of seconds the middle is 7 min 30
    assert strip_about(q("3-12 min"), Rise(stops=Fraction(1, 2)), 5).bands[2].exact == 360
    assert strip_about(q("3-12 min"), Rise(seconds=Fraction(60)), 5).bands[2].exact == 450
    assert strip_about(q("8 min"), THIRD, 7) == strip_around(Fraction(480), THIRD, 7)


@pytest.mark.parametrize(
    ("time", "shown"),
    [
        ("8-16 min", "5'39 8'00 11'19 16'00 22'38"),
        ("16 s", "8 s 11 s 16 s 23 s 32 s"),
        ("10-60 min", "8'40 12'15 17'19 24'30 34'38 48'59 1 h 09'17"),
    ],
)
def test_the_usual_strip_reaches_both_ends_of_a_time_in_half_stops(time: str, shown: str) -> None:
    strip = usual_strip(q(time))
    assert strip
    assert " ".join(clocks(strip)) == shown


def test_a_time_too_short_to_cut_has_no_usual_strip() -> None:
    assert usual_strip(q("1 s")) is None


def test_a_band_or_the_place_between_two_gives_the_time() -> None:
    strip = strip_from(Fraction(240), Rise(stops=Fraction(1)), 3)
    assert strip.seconds_at(parse_place("2", 3)) == 480
    # half way in stops: the geometric mean of 8 and 16 min
    assert abs(strip.seconds_at(parse_place("2-3", 3)) ** 2 - 480 * 960) < Fraction(1, 10**30)
    assert strip_from(Fraction(60), Rise(seconds=Fraction(60)), 3).seconds_at(parse_place("2–3", 3)) == 150


@pytest.mark.parametrize("text", ["0", "8", "2-4", "3-2", "two", "", "2.5", "٢"])
def test_refuses_a_band_that_is_not_there(text: str) -> None:
    assert refused(parse_place, text, 7)[0] == "band-not-read"


@pytest.mark.parametrize(
    ("first", "rise", "count", "code"),
    [
        ("60", Rise(), 7, "ask-one-way"),
        ("60", Rise(seconds=Fraction(5), stops=Fraction(1)), 7, "ask-one-way"),
        ("60", Rise(stops=Fraction(-1)), 7, "ask-one-way"),
        ("60", THIRD, 1, "strip-length"),
        ("60", THIRD, 31, "strip-length"),
        ("60", Rise(stops=Fraction(3)), 7, "stops-out-of-reach"),
        ("2", Rise(stops=Fraction(1, 6)), 7, "strip-too-fine"),
        ("0.2", Rise(stops=Fraction(2)), 7, "strip-too-fine"),
    ],
)
def test_refuses_strips_that_cannot_be_made(first: str, rise: Rise, count: int, code: str) -> None:
    got = refused(strip_from, Fraction(first), rise, count)
    assert (got[0], bool(got[2])) == (code, True)


def test_refuses_a_centre_that_is_none() -> None:
    assert refused(strip_around, Fraction(60), THIRD, 6)[0] == "strip-without-middle"
    assert refused(strip_around, Fraction(60), Rise(seconds=Fraction(30)), 5)[0] == "strip-below-nothing"


def test_flags_a_stretch_that_a_slow_hand_spoils() -> None:
    assert strip_from(Fraction(10), Rise(seconds=Fraction(3)), 3).warnings == (
        "the shortest stretch is 3 s: a slip of one second is 33 % of it",
    )
