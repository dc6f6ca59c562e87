"""The figures on the built-in substance cards, against outside sources.

Formulas and registry numbers against the package `chemicals`; swap factors, densities and solubilities
against published tables, named beside each value (C and G are rows of a table of check values).
Not a test of the arithmetic that uses them.
"""

import re
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml
from chemicals.identifiers import search_chemical
from molmass import Formula

FOLDER = Path(__file__).parents[2] / "sitegen" / "data" / "substances"
Card = dict[str, Any]

# The package `chemicals` 1.5.2 gives a wrong or another composition for these registry numbers.
ODD_IN_CHEMICALS = {
    "12179-04-3": "borax pentahydrate stored as Na10B4O17H10",
    "1313-84-4": "sodium sulfide nonahydrate stored with one water",
    "1336-21-6": "ammonia solution stored as NH4OH, the cards count NH3",
    "13268-42-3": "ammonium iron(III) oxalate trihydrate stored as an average salt",
    "7784-24-9": "potassium alum stored with one sulfate less and two waters",
    "7784-31-8": "aluminium sulfate stored as one aluminium and one sulfate",
    "10039-54-0": "hydroxylamine sulfate stored with one hydroxylamine",
    "14807-96-6": "talc stored as Mg SiO3 H2",
}


@cache
def cards() -> dict[str, Card]:
    return {
        path.stem: yaml.load(path.read_text("utf-8"), Loader=yaml.BaseLoader)  # noqa: S506 - texts only
        for path in sorted(FOLDER.glob("*.yaml"))
    }


def forms(card: Card) -> dict[str, Card]:
    return dict(card.get("forms", {}))


@cache
def listed_mass(cas: str) -> float | None:
    """g/mol in the package `chemicals`; None where it lacks the number (it then offers a near match)."""
    try:
        entry = search_chemical(cas)
    except ValueError:
        return None
    return float(entry.MW) if cas == entry.CASs else None


def pairs() -> list[tuple[str, str, str]]:
    """(where, formula, registry number) of every substance and form that gives both."""
    found = []
    for slug, card in cards().items():
        kinds = [("", card), *forms(card).items()]
        for key, kind in kinds:
            formula, cas = kind.get("formula"), kind.get("cas")
            if formula and cas:
                found.append((f"{slug}-{key}".rstrip("-"), formula, cas))
    return found


def molar(form_id: str) -> float:
    """g/mol of a substance id or form id."""
    for slug, card in cards().items():
        if form_id == slug:
            return float(Formula(card["formula"]).mass)
        for key, form in forms(card).items():
            if form_id == f"{slug}-{key}":
                return float(Formula(form.get("formula", card.get("formula"))).mass)
    raise KeyError(form_id)


def number(text: str) -> float:
    return float(text.split(maxsplit=1)[0])


@pytest.mark.parametrize(("where", "formula", "cas"), pairs())
def test_formula_and_registry_number_agree_with_another_list(where: str, formula: str, cas: str) -> None:
    """Against the PyPI package `chemicals`, to 0.05 %, where it knows the number; odd entries stay odd."""
    listed = listed_mass(cas)
    if listed is not None:
        agrees = bool(abs(listed / Formula(formula).mass - 1) < 5e-4)
        assert agrees != (cas in ODD_IN_CHEMICALS), where


def test_most_formulas_are_in_that_list() -> None:
    assert sum(listed_mass(cas) is not None for _, _, cas in pairs()) >= 120


def test_every_formula_parses() -> None:
    for slug, card in cards().items():
        for kind in (card, *forms(card).values()):
            if "formula" in kind:
                assert Formula(kind["formula"]).mass > 1, slug


def test_every_registry_number_has_its_check_digit() -> None:
    for slug, card in cards().items():
        for kind in (card, *forms(card).values()):
            if "cas" not in kind:
                continue
            digits = re.fullmatch(r"(\d{2,7})-(\d\d)-(\d)", kind["cas"])
            assert digits, slug
            body = (digits[1] + digits[2])[::-1]
            assert sum(place * int(digit) for place, digit in enumerate(body, 1)) % 10 == int(digits[3]), slug


