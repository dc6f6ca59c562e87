"""Mixtures worked by hand from the tables, each for a trap. Percent by weight, the rest water.

Where the hazard list behind a case was the harmonised one alone, the ingredient is written out; where the card
has more (notified and national classes), the card is used and the difference is stated.
"""

from fractions import Fraction

import pytest

from tests.labels.mixtures import carded, classes, codes, label, of, oral, pictures


def test_r01_lye_of_one_percent_follows_its_limits_and_shows_the_ph_reading() -> None:
    found = label(carded("sodium-hydroxide", 1))
    assert {"Skin Irrit. 2", "Eye Irrit. 2"} <= classes(found)
    assert found.signal == "Warning"
    assert any("pH 13.4" in r and "Skin Corr. 1" in r for r in found.readings)


def test_r02_the_limits_give_the_sub_category() -> None:
    assert "Skin Corr. 1B" in classes(label(carded("sodium-hydroxide", 3)))
    assert "Skin Corr. 1A" in classes(label(carded("sodium-hydroxide", 5)))


def test_r03_vinegar_is_not_classified() -> None:
    assert label(carded("acetic-acid", 5)).answer == "not classified"


def test_r04_dichromate_of_five_percent() -> None:
    found = label(carded("potassium-dichromate", 5))
    assert {
        "Carc. 1B", "Muta. 1B", "Repr. 1B (H360FD)", "Resp. Sens. 1", "Skin Sens. 1", "Skin Corr. 1B",
        "Eye Dam. 1", "STOT RE 2", "STOT SE 3 (respiratory irritation)", "Acute Tox. 4 (oral)",
        "Acute Tox. 3 (inhalation)", "Aquatic Chronic 2",
    } == classes(found)  # fmt: skip
    assert [c.hazard.text for c in found.if_sprayed] == ["Acute Tox. 3 (inhalation)"]
    assert "H331" not in codes(found)
    assert {(x.family, x.what) for x in found.unknown} == {
        ("aquatic-acute", "no M-factor"),
        ("aquatic-chronic", "no M-factor"),
    }
    assert found.finding("aquatic-chronic").classified[0].provisional
    assert "H331" in codes(label(carded("potassium-dichromate", 5), sprayed=True))


def test_r05_silver_nitrate_without_m_factor_stays_provisional_and_its_oxidiser_class_is_not_carried() -> None:
    found = label(carded("silver-nitrate", 10))
    assert found.finding("aquatic-acute").answer == "not enough data"
    assert found.finding("aquatic-chronic").classified[0].hazard.text == "Aquatic Chronic 2"
    assert not any(c.startswith("Ox.") for c in classes(found))
    assert any("Ox. Sol. 2 when dry" in r for r in found.readings)
    with_m = of("salt", 10, "Aquatic Acute 1", "Aquatic Chronic 1", m_acute=Fraction(100), m_chronic=Fraction(100))
    assert codes(label(with_m)) == ["H410"]


def test_r06_three_percent_peroxide_is_not_classified() -> None:
    assert label(carded("hydrogen-peroxide", 3)).answer == "not classified"


def test_r07_bleach_of_four_percent() -> None:
    found = label(carded("sodium-hypochlorite", 4))
    assert {"Skin Irrit. 2", "Eye Dam. 1", "Aquatic Acute 1", "Aquatic Chronic 2"} <= classes(found)
    assert [t.code for t in found.euh] == ["EUH206"]
    assert any(r.startswith("Measure the pH: sodium hypochlorite") for r in found.readings)
    measured = label(carded("sodium-hypochlorite", 4), ph=Fraction("11.5"))
    assert "Skin Corr. 1" in classes(measured)


def test_r08_oxalic_acid_takes_the_more_severe_of_two_readings() -> None:
    found = label(carded("oxalic-acid", 2))
    assert "Skin Corr. 1B" in classes(found)  # the sum alone would make it Skin Irrit. 2
    assert any(r.rule == "extreme pH" for r in found.reasons)
    harmonised = of("oxalic acid", 2, "Acute Tox. 4 (dermal)", "Acute Tox. 4 (oral)")
    assert label(harmonised).answer == "not classified"


def test_r09_borax() -> None:
    found = label(carded("borax-decahydrate", 5))
    assert (codes(found), found.signal) == (["H360FD"], "Danger")
    assert label(carded("borax-decahydrate", "0.29")).answer == "not classified"
    assert codes(label(carded("borax-decahydrate", "0.3"))) == ["H360FD"]


def test_r10_a_weak_developer_names_its_sensitisers() -> None:
    found = label(carded("hydroquinone", "0.5"), carded("metol", "0.2"))
    assert codes(found) == []
    assert [t.text for t in found.euh] == ["Contains hydroquinone, metol. May produce an allergic reaction."]


def test_r11_copper_sulfate_has_two_m_factors() -> None:
    found = label(carded("copper-sulfate-pentahydrate", 10))
    assert {"Eye Dam. 1", "Aquatic Acute 1", "Aquatic Chronic 2"} <= classes(found)
    assert {"H400", "H411"} <= set(codes(found))
    assert "Acute Tox. 4 (oral)" not in classes(found)


def test_r12_no_data_is_said() -> None:
    found = label(carded("ferric-ammonium-citrate-green", 10))
    assert found.answer == "not enough data"
    assert not any("unknown acute" in r for r in found.readings)
    over = label(carded("ferric-ammonium-citrate-green", 11))
    assert "11 % of the mixture consists of ingredient(s) of unknown acute oral toxicity." in over.readings


def test_r13_carcinogens_do_not_add_up() -> None:
    found = label(of("thiourea", "0.9", "Carc. 2"), of("other", "0.9", "Carc. 2"))
    assert found.answer == "not classified"


