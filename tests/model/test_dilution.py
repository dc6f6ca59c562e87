"""Dilutions: parts of stock and of diluent; a colon has two readings and is refused."""

from fractions import Fraction

import pytest
from hypothesis import given

from sitegen.model.dilution import Dilution, parse_dilution
from tests.compute.shelf import answered, refused
from tests.strategies import odd_text

PARTS = "write parts of stock and parts of water, such as `1+9`"


@pytest.mark.parametrize(
    ("text", "stock", "diluent"), [("1+9", 1, 9), (" 1 + 1.5 ", 1, Fraction(3, 2)), ("1/2+4", Fraction(1, 2), 4)]
)
def test_reads_parts(text: str, stock: Fraction, diluent: Fraction) -> None:
    assert parse_dilution(text) == Dilution(stock=Fraction(stock), diluent=Fraction(diluent))


@pytest.mark.parametrize(
    ("text", "code", "message", "remedy"),
    [
        ("1:10", "ratio-two-readings", "`1:10` can be read in two ways", "write `1+10` or `1+9`"),
        ("9", "bad-dilution", "`9` is not a dilution", PARTS),
        ("", "bad-dilution", "`` is not a dilution", PARTS),
        ("1+9+2", "bad-dilution", "`1+9+2` is not a dilution", PARTS),
        ("0+9", "bad-dilution", "`0+9` has a part of nothing", "write parts such as `1+9`"),
        ("1+0", "bad-dilution", "`1+0` has a part of nothing", "write parts such as `1+9`"),
        ("one+nine", "number-not-read", "`one` is not a number", "write a number such as `12`, `1.5` or `1/2`"),
    ],
)
def test_refuses_parts_that_do_not_say_of_what(text: str, code: str, message: str, remedy: str) -> None:
    assert refused(parse_dilution, text) == (code, message, remedy)


@given(odd_text)
def test_any_text_is_a_dilution_or_refused_and_nothing_else(text: str) -> None:
    parts = answered(parse_dilution, text)
    assert parts is None or min(parts.stock, parts.diluent) > 0
