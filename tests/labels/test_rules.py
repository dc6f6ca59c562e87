"""Boundaries of the generic rules, worked by hand, on both sides of each threshold of CLP Annex I."""

from fractions import Fraction

import pytest

from sitegen.labels.classes import parse_class
from sitegen.labels.ingredient import AcutePoint, Ingredient, Limit, Supplement
from tests.labels.mixtures import classes, codes, label, of, share

RESPIRATORY = "STOT SE 3 (respiratory irritation)"
NARCOTIC = "STOT SE 3 (narcotic effects)"


@pytest.mark.parametrize(
    ("hazard", "limit", "result"),
    [
        ("Skin Corr. 1B", "5", "Skin Corr. 1B"),
        ("Skin Corr. 1B", "1", "Skin Irrit. 2"),
        ("Skin Irrit. 2", "10", "Skin Irrit. 2"),
        ("Eye Dam. 1", "3", "Eye Dam. 1"),
        ("Eye Dam. 1", "1", "Eye Irrit. 2"),
        ("Eye Irrit. 2", "10", "Eye Irrit. 2"),
        ("Skin Sens. 1", "1", "Skin Sens. 1"),
        ("Skin Sens. 1A", "0.1", "Skin Sens. 1A"),
        ("Skin Sens. 1B", "1", "Skin Sens. 1B"),
        ("Resp. Sens. 1", "1", "Resp. Sens. 1"),
        ("Resp. Sens. 1A", "0.1", "Resp. Sens. 1A"),
        ("Muta. 1B", "0.1", "Muta. 1B"),
        ("Muta. 2", "1", "Muta. 2"),
        ("Carc. 1A", "0.1", "Carc. 1A"),
        ("Carc. 2", "1", "Carc. 2"),
        ("Repr. 1A (H360Df)", "0.3", "Repr. 1A (H360Df)"),
        ("Repr. 2 (H361d)", "3", "Repr. 2 (H361d)"),
        ("Lact.", "0.3", "Lact."),
        ("STOT SE 1", "10", "STOT SE 1"),
        ("STOT SE 1", "1", "STOT SE 2"),
        ("STOT SE 2", "10", "STOT SE 2"),
        ("STOT RE 1", "10", "STOT RE 1"),
        ("STOT RE 1", "1", "STOT RE 2"),
        ("STOT RE 2", "10", "STOT RE 2"),
        (RESPIRATORY, "20", RESPIRATORY),
        (NARCOTIC, "20", NARCOTIC),
        ("Asp. Tox. 1", "10", "Asp. Tox. 1"),
        ("Aquatic Chronic 2", "25", "Aquatic Chronic 2"),
        ("Aquatic Chronic 2", "2.5", "Aquatic Chronic 3"),
        ("Aquatic Chronic 3", "25", "Aquatic Chronic 3"),
        ("Aquatic Chronic 4", "25", "Aquatic Chronic 4"),
        ("Met. Corr. 1", "1", "Met. Corr. 1"),
    ],
)
def test_a_class_begins_exactly_at_its_limit(hazard: str, limit: str, result: str) -> None:
    at = classes(label(of("A", limit, hazard)))
    below = classes(label(of("A", Fraction(limit) - Fraction(1, 1000), hazard)))
    assert result in at
    assert result not in below


@pytest.mark.parametrize(
    ("hazard", "limit", "result"),
    [
        ("Skin Corr. 1", "1", "Skin Corr. 1"),
        ("Skin Irrit. 2", "3", "Skin Irrit. 2"),
        ("Eye Dam. 1", "1", "Eye Dam. 1"),
        ("Eye Irrit. 2", "3", "Eye Irrit. 2"),
    ],
)
def test_limits_are_lower_where_sums_do_not_hold(hazard: str, limit: str, result: str) -> None:
    at = label(of("A", limit, hazard, additive=False))
    below = label(of("A", Fraction(limit) - Fraction(1, 1000), hazard, additive=False))
    assert result in classes(at)
    assert result not in classes(below)


def test_acids_and_bases_irritate_from_three_percent() -> None:
    assert "Eye Irrit. 2" in classes(label(of("A", 3, "Eye Irrit. 2", kind="base", ph=Fraction(10))))


