"""Published examples of classified mixtures: every one must come out as its source has it.

UN: worked examples of the GHS sub-committee, ST/SG/AC.10/C.4/2008/23 and 2012/25. GISCHEM: data sheets of the
German trade associations. SCHOOL: school chemistry dilution table. The rest is named beside each.
"""

from fractions import Fraction
from typing import Any

import pytest

from sitegen.labels.acute import acute
from sitegen.labels.label import Label
from tests.labels.mixtures import carded, classes, codes, label, mixed, of, oral, pictures, share


def ate(*parts: Any) -> Fraction:
    """The oral estimate of a mixture."""
    value = acute(mixed(*parts))[0].reasons[0].value
    assert value is not None
    return value


def only(found: Label) -> set[str]:
    """The classes for skin and eyes."""
    return {c for c in classes(found) if c.startswith(("Skin Corr", "Skin Irrit", "Eye"))}


def test_w01_acute_oral_takes_the_low_end_of_a_range() -> None:
    parts = (
        of("A", 16, ate=oral(1600)),
        of("B", 4, ate=oral(200)),  # published as 200 to 2000
        of("C", 80, ate=oral(3450)),
    )
    assert round(ate(*parts)) == 1880  # UN 3.1 example 1
    assert codes(label(*parts)) == ["H302"]


def test_w02_ingredients_above_category_five_add_nothing() -> None:
    parts = (
        of("A", 4, ate=oral(1737)),
        of("B", 5, ate=oral(None)),  # > 5000
        of("C", 5, ate=oral(5400)),
        of("D", 86, ate=oral(None)),  # limit dose > 2000
    )
    assert ate(*parts) == 43425  # UN 3.1 example 3
    assert label(*parts).answer == "not classified"


def test_w03_acute_oral_of_four_ingredients() -> None:
    parts = (
        of("A", 26, ate=oral(2737)),
        of("B", 23, ate=oral(4500)),
        of("C", 11, ate=oral(None)),
        of("D", 40, ate=oral(400)),
    )
    assert float(ate(*parts)) == pytest.approx(872.5, abs=0.1)  # UN 3.1 example 4: 873
    assert codes(label(*parts)) == ["H302"]


def test_w05_an_acid_of_extreme_ph_does_not_add_up() -> None:
    found = label(
        of("1", 4, "Skin Corr. 1", kind="acid", ph=Fraction("1.8"), additive=False),
        of("2", 5, "Skin Irrit. 2"),
        of("3", 5),  # Category 3, which only the UN has
        of("4", 86, data="no data"),
        ph=Fraction(4),
    )
    assert found.finding("skin").classified[0].hazard.text == "Skin Corr. 1"  # UN 3.2 example (a)
    assert codes(found) == ["H314"]
    assert any(lack.ingredient == "4" for lack in found.unknown)


@pytest.mark.parametrize("percent", ["0.8", "1.8"], ids=["w07", "w08"])
def test_w07_w08_a_skin_irritant_below_ten_percent(percent: str) -> None:
    assert label(of("A", percent, "Skin Irrit. 2")).answer == "not classified"  # ECHA helpdesk 1 and 2


def test_w09_a_corrosive_below_five_percent() -> None:
    found = label(of("A", 4, "Skin Corr. 1B"))  # enviprofi.cz
    assert codes(found) == ["H315", "H318"]


def test_w10_a_range_is_read_at_its_high_end() -> None:
    found = label(of("A", share(3, 7), "Skin Corr. 1"))
    assert codes(found) == ["H314"]
    assert "Skin Corr. 1" in classes(found)


def test_w11_aquatic_sum_with_m_factors() -> None:
    found = label(
        of("B", 5, "Aquatic Chronic 2"),
        of("P", "0.05", "Aquatic Chronic 1", m_chronic=Fraction(100)),
        of("Q", 1, "Aquatic Chronic 1", m_chronic=Fraction(1)),
        of("T", 40, "Aquatic Chronic 3"),
        of("U", "53.95"),
    )
    values = [r.value for r in found.finding("aquatic-chronic").reasons]
    assert values[:2] == [6, 65]  # NZ EPA guide, Table 19.5
    assert codes(found) == ["H411"]