def test_r14_selenite_on_both_sides_of_a_category() -> None:
    one = label(carded("sodium-selenite", 1))
    assert codes(one) == ["H302", "H317"]
    assert "EUH031" in [t.code for t in one.euh]
    two = label(carded("sodium-selenite", 2))
    assert codes(two) == ["H301", "H317"]
    assert pictures(two) == ["GHS06"]


def test_r15_causes_decide_which_pictogram_goes() -> None:
    found = label(carded("potassium-tetrachloroplatinate", 20))
    assert pictures(found) == ["GHS05", "GHS07", "GHS08"]
    assert found.pictograms[1].causes == ("Acute Tox. 4 (oral)",)
    assert {(h.cause, h.by) for h in found.hidden if h.what == "GHS07"} == {
        ("Skin Irrit. 2", "GHS05"),
        ("Skin Sens. 1", "GHS08"),
    }


def test_r16_an_estimate_keeps_its_physical_form() -> None:
    found = label(carded("nitric-acid", 65))
    assert "Acute Tox. 3 (inhalation)" in classes(found)
    assert not found.if_sprayed


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        ("4.99", set()),
        ("5", {"Eye Irrit. 2"}),
        ("7.99", {"Eye Irrit. 2"}),
        ("8", {"Eye Dam. 1", "Ox. Liq. 3"}),
        ("19.9", {"Eye Dam. 1", "Ox. Liq. 3"}),
        ("24.9", {"Eye Dam. 1", "Ox. Liq. 2"}),
        ("25", {"Eye Dam. 1", "Ox. Liq. 2", "Acute Tox. 4 (oral)"}),
        ("34.9", {"Eye Dam. 1", "Ox. Liq. 2", "Acute Tox. 4 (oral)"}),
        (
            "35",
            {
                "Eye Dam. 1",
                "Ox. Liq. 2",
                "Acute Tox. 4 (oral)",
                "Skin Irrit. 2",
                "STOT SE 3 (respiratory irritation)",
            },
        ),
    ],
)
def test_peroxide_through_its_limits(percent: str, expected: set[str]) -> None:
    assert classes(label(carded("hydrogen-peroxide", percent))) == expected


@pytest.mark.parametrize(
    ("percent", "skin", "water"),
    [
        ("49.9", "Skin Irrit. 2", False),
        ("50", "Skin Corr. 1B", False),
        ("62.9", "Skin Corr. 1B", False),
        ("63", "Skin Corr. 1B", True),
        ("69.9", "Skin Corr. 1B", True),
        ("70", "Skin Corr. 1A", True),
    ],
)
def test_strong_peroxide_through_its_limits(percent: str, skin: str, water: bool) -> None:
    found = classes(label(carded("hydrogen-peroxide", percent)))
    assert skin in found
    assert "Eye Dam. 1" in found
    assert ("Aquatic Chronic 3" in found) == water
    assert ("Ox. Liq. 1" in found) == (percent == "70")


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        ("9.99", set()),
        ("10", {"Skin Irrit. 2", "Eye Irrit. 2", "Met. Corr. 1"}),
        ("24.9", {"Skin Irrit. 2", "Eye Irrit. 2", "Met. Corr. 1"}),
        ("25", {"Skin Corr. 1B", "Eye Dam. 1", "Met. Corr. 1"}),
        ("28", {"Skin Corr. 1B", "Eye Dam. 1", "Met. Corr. 1"}),
        ("89.9", {"Skin Corr. 1B", "Eye Dam. 1", "Met. Corr. 1"}),
        ("90", {"Skin Corr. 1A", "Eye Dam. 1", "Met. Corr. 1", "Flam. Liq. 3"}),
    ],
)
def test_acetic_acid_through_its_limits(percent: str, expected: set[str]) -> None:
    assert classes(label(carded("acetic-acid", percent))) == expected


@pytest.mark.parametrize(
    ("percent", "expected"),
    [
        ("9.99", {"Met. Corr. 1"}),
        ("10", {"Skin Irrit. 2", "Eye Irrit. 2", "STOT SE 3 (respiratory irritation)", "Met. Corr. 1"}),
        ("24.9", {"Skin Irrit. 2", "Eye Irrit. 2", "STOT SE 3 (respiratory irritation)", "Met. Corr. 1"}),
        ("25", {"Skin Corr. 1B", "Eye Dam. 1", "STOT SE 3 (respiratory irritation)", "Met. Corr. 1"}),
        ("37", {"Skin Corr. 1B", "Eye Dam. 1", "STOT SE 3 (respiratory irritation)", "Met. Corr. 1"}),
    ],
)
def test_hydrochloric_acid_through_its_limits(percent: str, expected: set[str]) -> None:
    assert classes(label(carded("hydrochloric-acid", percent))) == expected


def test_nitric_acid_below_its_lowest_limit_is_still_judged() -> None:
    found = label(carded("nitric-acid", 3))
    assert "Skin Corr. 1" in classes(found)  # by its pH, since its limits give no band for irritation


def test_two_acids_with_limits_of_their_own_are_summed_as_shares_of_them() -> None:
    found = label(carded("hydrochloric-acid", "12.5"), carded("acetic-acid", "12.5"))
    assert "Skin Corr. 1B" in classes(found)
    below = label(carded("hydrochloric-acid", "12.4"), carded("acetic-acid", "12.5"))
    assert "Skin Irrit. 2" in classes(below)


def test_an_estimate_of_exactly_two_thousand_is_still_harmful() -> None:
    assert codes(label(of("A", 10, ate=oral(200)))) == ["H302"]
    assert codes(label(of("A", 10, ate=oral("200.1")))) == []
    assert codes(label(of("A", 10, ate=oral(30)))) == ["H301"]
    assert codes(label(of("A", 10, ate=oral("30.1")))) == ["H302"]
