"""Questions: how each is read, what factor it gives, and what is refused with which help."""

from fractions import Fraction

import pytest

from sitegen.compute.ask import (
    Base,
    Factor,
    Have,
    Make,
    People,
    Question,
    Sheets,
    Tray,
    coating,
    factor_of,
    parse_allowance,
    parse_base,
    parse_factor,
    parse_left,
    parse_sheets,
    parse_tray,
)
from sitegen.compute.plan import Target
from sitegen.model.sizes import parse_count
from tests.compute.shelf import Kitchen, form, q, refused

NONE = Fraction(0)


def working(**more: str) -> Target:
    """A working solution of 200 ml, with whatever else is said of it."""
    mixed = Kitchen(form("citrate"), form("acid", state="liquid", density="1.05 g/ml"), form("oil", state="liquid"))
    mixed.mix("stock", {"citrate": "10 g", "water": "to make 100 ml"})
    contains = {"citrate": "40 g", "acid": "21 ml", "oil": "5 ml", "stock": "50 ml", "water": "to make 200 ml"}
    return mixed.mix(contains=contains, **more).target()


def dye_bath() -> Target:
    """A dye bath reckoned on fibre."""
    return Kitchen(form("alum")).mix(contains={"alum": "12 % of fibre", "water": "30 times fibre"}).target()


def in_parts(**more: str) -> Target:
    """Parts without a size."""
    return Kitchen(form("acid", state="liquid")).mix(contains={"acid": "1 part", "water": "3 parts"}, **more).target()


def test_reads_a_tray() -> None:
    assert parse_tray("30x40 × 2 cm") == Tray(length=Fraction(300), width=Fraction(400), depth=Fraction(20))
    assert parse_tray("8 1/2 x 11x1/2 in").length == Fraction("215.9")


def test_reads_sheets_by_size_and_by_name() -> None:
    by_size = parse_sheets("12 of 21x29.7 cm", coats="2", allowance=Fraction(1, 10), coverage="40 ml/m²")
    by_name = parse_sheets("12 of A4", coats="2", allowance=Fraction(1, 10))
    assert by_size.coverage == q("40 ml/m²")
    assert {by_size.length, by_size.width} == {by_name.length, by_name.width} == {Fraction(210), Fraction(297)}
    assert (by_name.count, by_name.coats, by_name.allowance) == (12, 2, Fraction(1, 10))


def test_reads_what_is_left_a_base_an_allowance_and_counts() -> None:
    assert parse_left("citric-acid = 18 g") == ("citric-acid", q("18 g"))
    assert parse_base("fibre=250 g") == Base(name="fibre", quantity=q("250 g"))
    assert (parse_allowance("15 %"), parse_allowance("0%"), parse_allowance("300 %")) == (Fraction(3, 20), 0, 3)
    assert (parse_count("14", "people"), parse_factor("3.5").times) == (14, Fraction(7, 2))


SIZE_OF_TRAY = "write `30x40x2 cm`, the last one being the depth of the liquid"
SIZE_OF_SHEET = "write `24x30 cm` or `A4`"


@pytest.mark.parametrize(
    ("text", "code", "message", "remedy"),
    [
        ("30x40 cm", "size-not-read", "`30x40 cm` is not the size of a tray", SIZE_OF_TRAY),
        ("30x40x2", "size-not-read", "`30x40x2` is not the size of a tray", SIZE_OF_TRAY),
        ("30x40x2 g", "size-not-read", "`30x40x2 g` is not the size of a tray", SIZE_OF_TRAY),
        ("large", "size-not-read", "`large` is not the size of a tray", SIZE_OF_TRAY),
        ("30x0x2 cm", "quantity-not-positive", "`30x0x2 cm` has a side of nothing", SIZE_OF_TRAY),
        ("30x40x2 furlongs", "unknown-unit", "`furlongs` is not a unit known here",
         "write a unit such as `g`, `ml`, `fl oz US`, `min` or `°C`"),
        ("30x1,5x2 cm", "number-comma", "`1,5` has a comma", "write `1.5`"),
    ],
)  # fmt: skip
def test_refuses_trays_without_three_lengths(text: str, code: str, message: str, remedy: str) -> None:
    assert refused(parse_tray, text) == (code, message, remedy)