def test_w12a_hydrogen_peroxide_ten_percent() -> None:
    found = label(carded("hydrogen-peroxide", 10))  # GISCHEM, 8 to < 35 %
    assert codes(found) == ["H272", "H318"]
    assert "Ox. Liq. 3" in classes(found)
    assert "GHS07" not in pictures(found)


def test_w12b_hydrogen_peroxide_twenty_seven_percent() -> None:
    found = label(carded("hydrogen-peroxide", 27))  # GISCHEM
    assert codes(found) == ["H272", "H302", "H318"]
    assert "Ox. Liq. 2" in classes(found)
    assert "GHS07" in pictures(found)


def test_w13_acetic_acid_thirty_percent() -> None:
    found = label(carded("acetic-acid", 30))  # GISCHEM, 25 to < 90 %
    assert classes(found) == {"Skin Corr. 1B", "Eye Dam. 1", "Met. Corr. 1"}
    assert codes(found) == ["H290", "H314"]
    assert (found.signal, pictures(found)) == ("Danger", ["GHS05"])


def test_w15_sodium_hypochlorite_ten_percent() -> None:
    """The sheet labels by the entry (H410); the summation gives H400 and H411, and says that it summed."""
    found = label(carded("sodium-hypochlorite", 10))
    assert codes(found) == ["H290", "H314", "H400", "H411"]
    assert "EUH031" in [t.code for t in found.euh]
    assert (found.signal, pictures(found)) == ("Danger", ["GHS05", "GHS09"])
    assert "M × Acute 1" in found.finding("aquatic-acute").reasons[0].sentence


@pytest.mark.parametrize(
    ("acid", "percent", "h", "signal"),
    [
        ("hydrochloric-acid", "0.35", [], ""),  # W16, SCHOOL
        ("hydrochloric-acid", "0.36", ["H290"], "Warning"),
        ("hydrochloric-acid", "3.6", ["H290"], "Warning"),
        ("hydrochloric-acid", "10", ["H290", "H315", "H319", "H335"], "Warning"),
        ("hydrochloric-acid", "25", ["H290", "H314", "H335"], "Danger"),
        ("nitric-acid", "0.59", [], ""),  # W17, SCHOOL
        ("nitric-acid", "6", ["H290", "H314"], "Danger"),
        ("nitric-acid", "12", ["H290", "H314"], "Danger"),
        ("nitric-acid", "65", ["H272", "H290", "H314", "H331"], "Danger"),  # with the newer H331
        ("phosphoric-acid", "0.1", [], ""),  # W18, SCHOOL
        ("phosphoric-acid", "1", ["H290"], "Warning"),
        ("phosphoric-acid", "9", ["H290"], "Warning"),
        ("phosphoric-acid", "18", ["H290", "H315", "H319"], "Warning"),
        # The table says H314 above 18 %; Annex VI says from 25 %, and that is what is used.
        ("phosphoric-acid", "24", ["H290", "H315", "H319"], "Warning"),
        ("phosphoric-acid", "25", ["H290", "H302", "H314"], "Danger"),
    ],
)
def test_w16_w17_w18_school_dilutions(acid: str, percent: str, h: list[str], signal: str) -> None:
    found = label(carded(acid, percent))
    assert (codes(found), found.signal) == (h, signal)


def test_w17_strong_nitric_acid_also_says_that_it_corrodes_the_airways() -> None:
    assert "EUH071" in [t.code for t in label(carded("nitric-acid", 65)).euh]


def test_w19_one_ingredient_with_repeated_dose_toxicity() -> None:
    found = label(of("sodium iodide", "10.1", "STOT RE 1"))  # ECHA dossier 7779
    assert codes(found) == ["H372"]


def test_w21_acute_oral_from_a_solution() -> None:
    part = of("sodium bisulfite", 39, ate=oral(500))  # ICSC 1134
    assert round(ate(part)) == 1282
    found = label(part)
    assert (codes(found), found.signal) == (["H302"], "Warning")
