"""Molar masses: every formula of the built-in cards against an independent library, and refusals."""

from fractions import Fraction

import pytest
from chemicals.elements import molecular_weight, nested_formula_parser
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.molar import molar_mass
from tests.compute.shelf import answered, base_shelf, refused
from tests.strategies import odd_text

FORMULAS = sorted({f.formula for f in base_shelf().forms.values() if f.formula})

# The package multiplies the bracket in a bracket twice and gets 1918 g/mol; written out it agrees.
WRITTEN_OUT = {"Fe4[Fe(CN)6]3": "Fe7C18N18"}


def outside(formula: str) -> float:
    """g/mol by the package `chemicals`, part by part: it does not read the full stop before water."""
    total = 0.0
    for part in WRITTEN_OUT.get(formula, formula).split("."):
        rest = part.lstrip("0123456789")
        times = int(part[: len(part) - len(rest)] or "1")
        total += times * molecular_weight(nested_formula_parser(rest))
    return total


@pytest.mark.parametrize("formula", FORMULAS)
def test_agrees_with_the_package_chemicals(formula: str) -> None:
    """To 2 in 10,000: the two libraries carry standard atomic weights of different years."""
    assert float(molar_mass(formula)) == pytest.approx(outside(formula), rel=2e-4)


def test_gives_four_decimals_exactly() -> None:
    assert molar_mass("NaCl") * 10_000 == Fraction(molar_mass("NaCl") * 10_000).limit_denominator(1)


def test_a_raised_dot_is_read_as_a_full_stop() -> None:
    assert molar_mass("Na2CO3·10H2O") == molar_mass("Na2CO3.10H2O")


@pytest.mark.parametrize(
    "formula",
    ["", " ", "Xx", "(", "5", "salt", "H-1", "H2O+", "peptide(ACD)", "Na2CO3 10H2O", "H٣", "C" + "9" * 400, "H" * 200],
)
def test_refuses_what_is_no_formula(formula: str) -> None:
    """A space would be dropped and `Na2CO3 10H2O` weigh 5036; nothing, or a charge, has no mass to swap by."""
    assert refused(molar_mass, formula) == (
        "formula-not-read",
        f"`{formula}` is not a chemical formula",
        "write it with element symbols, a full stop before water: `Na2CO3.10H2O`",
    )


@given(st.one_of(odd_text, st.text("HNaClO2310.()[]·CFe -", max_size=12)))
def test_any_text_weighs_something_or_is_refused(text: str) -> None:
    mass = answered(molar_mass, text)
    assert mass is None or mass > 0