@pytest.mark.parametrize(
    ("form", "published"),
    [
        # C01 of the check table: standard atomic weights, cross-checked with a second package
        ("sodium-carbonate-anhydrous", 105.99),
        ("sodium-carbonate-monohydrate", 124.00),
        ("sodium-carbonate-decahydrate", 286.14),
        # C15: supplier data for citric acid
        ("citric-acid-anhydrous", 192.12),
        ("citric-acid-monohydrate", 210.14),
    ],
)
def test_published_molar_masses(form: str, published: float) -> None:
    assert molar(form) == pytest.approx(published, abs=0.02)


@pytest.mark.parametrize(
    ("called", "on_hand", "factor", "tolerance"),
    [
        ("sodium-carbonate-anhydrous", "sodium-carbonate-monohydrate", 1.170, 0.0005),  # C02
        ("sodium-carbonate-monohydrate", "sodium-carbonate-anhydrous", 0.8547, 0.0005),  # C05
        ("sodium-carbonate-monohydrate", "sodium-carbonate-decahydrate", 121 / 52.5, 0.01),  # C04
        ("sodium-sulfite-anhydrous", "sodium-sulfite-heptahydrate", 2.000, 0.001),  # C07, C08
        ("sodium-thiosulfate-pentahydrate", "sodium-thiosulfate-anhydrous", 0.64, 0.005),  # C09
        ("sodium-thiosulfate-anhydrous", "sodium-thiosulfate-pentahydrate", 1.57, 0.005),  # C09
        ("borax-decahydrate", "borax-pentahydrate", 0.7638, 0.0005),  # C11
        ("borax-pentahydrate", "borax-decahydrate", 1.309, 0.0005),  # C11, the true value
        ("sodium-sulfate-anhydrous", "sodium-sulfate-decahydrate", 102.074 / 45, 0.001),  # C13
        ("copper-sulfate-pentahydrate", "copper-sulfate-anhydrous", 0.6392, 0.0005),  # C14
        ("citric-acid-anhydrous", "citric-acid-monohydrate", 1.0938, 0.0005),  # C15
        ("ferric-chloride-hexahydrate", "ferric-chloride-anhydrous", 0.600, 0.0005),  # C17
        ("sodium-bromide", "potassium-bromide", 1.1566, 0.0005),  # C19
        ("potassium-bromide", "sodium-bromide", 0.8646, 0.0005),  # C19
        ("sodium-ascorbate", "ascorbic-acid", 0.889, 0.0005),  # C20
        ("potassium-hydroxide", "sodium-hydroxide", 0.713, 0.0005),  # C22, the right direction
    ],
)
def test_published_swap_factors(called: str, on_hand: str, factor: float, tolerance: float) -> None:
    assert molar(on_hand) / molar(called) == pytest.approx(factor, abs=tolerance)


@pytest.mark.parametrize(
    ("slug", "key", "low", "high"),
    [
        ("water", "", 0.998, 0.9983),  # 0.998207 at 20 °C (IAPWS-95)
        ("acetic-acid", "glacial", 1.045, 1.051),  # OpenStax appendix F: 1.05
        ("acetic-acid", "28-percent", 1.033, 1.037),  # between 1.0250 (20 %) and 1.0369 (30 %), CRC table
        ("hydrochloric-acid", "37-percent", 1.175, 1.19),  # 1.18 and 1.19 in two tables
        ("hydrochloric-acid", "muriatic", 1.158, 1.162),  # 20 degrees Baumé
        ("ammonia", "28-percent", 0.895, 0.905),  # OpenStax appendix F: 0.90
        ("ammonia", "25-percent", 0.905, 0.911),  # between 0.9228 (20 %) and 0.892 (30 %), CRC table
        ("ammonia", "household", 0.976, 0.978),  # CRC table, 5 %
        ("sulfuric-acid", "96-percent", 1.83, 1.84),  # OpenStax appendix F: 1.84
        ("sulfuric-acid", "battery", 1.255, 1.265),  # between 1.2191 (30 %) and 1.3028 (40 %), CRC table
        ("nitric-acid", "70-percent", 1.41, 1.42),  # 69.6 % 1.41, 71 % 1.42
        ("hydrogen-peroxide", "30-percent", 1.105, 1.115),
        ("hydrogen-peroxide", "35-percent", 1.125, 1.135),
        ("ferric-chloride", "40-percent", 1.41, 1.42),  # producer's table, 1.415 at 20 °C
        ("ethanol", "96-percent", 0.8072, 0.8076),  # OIML R 22: 807.42 kg/m³
        ("isopropanol", "pure", 0.783, 0.787),
        ("formaldehyde", "", 1.075, 1.085),  # pharmacopoeia weight per ml
        ("glycerol", "", 1.255, 1.265),
    ],
)
def test_densities_lie_where_the_tables_put_them(slug: str, key: str, low: float, high: float) -> None:
    kind = forms(cards()[slug])[key] if key else cards()[slug]
    assert low <= number(kind["density"]) <= high