@pytest.mark.parametrize(
    ("text", "coats", "code", "message", "remedy"),
    [
        ("a dozen", "1", "sheets-not-read", "`a dozen` does not say how many sheets of what size",
         "write `12 of 24x30 cm`"),
        ("12 of A44", "1", "size-not-read", "`A44` is not the size of a sheet", SIZE_OF_SHEET),
        ("1.5 of A4", "1", "count-not-whole", "`1.5` is not a number of sheets", "write a whole number of sheets"),
        ("12 of A4", "0", "count-not-whole", "`0` is not a number of coats", "write a whole number of coats"),
    ],
)  # fmt: skip
def test_refuses_sheets_that_cannot_be_counted(text: str, coats: str, code: str, message: str, remedy: str) -> None:
    assert refused(lambda: parse_sheets(text, coats=coats, allowance=NONE)) == (code, message, remedy)


def test_refuses_a_coverage_that_is_none() -> None:
    code, message, _ = refused(lambda: parse_sheets("1 of A4", coats="1", allowance=NONE, coverage="40 ml"))
    assert (code, message) == ("wrong-dimension", "`40 ml` is a volume; a coverage was expected")


@pytest.mark.parametrize("text", ["15", "-5 %", "301 %", "", "%"])
def test_refuses_an_allowance_that_is_no_percent(text: str) -> None:
    assert refused(parse_allowance, text) == (
        "allowance-not-read",
        f"`{text}` is not an allowance",
        "write a percent, such as `15 %`",
    )


@pytest.mark.parametrize("text", ["0", "-2"])
def test_refuses_a_factor_of_nothing(text: str) -> None:
    assert refused(parse_factor, text) == (
        "quantity-not-positive",
        f"`{text}` is not more than nothing",
        "write a factor above zero",
    )


@pytest.mark.parametrize("text", ["18 g", "=18 g", " = 18 g"])
def test_refuses_an_amount_without_a_name(text: str) -> None:
    assert refused(parse_left, text) == (
        "named-amount-not-read",
        f"`{text}` does not name an amount",
        "write `name=18 g`",
    )


def test_refuses_a_base_that_is_not_weighed() -> None:
    assert refused(parse_base, "fibre=2 m") == (
        "wrong-dimension",
        "`fibre=2 m` is not a weight",
        "write a mass, such as `fibre=250 g`",
    )


@pytest.mark.parametrize(
    ("question", "factor"),
    [
        pytest.param(Make(quantity=q("350 ml")), Fraction(7, 4), id="make"),
        pytest.param(Make(quantity=q("220 g")), Fraction(1), id="make-a-mass-through-the-density"),
        pytest.param(Factor(times=Fraction(7, 2)), Fraction(7, 2), id="factor"),
        pytest.param(parse_tray("30x40x2 cm"), Fraction(12), id="tray"),
        pytest.param(Have(left=(("citrate", q("22.5 g")),)), Fraction(1, 2), id="have"),
        pytest.param(Have(left=(("acid", q("42 ml")),)), Fraction(2), id="have-a-volume"),
        pytest.param(Have(left=(("acid", q("44.1 g")),)), Fraction(2), id="have-a-mass-of-a-liquid"),
        pytest.param(Have(left=(("stock", q("25 ml")),)), Fraction(1, 2), id="have-a-mixture"),
        pytest.param(Have(left=(("citrate", q("90 g")), ("oil", q("4 ml")))), Fraction(4, 5), id="the-scarcest"),
        pytest.param(People(count=Fraction(14)), Fraction(14, 10), id="people-with-their-own-share"),
        pytest.param(People(count=Fraction(3), each=Make(quantity=q("100 ml"))), Fraction(3, 2), id="people-each"),
    ],
)
def test_each_question_gives_its_factor(question: Question, factor: Fraction) -> None:
    """`citrate` is weighed 40 g into the mixture and 5 g into the stock it takes: 45 g in all."""
    target = working(density="1.1 g/ml", per_person="20 ml")
    assert factor_of(question, target) == factor


def test_people_without_a_share_each_get_the_recipe() -> None:
    assert factor_of(People(count=Fraction(5)), working()) == 5


def test_a_base_gives_its_factor_by_weight() -> None:
    assert factor_of(parse_base("Fibre=250 g"), dye_bath()) == Fraction(5, 2)


