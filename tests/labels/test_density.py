"""Density: the model of Laliberté against handbook densities, and its coefficients against their source."""

import csv
from fractions import Fraction
from importlib.resources import files

import pytest

from sitegen.labels.density import Coefficients, dry_share, read_densities, solution_density, water_density
from sitegen.labels.percent import Dissolved, shares
from sitegen.problems import Problems, Refusal
from tests.labels.mixtures import text_of


def table() -> dict[str, Coefficients]:
    problems = Problems()
    found = read_densities(text_of("density.yaml"), "density.yaml", problems)
    assert found, problems.in_order()
    return found


def dissolved(substance: str, grams: object, formula: str = "", *, light: bool = False, name: str = "") -> Dissolved:
    g = Fraction(str(grams))
    return Dissolved(name=name or substance, substance=substance, formula=formula, grams_per_litre=(g, g), light=light)


@pytest.mark.parametrize(
    ("substance", "grams", "density"),
    [  # CRC Handbook, concentrative properties of aqueous solutions at 20 °C: g/l at a percent, g/ml
        ("sodium-chloride", 107.07, 1.0707),  # 10 %
        ("sodium-hydroxide", 110.9, 1.1089),  # 10 %
        ("hydrochloric-acid", 219.6, 1.0980),  # 20 %
        ("ammonia", 251.2, 0.8980),  # 28 %
        ("potassium-dichromate", 107.0, 1.0703),  # 10 %
        ("ethanol", 384.0, 0.9352),  # 41 % is near the strongest mixing effect
        ("sulfuric-acid", 228.0, 1.1398),  # 20 %
    ],
)
def test_the_model_meets_handbook_densities(substance: str, grams: float, density: float) -> None:
    found = solution_density({substance: grams}, table())
    assert found
    assert float(found.value) == pytest.approx(density, abs=0.006)


def test_coefficients_are_those_of_the_published_table() -> None:
    """As the package `chemicals` ships them."""
    source = files("chemicals").joinpath("Electrolytes", "Laliberte2009.tsv").read_text("utf-8")
    rows = {tuple(float(x) for x in row[4:9]) for row in csv.reader(source.splitlines()[1:], delimiter="\t") if row[4]}
    assert {one.c for one in table().values()} <= rows


def test_water_alone_is_water() -> None:
    assert water_density(20) == pytest.approx(998.2, abs=0.05)  # CRC: 998.207
    assert water_density(4) == pytest.approx(999.97, abs=0.02)


def test_a_strong_solute_without_coefficients_leaves_the_density_unknown() -> None:
    assert solution_density({"silver-nitrate": 11}, table()) is None
    small = solution_density({"sodium-chloride": 100, "silver-nitrate": 9}, table())
    assert small
    assert small.left_out == ("silver-nitrate",)


def test_stronger_than_the_model_was_fitted_for_is_unknown() -> None:
    assert solution_density({"sodium-carbonate": 400}, table()) is None


def test_water_of_crystallisation_counts_as_water() -> None:
    assert float(dry_share("Na2CO3.10H2O", "Na2CO3")) == pytest.approx(0.3704, abs=1e-4)
    assert dry_share("NaOH", "NaOH") == 1
    with pytest.raises(Refusal, match="with water"):
        dry_share("K2CO3", "Na2CO3")


def test_a_measured_density_gives_exact_shares() -> None:
    found = shares([dissolved("citric-acid", 210)], table(), density=Fraction("1.05"))
    share = found.percent["citric-acid"]
    assert share
    assert (share.low, share.high, found.estimate) == (20, 20, False)


def test_a_modelled_density_gives_an_estimate_that_says_so() -> None:
    found = shares([dissolved("hydrochloric-acid", "219.6")], table())
    share = found.percent["hydrochloric-acid"]
    assert share
    assert float(share.high) == pytest.approx(20, abs=0.05)
    assert found.estimate
    assert "Laliberté (2009)" in found.note


def test_without_a_density_a_heavier_solution_is_taken_at_grams_per_hundred_millilitres() -> None:
    found = shares([dissolved("silver-nitrate", 100)], table())
    share = found.percent["silver-nitrate"]
    assert share
    assert (share.high, found.how) == (10, "cautious")


def test_a_solution_that_may_be_lighter_than_water_has_no_share_by_weight() -> None:
    found = shares([dissolved("acetone", 200, light=True), dissolved("silver-nitrate", 20)], table())
    assert set(found.percent.values()) == {None}
    assert "lighter than water" in found.note


def test_light_solutions_in_the_model_are_divided_by_their_density() -> None:
    found = shares([dissolved("ammonia", "251.2", "NH3", light=True)], table())
    share = found.percent["ammonia"]
    assert share
    assert float(share.high) > 27.5  # 25.1 % w/v would understate it


def test_a_light_liquid_below_one_percent_does_not_matter() -> None:
    found = shares([dissolved("acetone", 9, light=True)], table())
    assert found.how == "model"