def test_density_is_given_for_liquids_only_and_strength_with_its_meaning() -> None:
    for slug, card in cards().items():
        for kind in (card, *forms(card).values()):
            if "density" in kind:
                assert kind.get("state", card["state"]) == "liquid", slug
                assert re.fullmatch(r"\d+(\.\d+)? g/ml", kind["density"]), slug
            if "assay" in kind:
                assert re.fullmatch(r"\d+(\.\d+)? % w/w", kind["assay"]), slug


@pytest.mark.parametrize(
    ("slug", "form", "at", "grams", "relative"),
    [
        ("sodium-thiosulfate", "anhydrous", "20 °C", 70.07, 0.003),  # G01
        ("sodium-carbonate", "anhydrous", "20 °C", 21.5, 0.001),  # G05
        ("potassium-dichromate", "", "20 °C", 13.25, 0.005),  # G07, from 11.7 % w/w
        ("potassium-ferricyanide", "", "20 °C", 46.4, 0.02),  # G09, ICSC 46
        ("citric-acid", "anhydrous", "20 °C", 145.1, 0.005),  # G10, from 59.2 % w/w
        ("copper-sulfate", "anhydrous", "20 °C", 20.11, 0.003),  # G11
        ("potassium-bromide", "", "20 °C", 65.1, 0.001),  # G13
        ("sodium-chloride", "", "20 °C", 35.86, 0.002),  # G15
        ("ammonium-chloride", "", "20 °C", 37.14, 0.002),  # G15
        ("potassium-carbonate", "", "20 °C", 109.8, 0.001),  # G16
        ("silver-nitrate", "", "20 °C", 222, 0.005),  # G17
        ("borax", "decahydrate", "20 °C", 4.94, 0.005),  # G19, from 4.71 % w/w
        ("hydroquinone", "", "15 °C", 5.7, 0.01),  # G20
    ],
)
def test_published_solubilities(slug: str, form: str, at: str, grams: float, relative: float) -> None:
    rows = cards()[slug]["solubility"]
    limits = [number(row["limit"]) for row in rows if row["at"] == at and row.get("form", "") == form]
    assert limits == [pytest.approx(grams, rel=relative)]


@pytest.mark.parametrize(
    ("slug", "form", "molality"),
    [
        # CRC Handbook, 98th ed., solubility of common salts at ambient temperatures, mol/kg at 20 °C
        ("ferrous-sulfate", "ferrous-sulfate-anhydrous", 1.729),
        ("copper-sulfate", "copper-sulfate-anhydrous", 1.260),
        ("zinc-sulfate", "zinc-sulfate-anhydrous", 3.336),
        ("potassium-carbonate", "potassium-carbonate", 7.948),
        ("potassium-bromide", "potassium-bromide", 5.471),
        ("sodium-bromide", "sodium-bromide", 8.856),
        ("sodium-chloride", "sodium-chloride", 6.136),
        ("ammonium-chloride", "ammonium-chloride", 6.943),
        ("sodium-nitrite", "sodium-nitrite", 11.883),
    ],
)
def test_solubilities_from_molality(slug: str, form: str, molality: float) -> None:
    limits = [number(row["limit"]) for row in cards()[slug]["solubility"] if row["at"] == "20 °C"]
    assert limits == [pytest.approx(molality * molar(form) / 10, rel=0.002)]


def test_solubility_names_its_form_and_its_source() -> None:
    for slug, card in cards().items():
        for row in card.get("solubility", []):
            assert row["source"], slug
            assert re.fullmatch(r"\d+(\.\d+)? g", row["limit"]), slug
            assert re.fullmatch(r"-?\d+ °C", row["at"]), slug
            if "form" in row:
                assert row["form"] in forms(card), slug


def test_a_solubility_from_memory_is_marked_unverified() -> None:
    for slug, card in cards().items():
        if any(row["source"].startswith("general knowledge") for row in card.get("solubility", [])):
            assert "solubility" in card["unverified"], slug