def test_sheets_take_area_times_coverage_times_coats_and_the_allowance() -> None:
    """12 sheets of 24 x 30 cm are 0.864 m²; at 40 ml/m², twice, with 15 %: 79.488 ml. By hand."""
    sheets = parse_sheets("12 of 24x30 cm", coats="2", allowance=Fraction(15, 100))
    assert coating(sheets, working(coverage="30-40 ml/m²")) == Fraction("79.488")
    assert factor_of(sheets, working(coverage="30-40 ml/m²")) == Fraction("79.488") / 200


def test_a_coverage_that_is_asked_replaces_the_recipes_own() -> None:
    sheets = Sheets(count=Fraction(1), length=Fraction(1000), width=Fraction(1000), coats=Fraction(1),
                    allowance=NONE, coverage=q("70 ml/m²"))  # fmt: skip
    assert coating(sheets, working(coverage="40 ml/m²")) == 70


REFUSED = [
    pytest.param(working(), Make(quantity=q("350 g")), "no-density",
        "350 g is a mass, and `m` is made by volume: mass and volume meet only through a density, which "
        "it does not give",
        "ask for a volume, or write its `density: 1.05 g/ml`", id="mass-of-a-volume"),
    pytest.param(working(), Make(quantity=q("3 h")), "wrong-dimension", "`3 h` is a time; `m` is made by volume",
        "write a volume, such as `350 ml`", id="time"),
    pytest.param(working(), parse_sheets("1 of A4", coats="1", allowance=NONE), "no-coverage",
        "`m` does not say how much liquid a sheet takes",
        'give a coverage, such as `--coverage "40 ml/m²"`, or write `coverage: 40 ml/m²` on the mixture',
        id="no-coverage"),
    pytest.param(working(), parse_base("fibre=250 g"), "no-base", "`m` does not go by the weight of anything",
        'ask with `--make "350 ml"`', id="base-of-a-volume"),
    pytest.param(working(), Have(left=(("citrat", q("3 g")),)), "not-in-recipe",
        "`citrat` is not weighed or measured out for `m`", "did you mean `citrate`?", id="near-name"),
    pytest.param(working(), Have(left=(("zinc", q("3 g")),)), "not-in-recipe",
        "`zinc` is not weighed or measured out for `m`",
        "write one of `citrate`, `acid`, `oil`, `stock`", id="far-name"),
    pytest.param(working(), Have(left=(("water", q("1 l")),)), "not-in-recipe",
        "`water` is not weighed or measured out for `m`",
        "write one of `citrate`, `acid`, `oil`, `stock`", id="water-only-fills-up"),
    pytest.param(working(), Have(left=(("oil", q("3 g")),)), "no-density",
        "`oil` is measured by volume in `m`, and a mass was given",
        "say how much is left as a volume", id="oil-by-weight"),
    pytest.param(dye_bath(), Make(quantity=q("1 l")), "asked-of-base", "`m` goes by the weight of fibre, not by volume",
        'ask with the base: `--base "fibre=250 g"`', id="volume-of-a-base"),
    pytest.param(dye_bath(), parse_base("paper=250 g"), "no-base", "`m` goes by the weight of fibre, not of paper",
        "write `fibre=250 g`", id="another-base"),
    pytest.param(dye_bath(), Factor(times=Fraction(2)), "no-size-as-written", "`m` has no size of its own to multiply",
        'ask with the base: `--base "fibre=250 g"`', id="factor-of-a-base"),
    pytest.param(in_parts(), Factor(times=Fraction(2)), "no-size-as-written", "`m` has no size of its own to multiply",
        'say how much to make: `--make "350 ml"`', id="factor-of-parts"),
    pytest.param(in_parts(), People(count=Fraction(2)), "no-size-as-written",
        "`m` does not say how much one person gets",
        'add `--make "20 ml"` for each, or write `per person: 20 ml` on the mixture', id="people-of-parts"),
]  # fmt: skip


@pytest.mark.parametrize(("target", "question", "code", "message", "remedy"), REFUSED)
def test_refuses_what_cannot_be_answered(
    target: Target, question: Question, code: str, message: str, remedy: str
) -> None:
    assert refused(factor_of, question, target) == (code, message, remedy)
