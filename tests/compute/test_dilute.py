"""Dilution: parts and strengths, and every refusal with its help."""

from fractions import Fraction

import pytest

from sitegen.compute.dilute import (
    MAKE_UP,
    NOT_ADDED,
    dilute_by_parts,
    dilute_to_strength,
    parse_concentration,
    parse_concentrations,
)
from sitegen.compute.molar import molar_mass
from sitegen.model.dilution import Dilution
from tests.compute.shelf import q, refused, value

NINE = Dilution(stock=Fraction(1), diluent=Fraction(9))


@pytest.mark.parametrize(
    ("text", "given", "per", "figure"),
    [
        ("10 % w/v", {}, "g/l", Fraction(100)),
        ("150 % w/v", {}, "g/l", Fraction(1500)),
        ("50 g/l", {}, "g/l", Fraction(50)),
        ("2 % v/v", {}, "v/v", Fraction(2)),
        ("37 % w/w", {}, "w/w", Fraction(37)),
        ("37 %w/w", {"density": "1.18 g/ml"}, "g/l", Fraction("436.6")),
        ("37 % w/w", {"density": "1180 g/l"}, "g/l", Fraction("436.6")),
        ("1 mol/l", {}, "mol/l", Fraction(1)),
        ("2 M", {"formula": "HCl"}, "g/l", 2 * molar_mass("HCl")),
    ],
)
def test_reads_strengths(text: str, given: dict[str, str], per: str, figure: Fraction) -> None:
    got = parse_concentration(text, **given)
    assert (got.per, got.value, got.written) == (per, figure, text)


KINDS = "write `10 % w/v`, `10 % w/w`, `10 % v/v`, `100 g/l` or `1 mol/l`"


@pytest.mark.parametrize(
    ("text", "given", "code", "message", "remedy"),
    [
        ("10 %", {}, "percent-without-basis", "`10 %` does not say percent of what", KINDS),
        ("10 g", {}, "strength-not-read", "`10 g` is not a strength", KINDS),
        ("10", {}, "strength-not-read", "`10` is not a strength", KINDS),
        ("2-3 % w/v", {}, "strength-not-read", "`2-3 % w/v` is not one strength",
         "write one figure, such as `10 % w/v`"),
        ("0 % w/v", {}, "strength-not-read", "`0 % w/v` is not one strength", "write one figure, such as `10 % w/v`"),
        ("101 % w/w", {}, "percent-over-100", "`101 % w/w` is more than the whole", "write a percent of at most 100"),
        ("37 % w/w", {"density": "1.18 g"}, "wrong-dimension", "`1.18 g` is a mass; a density was expected",
         "write a density, such as `1.05 g/ml`"),
        ("1 mol/l", {"formula": "muriatic"}, "formula-not-read", "`muriatic` is not a chemical formula",
         "write it with element symbols, a full stop before water: `Na2CO3.10H2O`"),
    ],
)  # fmt: skip
def test_refuses_what_is_not_one_strength(
    text: str, given: dict[str, str], code: str, message: str, remedy: str
) -> None:
    assert refused(parse_concentration, text, **given) == (code, message, remedy)


def test_parts_for_a_volume_wanted_and_from_a_stock_left() -> None:
    wanted, left = dilute_by_parts(NINE, make=q("500 ml")), dilute_by_parts(NINE, have=q("50 ml"))
    assert wanted == left
    assert (value(wanted.stock), value(wanted.diluent), value(wanted.makes)) == (50, 450, 500)
    assert (wanted.make_up, wanted.warnings) == (False, (NOT_ADDED,))


def test_parts_by_weight_add_up_and_need_no_warning() -> None:
    got = dilute_by_parts(NINE, make=q("1 kg"))
    assert (value(got.stock), got.stock.unit, got.warnings) == (Fraction(1, 10), "kg", ())


def test_a_strength_by_volume_is_made_up_to() -> None:
    got = dilute_to_strength(parse_concentration("10 % w/v"), parse_concentration("2 % w/v"), make=q("500 ml"))
    assert (value(got.stock), value(got.diluent), got.make_up, got.warnings) == (100, 400, True, (MAKE_UP,))


