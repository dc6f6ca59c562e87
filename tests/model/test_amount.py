"""Amounts: each way of saying how much, what is refused, and that text written is read back."""

from fractions import Fraction

import pytest
from hypothesis import given

from sitegen.model.amount import (
    Absolute,
    Amount,
    FillUp,
    OfBase,
    Parts,
    Percent,
    Unscaled,
    format_amount,
    parse_amount,
    parse_percent,
)
from sitegen.problems import Refusal
from tests.compute.shelf import answered, q, refused
from tests.strategies import amounts, odd_text

SHOWN = "write an amount such as `35 g`, `to make 1 l`, `2 parts`, `2 % w/v`, `12 % of fibre` or `as needed`"


def percent(low: str, high: str, basis: str) -> Percent:
    """A percent of the finished mixture."""
    return Percent(low=Fraction(low), high=Fraction(high), basis=basis)  # type: ignore[arg-type]  # from a table


@pytest.mark.parametrize(
    ("text", "amount"),
    [
        ("35 g", Absolute(quantity=q("35 g"))),
        ("2-3 g", Absolute(quantity=q("2-3 g"))),
        ("3 drops", Absolute(quantity=q("3 drops"))),
        ("2 pieces", Absolute(quantity=q("2 pieces"))),
        ("to make 1 l", FillUp(quantity=q("1 l"))),
        ("To  make 500 g", FillUp(quantity=q("500 g"))),
        ("1 part", Parts(count=Fraction(1))),
        ("2 parts by weight", Parts(count=Fraction(2), by="weight")),
        ("1/2 part by volume", Parts(count=Fraction(1, 2), by="volume")),
        ("2 % w/v", percent("2", "2", "w/v")),
        ("2-3% w/w", percent("2", "3", "w/w")),
        ("12 % of fibre", OfBase(low=Fraction(12), high=Fraction(12), base="fibre")),
        ("30 times fibre", OfBase(low=Fraction(3000), high=Fraction(3000), base="fibre")),
        ("as needed", Unscaled(words="as needed")),
        ("to pH 8-8.5", Unscaled(words="to pH 8-8.5")),
    ],
)
def test_reads_each_kind_of_amount(text: str, amount: Amount) -> None:
    assert parse_amount(text) == amount


def test_a_bare_percent_takes_the_meaning_the_archive_declares() -> None:
    assert parse_amount("2 %", percent_means="w/v") == percent("2", "2", "w/v")


def test_a_percent_with_its_basis_does_not_take_the_declared_one() -> None:
    assert parse_amount("2 % v/v", percent_means="w/v") == percent("2", "2", "v/v")


@pytest.mark.parametrize(
    ("text", "code", "message", "remedy"),
    [
        ("some", "amount-not-read", "`some` is not an amount", SHOWN),
        ("", "amount-not-read", "`` is not an amount", SHOWN),
        ("-3 g", "amount-not-read", "`-3 g` is not an amount", SHOWN),
        ("0 parts", "quantity-not-positive", "`0 parts` is not more than nothing", "write an amount above zero"),
        ("20 °C", "wrong-dimension", "`20 °C` is a temperature; an amount was expected", SHOWN),
        ("to make 3 drops", "wrong-dimension", "`3 drops` cannot be filled up to",
         "write a volume, such as `to make 1 l`"),
        ("to make 2-3 l", "range-not-here", "`2-3 l` is a range; one figure is needed here",
         "write the one figure the amounts were weighed for"),
        ("2-3 parts", "range-not-here", "`2-3 parts` is a range; parts are single figures",
         "write one figure, such as `2 parts`"),
        ("2 % by mass", "percent-without-basis", "`% by mass` is not a kind of percent",
         "write `% w/v`, `% w/w`, `% v/v` or `% of fibre`"),
        ("2 %", "percent-without-basis", "`2 %` does not say percent of what",
         "write `2 % w/v` (g per 100 ml), `2 % w/w` (g per 100 g) or `2 % v/v` (ml per 100 ml)"),
        ("101 % w/w", "percent-over-100", "`101 % w/w` is more than the whole", "write a percent of at most 100"),
        ("2 tsp", "unit-not-measured", "`tsp` is not a measure",
         "weigh what your spoon holds once and write grams, or measure in ml"),
        ("1,5 g", "number-comma", "`1,5` has a comma", "write `1.5`"),
        (
            "1:10",
            "ratio-two-readings",
            "`1:10` can be read in two ways",
            "write `1 part` here and `10 parts` in the line of the other; "
            "or `9 parts` there, if `1:10` counts the whole",
        ),
        (
            "1:1",
            "ratio-two-readings",
            "`1:1` can be read in two ways",
            "write `1 part` here and `1 part` in the line of the other",
        ),
        (
            "1 + 9",
            "amount-not-read",
            "`1 + 9` holds the shares of two ingredients",
            "write `1 part` here and `9 parts` in the line of the other",
        ),
        ("22", "unknown-unit", "the unit is missing", "write `22 g`, `22 ml` or `22 parts`"),
        ("1", "unknown-unit", "the unit is missing", "write `1 g`, `1 ml` or `1 part`"),
        (".5 g", "number-not-read", "`.5` has nothing before its point", "write `0.5`"),
        ("1 000 g", "number-not-read", "a space stands in `1 000`", "write `1000`"),
        ("2½ g", "number-not-read", "`2½` is one sign for a fraction", "write `2 1/2`"),
    ],
)  # fmt: skip
def test_refuses_what_has_two_readings_or_none(text: str, code: str, message: str, remedy: str) -> None:
    assert refused(parse_amount, text) == (code, message, remedy)


def test_a_refused_percent_notes_the_setting() -> None:
    with pytest.raises(Refusal) as caught:
        parse_amount("2 %")
    assert caught.value.notes == ("or say once in archive.yaml what a bare percent means: `percent means: w/v`",)


def test_reads_a_percent_of_the_kind_wanted() -> None:
    assert parse_percent("28 % w/w", ("w/w",)) == percent("28", "28", "w/w")


@pytest.mark.parametrize("text", ["28 % v/v", "28 g", "28 % of fibre", "as needed"])
def test_refuses_a_percent_of_another_kind(text: str) -> None:
    assert refused(parse_percent, text, ("w/w", "w/v")) == (
        "percent-not-read",
        f"`{text}` is not a percent of the kind needed here",
        "write `28 % w/w` or `28 % w/v`",
    )


@given(amounts())
def test_an_amount_written_is_read_back(amount: Amount) -> None:
    assert parse_amount(format_amount(amount)) == amount


@given(odd_text)
def test_any_text_is_an_amount_or_refused_and_nothing_else(text: str) -> None:
    amount = answered(lambda t: parse_amount(t, percent_means="w/v"), text)
    assert amount is None or parse_amount(format_amount(amount)) == amount
    answered(parse_amount, text)
    answered(parse_percent, text)