@pytest.mark.parametrize(
    ("factor", "percent", "expected"),
    [
        ("1", "25", {"Aquatic Acute 1", "Aquatic Chronic 1"}),
        ("1", "24.9", {"Aquatic Chronic 2"}),
        ("1", "2.5", {"Aquatic Chronic 2"}),
        ("1", "2.4", {"Aquatic Chronic 3"}),
        ("10", "2.5", {"Aquatic Acute 1", "Aquatic Chronic 1"}),
        ("10", "2.4", {"Aquatic Chronic 2"}),
        ("1", "0.25", {"Aquatic Chronic 3"}),
        ("1", "0.24", set()),
    ],
)
def test_aquatic_summation(factor: str, percent: str, expected: set[str]) -> None:
    m = Fraction(factor)
    part = of("A", percent, "Aquatic Acute 1", "Aquatic Chronic 1", m_acute=m, m_chronic=m)
    assert classes(label(part)) == expected


def test_a_missing_m_factor_is_unknown_and_not_one() -> None:
    found = label(of("A", "0.01", "Aquatic Acute 1", "Aquatic Chronic 1"))
    assert found.finding("aquatic-acute").answer == "not enough data"
    assert found.finding("aquatic-chronic").answer == "not enough data"
    assert found.answer == "not enough data"


def test_skin_corrosives_add_up_and_share_a_sub_category_or_have_none() -> None:
    both = label(of("A", 3, "Skin Corr. 1B"), of("B", 2, "Skin Corr. 1B"))
    assert "Skin Corr. 1B" in classes(both)
    mixed_up = label(of("A", 3, "Skin Corr. 1A"), of("B", 2, "Skin Corr. 1B"))
    assert "Skin Corr. 1" in classes(mixed_up)


def test_a_tenth_of_a_corrosive_counts_with_irritants() -> None:
    assert "Skin Irrit. 2" in classes(label(of("A", 9, "Skin Irrit. 2"), of("B", "1", "Skin Corr. 1B")))
    assert label(of("A", 9, "Skin Irrit. 2"), of("B", "0.9", "Skin Corr. 1B")).answer == "not classified"


def test_irritation_of_airways_and_drowsiness_are_summed_apart() -> None:
    assert label(of("A", 15, RESPIRATORY), of("B", 15, NARCOTIC)).answer == "not classified"
    assert codes(label(of("A", 10, RESPIRATORY), of("B", 10, RESPIRATORY))) == ["H335"]
    assert codes(label(of("A", 10, NARCOTIC), of("B", 10, NARCOTIC))) == ["H336"]


def test_sensitisers_do_not_add_up() -> None:
    found = label(of("A", "0.6", "Skin Sens. 1"), of("B", "0.6", "Skin Sens. 1"))
    assert codes(found) == []
    assert [t.code for t in found.euh] == ["EUH208"]


@pytest.mark.parametrize(("hazard", "limit"), [("Skin Sens. 1", "0.1"), ("Skin Sens. 1A", "0.01")])
def test_sensitisers_are_named_from_their_elicitation_limit(hazard: str, limit: str) -> None:
    below = Fraction(limit) - Fraction(1, 10000)
    assert label(of("A", limit, hazard)).euh
    assert not label(of("A", below, hazard)).euh


def test_a_specific_limit_of_a_sensitiser_sets_a_tenth_of_it_for_naming() -> None:
    own = (Limit(hazard=parse_class("Skin Sens. 1"), above=Fraction(1, 5)),)
    assert codes(label(of("A", "0.2", "Skin Sens. 1", limits=own))) == ["H317"]
    assert [t.code for t in label(of("A", "0.02", "Skin Sens. 1", limits=own)).euh] == ["EUH208"]
    assert not label(of("A", "0.019", "Skin Sens. 1", limits=own)).euh


@pytest.mark.parametrize(
    ("a", "b", "result"),
    [
        ("Repr. 1B (H360F)", "Repr. 1B (H360D)", "H360FD"),
        ("Repr. 1B (H360F)", "Repr. 2 (H361d)", "H360Fd"),
        ("Repr. 1B (H360D)", "Repr. 2 (H361f)", "H360Df"),
        ("Repr. 2 (H361f)", "Repr. 2 (H361d)", "H361fd"),
        ("Repr. 1B", "Repr. 1B (H360D)", "H360"),
    ],
)
def test_letters_are_joined_and_a_capital_wins(a: str, b: str, result: str) -> None:
    assert codes(label(of("A", 5, a), of("B", 5, b))) == [result]


def test_cancer_by_inhalation_only_where_every_cause_is_so() -> None:
    assert codes(label(of("A", 1, "Carc. 1A (inhalation)"))) == ["H350i"]
    assert codes(label(of("A", 1, "Carc. 1A (inhalation)"), of("B", 1, "Carc. 1B"))) == ["H350"]