def test_a_strength_by_weight_adds_up() -> None:
    got = dilute_to_strength(parse_concentration("40 % w/w"), parse_concentration("10 % w/w"), have=q("100 g"))
    assert (value(got.makes), value(got.diluent), got.make_up, got.warnings) == (400, 300, False, ())


def test_a_strength_equal_to_the_stock_takes_no_diluent() -> None:
    ten = parse_concentration("10 % w/v")
    got = dilute_to_strength(ten, ten, make=q("500 ml"))
    assert (value(got.stock), value(got.diluent)) == (500, 0)


@pytest.mark.parametrize(
    ("stock", "to", "remedy"),
    [
        ("37 % w/w", "1 mol/l", "give the stock's density (`1.18 g/ml`), and its formula where moles are asked for"),
        ("37 % w/w", "5 % w/v", "give the stock's density (`1.18 g/ml`), and its formula where moles are asked for"),
        ("10 % w/v", "1 mol/l", "give the formula, such as `HCl`, so that moles can be weighed"),
        ("96 % v/v", "5 % w/v", "write both as % w/v, both as % v/v or both as % w/w"),
        ("96 % v/v", "5 % w/w", "write both as % w/v, both as % v/v or both as % w/w"),
    ],
)
def test_refuses_strengths_of_two_kinds(stock: str, to: str, remedy: str) -> None:
    got = refused(dilute_to_strength, parse_concentration(stock), parse_concentration(to), make=q("1 l"))
    assert got == ("strengths-differ", f"`{stock}` and `{to}` are not strengths of one kind", remedy)


def test_refuses_to_make_it_stronger() -> None:
    got = refused(dilute_to_strength, parse_concentration("2 % w/v"), parse_concentration("10 % w/v"), make=q("1 l"))
    assert got == (
        "stronger-than-stock",
        "`10 % w/v` is stronger than the stock, `2 % w/v`",
        "ask for a strength below the stock's, or mix a stronger stock",
    )


@pytest.mark.parametrize(
    ("stock", "to", "make", "said"),
    [
        ("40 % w/w", "10 % w/w", "1 l", ("dilute-by-weight",
         "`1 l` is a volume, and `40 % w/w` to `10 % w/w` is diluted by weight",
         "ask for a mass, such as `500 g`, or give the stock's density and a strength in % w/v")),
        ("40 % w/v", "10 % w/v", "1 kg", ("dilute-by-volume",
         "`1 kg` is a mass, and `40 % w/v` to `10 % w/v` is diluted by volume",
         "ask for a volume, such as `500 ml`")),
    ],
)  # fmt: skip
def test_refuses_the_other_measure(stock: str, to: str, make: str, said: tuple[str, str, str]) -> None:
    got = refused(dilute_to_strength, parse_concentration(stock), parse_concentration(to), make=q(make))
    assert got == said


@pytest.mark.parametrize("asked", [{}, {"make": "1 l", "have": "1 l"}])
def test_refuses_to_guess_how_much(asked: dict[str, str]) -> None:
    given = {name: q(text) for name, text in asked.items()}
    assert refused(dilute_by_parts, NINE, **given) == (
        "say-how-much",
        "say how much is wanted or how much stock there is",
        "give one of the two",
    )


@pytest.mark.parametrize("asked", ["3 drops", "1-2 l", "3 h"])
def test_refuses_what_is_not_one_volume_or_mass(asked: str) -> None:
    assert refused(dilute_by_parts, NINE, make=q(asked)) == (
        "wrong-dimension",
        f"`{asked}` is not one volume or mass",
        "write `500 ml` or `500 g`",
    )


def test_two_percents_by_weight_are_diluted_by_weight_whatever_the_density() -> None:
    stock, goal = parse_concentrations("37 % w/w", "10 % w/w", density="1.18 g/ml")
    assert value(dilute_to_strength(stock, goal, make=q("370 g")).stock) == 100
