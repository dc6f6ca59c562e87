"""How much to mix: published coating rates and capacities, and baths spent by prints or by time."""

from fractions import Fraction

import pytest

from sitegen.compute.ask import parse_sheets, parse_tray
from sitegen.compute.needed import UNTESTED, bath, coats, parse_session, trays
from sitegen.model.capacity import parse_capacity
from tests.compute.shelf import q, refused

NONE = Fraction(0)


# L01: J. Rudiak, platinotype article part 2 (View Camera, 1994): 1 ml for 20 square inches
@pytest.mark.parametrize(("size", "ml"), [("8x10 in", 4), ("4x5 in", 1)])
def test_a_published_coating_rate(size: str, ml: int) -> None:
    rate = q("10000000/129032 ml/m²")  # 20 square inches are 0.0129032 m²
    low, high = coats(parse_sheets(f"1 of {size}", coats="1", allowance=NONE), rate)
    assert low == high == ml


def test_coverage_stays_a_range_and_coats_and_allowance_count() -> None:
    sheets = parse_sheets("10 of 20x50 cm", coats="2", allowance=Fraction(1, 4))
    assert coats(sheets, q("40-60 ml/m²")) == (100, 150)
    own = parse_sheets("10 of 20x50 cm", coats="1", allowance=NONE, coverage="50 ml/m²")
    assert coats(own, q("40 ml/m²")) == (50, 50)


# B025, from inside area and depth: 24x30 cm at 10, 13 and 16 mm; 54x64 cm at 13 mm (litres, one decimal)
@pytest.mark.parametrize(
    ("size", "litres"),
    [("24x30x1 cm", "0.7"), ("24x30x1.3 cm", "0.9"), ("24x30x1.6 cm", "1.2"), ("54x64x1.3 cm", "4.5")],
)
def test_trays_by_depth(size: str, litres: str) -> None:
    volume, _ = trays(parse_tray(size), 1)
    assert abs(volume / 1000 - Fraction(litres)) <= Fraction(5, 100)
    assert trays(parse_tray(size), 3)[0] == 3 * volume


def test_a_shallow_tray_is_flagged() -> None:
    # B023: an old handbook fills a dish to at least half an inch (13 mm)
    assert trays(parse_tray("24x30x1 cm"), 1)[1]
    assert not trays(parse_tray("24x30x1.3 cm"), 1)[1]


def test_capacity_by_sheets_and_by_area_agree_as_published() -> None:
    # B028: 25 sheets of 8x10 in are 2,000 square inches (1.29 m²) a litre
    by_sheets = parse_capacity("25 sheets of 8x10 in per l")
    by_area = parse_capacity("1.29032 m² per l")
    assert by_sheets == by_area
    assert parse_capacity("1.29032 m2 per 1000 ml") == by_area
    assert parse_capacity("16 prints of A4 a l").area == 16 * 297 * 210 / Fraction(1000)


@pytest.mark.parametrize("text", ["20 per l", "20 sheets per l", "20 sheets of A4", "1.3 m²", "0 m² per l"])
def test_refuses_what_is_no_capacity(text: str) -> None:
    assert refused(parse_capacity, text)[0] == "capacity-not-read"


def test_a_bath_is_replaced_or_topped_up_over_a_session() -> None:
    # B027: 20 sheets of 8x10 in per litre, factory paper
    twenty = parse_capacity("20 sheets of 8x10 in per l")
    got = bath(Fraction(1000), parse_session("50 of 8x10 in"), capacity=twenty, keeps=None)
    assert (got.lasts, got.fillings, got.replaced) == (20, 3, 3000)
    assert (got.per_print, got.replenished) == (50, 1000 + 49 * 50)
    assert got.warnings == (UNTESTED,)


def test_topping_up_never_loads_the_bath_beyond_its_capacity() -> None:
    twenty, volume = parse_capacity("20 sheets of 8x10 in per l"), Fraction(1000)
    session = parse_session("400 of 8x10 in")
    got = bath(volume, session, capacity=twenty, keeps=None)
    assert got.per_print is not None
    load = NONE  # mm² of print a ml, after each print and then after topping up
    for _ in range(session.prints):
        load += session.area / volume
        assert load <= twenty.area
        load *= 1 - got.per_print / volume


def test_a_bath_that_ages_before_it_is_spent_is_mixed_again() -> None:
    twenty = parse_capacity("20 sheets of 8x10 in per l")
    session = parse_session("10 of 8x10 in", lasting="5 h")
    got = bath(Fraction(1000), session, capacity=twenty, keeps=q("2-6 h"))
    assert (got.lasts, got.fillings, got.per_print, got.replenished) == (4, 3, None, None)
    assert any("keeping time ends" in warning for warning in got.warnings)
    assert bath(Fraction(1000), session, capacity=None, keeps=q("5 h")).fillings == 1
    assert bath(Fraction(1000), session, capacity=None, keeps=q("10 min")).lasts == 1


def test_refuses_a_tray_that_does_not_do_one_print() -> None:
    capacity = parse_capacity("1 m² per l")
    assert refused(bath, Fraction(100), parse_session("3 of 50x40 cm"), capacity=capacity, keeps=None) == (
        "bath-too-small",
        "one filling is spent before the first print is done",
        "fill the tray with 200 ml at least",
    )