def test_an_organ_is_named_where_it_is_known() -> None:
    found = label(of("A", 10, "STOT RE 1 (central nervous system)"))
    assert found.h[0].text == ("Causes damage to the central nervous system through prolonged or repeated exposure.")


def test_more_than_ten_percent_unknown_changes_the_estimate() -> None:
    known = of("A", 50, ate=(AcutePoint(route="oral", value=Fraction(1200)),))
    assert codes(label(known, of("B", 10, data="no data"))) == []  # 100 / (50 / 1200) = 2400
    found = label(known, of("B", 20, data="no data"))  # 80 / (50 / 1200) = 1920
    assert codes(found) == ["H302"]
    assert any(r.startswith("20 % of the mixture") for r in found.readings)


def test_potent_poisons_count_from_a_tenth_of_a_percent() -> None:
    assert codes(label(of("A", "0.1", ate=(AcutePoint(route="oral", value=Fraction(1)),)))) == ["H302"]
    assert codes(label(of("A", "0.09", ate=(AcutePoint(route="oral", value=Fraction(1)),)))) == []


@pytest.mark.parametrize(("ph", "corrosive"), [("2", True), ("2.01", False), ("11.49", False), ("11.5", True)])
def test_a_measured_extreme_ph_makes_the_mixture_corrosive(ph: str, corrosive: bool) -> None:
    found = label(of("A", 5), ph=Fraction(ph))
    assert ("Skin Corr. 1" in classes(found)) == corrosive
    assert ("Eye Dam. 1" in classes(found)) == corrosive


def test_an_acid_of_extreme_ph_whose_tested_entry_names_no_corrosion_shows_both_readings() -> None:
    found = label(of("A", 5, "Skin Irrit. 2", kind="acid", ph=Fraction("1.2"), data="harmonised"))
    assert "Skin Irrit. 2" in classes(found)
    assert any("its own entry names no skin corrosion" in r for r in found.readings)
    untested = label(of("A", 5, kind="acid", ph=Fraction("1.2"), data="notified"))
    assert "Skin Corr. 1" in classes(untested)


def test_thin_oils_are_taken_for_thin_until_measured() -> None:
    oil = of("A", 10, "Asp. Tox. 1")
    assert label(oil).finding("aspiration").classified[0].provisional
    assert codes(label(oil, viscosity=Fraction("20.5"))) == ["H304"]
    assert codes(label(oil, viscosity=Fraction("20.6"))) == []


@pytest.mark.parametrize(("flash", "expected"), [("22.9", ["H225"]), ("23", ["H226"]), ("60", ["H226"]), ("60.1", [])])
def test_a_measured_flash_point_decides(flash: str, expected: list[str]) -> None:
    assert codes(label(of("A", 50, "Flam. Liq. 2", state="liquid"), flash_point=Fraction(flash))) == expected


def test_without_a_flash_point_the_class_is_carried_and_the_lack_is_said() -> None:
    found = label(of("A", 50, "Flam. Liq. 2", state="liquid"))
    assert codes(found) == ["H225"]
    assert ("flammable", "flash point not known") in {(x.family, x.what) for x in found.unknown}
    assert label(of("A", "4.9", "Flam. Liq. 2", state="liquid")).answer == "not classified"


def test_the_oxidiser_class_of_a_powder_stays_with_a_powder() -> None:
    assert codes(label(of("A", 50, "Ox. Sol. 2"), state="solid")) == ["H272"]
    assert codes(label(of("A", 20, "Ox. Sol. 2"))) == []


def test_dust_is_breathed_and_a_solution_only_when_sprayed() -> None:
    part = of("A", 50, "Acute Tox. 3 (inhalation)")
    assert codes(label(part, state="solid")) == ["H331"]
    assert codes(label(part)) == []
    assert codes(label(part, sprayed=True)) == ["H331"]


def test_the_low_end_of_a_range_is_never_used() -> None:
    assert codes(label(of("A", share("0.01", "0.1"), "Carc. 1B"))) == ["H350"]


def test_airway_corrosion_is_printed_only_for_a_corrosive_mixture() -> None:
    def part(percent: str) -> Ingredient:
        return of("A", percent, "Skin Corr. 1B", supplements=(Supplement(code="EUH071"),))

    assert [t.code for t in label(part("5")).euh] == ["EUH071"]
    assert label(part("4")).euh == ()
