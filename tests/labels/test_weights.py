"""Percent by weight from batches: by the masses where they are known, else by volume and density."""

from fractions import Fraction

import pytest

from sitegen.labels.ingredient import Share
from sitegen.labels.tables import tables
from sitegen.labels.weights import BY_EYE, BY_MASS, NO_BATH, TOO_MUCH, ByWeight, by_weight, stock
from tests.labels.shelves import computed


def weighed(mixtures: str, local: str = "bath") -> ByWeight:
    found = computed(mixtures)
    return by_weight(f"blue/{local}", stock(found.archive, found.batches, tables().densities))


def high(found: ByWeight, form: str) -> float:
    share = found.percent[form]
    assert share
    return float(share.high)


def test_what_is_filled_up_with_water_goes_by_volume_and_a_modelled_density() -> None:
    """10 % w/v of table salt weighs 1.07 g/ml (handbook 1.0689 at 9.36 % w/w)."""
    found = weighed("bath: {name: Bath, contains: {sodium-chloride: 100 g, water: to make 1 l}}")
    assert high(found, "sodium-chloride") == pytest.approx(9.36, abs=0.03)
    assert found.estimate
    assert "Laliberté" in found.basis
    assert found.state == "liquid"


def test_a_density_of_the_mixture_makes_it_exact() -> None:
    found = weighed("bath: {name: Bath, density: 1.25 g/ml, contains: {silver-nitrate: 50 g, water: to make 100 ml}}")
    assert found.percent["silver-nitrate"] == Share(low=Fraction(40), high=Fraction(40))
    assert not found.estimate


def test_solids_stirred_into_a_measured_liquid_go_by_mass() -> None:
    """20 g in 20 ml of water is half of it, and not 100 g in 100 ml."""
    found = weighed("bath: {name: Paste, contains: {gum-arabic: 19.96 g, water: 20 ml}}")
    assert found.percent["gum-arabic"] == Share(low=Fraction(50), high=Fraction(50))
    assert (found.basis, found.estimate) == (BY_MASS, False)


def test_stocks_within_stocks_are_resolved_before_any_limit_is_looked_at() -> None:
    found = weighed("""
strong: {name: Strong, contains: {potassium-dichromate: 10 g, water: to make 100 ml}}
weak: {name: Weak, contains: {strong: 1 part, water: 9 parts}}
bath: {name: Bath, contains: {weak: 10 ml, potassium-dichromate: 1 g, water: to make 100 ml}}
""")
    assert high(found, "potassium-dichromate") == pytest.approx(1.1, rel=0.02)


def test_a_bottle_is_counted_at_its_strength() -> None:
    found = weighed("bath: {name: Bath, contains: {hydrogen-peroxide-3-percent: 100 ml, water: to make 1 l}}")
    assert high(found, "hydrogen-peroxide-3-percent") == pytest.approx(0.303, rel=0.02)


def test_weight_by_volume_never_passes_for_weight_by_weight_below_density_one() -> None:
    found = weighed("bath: {name: Spirit, contains: {ethanol-absolute: 700 ml, water: to make 1 l}}")
    by_volume = 700 * 0.79 * 0.998 / 10
    assert high(found, "ethanol-absolute") > by_volume + 5


def test_a_light_liquid_the_model_does_not_know_has_no_share() -> None:
    found = weighed("bath: {name: Oil, contains: {turpentine: 100 ml, silver-nitrate: 20 g, water: to make 1 l}}")
    assert set(found.percent.values()) == {None}


def test_solids_beside_alcohol_are_rather_counted_too_high() -> None:
    found = weighed(
        "bath: {name: Extract, contains: {turmeric: 10 g, ethanol-96-percent: 70 % v/v, water: to make 100 ml}}"
    )
    assert high(found, "ethanol-96-percent") > 53
    assert "too high rather than too low" in found.basis


def test_what_fills_up_and_is_not_water_counts_with_what_is_left_for_it() -> None:
    found = weighed("bath: {name: Spirit, contains: {water: 300 ml, ethanol-absolute: to make 1 l}}")
    assert high(found, "ethanol-absolute") > 55


def test_by_eye_and_by_the_piece_is_not_known() -> None:
    found = weighed(
        "bath: {name: Tea, contains: {water: to make 1 l, tea: 4 pieces, citric-acid-monohydrate: as needed}}"
    )
    assert dict(found.percent) == {"tea": None, "citric-acid-monohydrate": None}
    assert found.basis == BY_EYE


def test_what_a_part_holds_by_eye_is_not_known_in_the_whole() -> None:
    found = weighed("""
sour: {name: Sour, contains: {citric-acid-monohydrate: as needed, water: to make 100 ml}}
bath: {name: Bath, contains: {sour: 1 part, water: 1 part}}
""")
    assert found.percent["citric-acid-monohydrate"] is None


def test_drops_count_as_a_twentieth_of_a_millilitre() -> None:
    found = weighed("bath: {name: Bath, contains: {polysorbate-20: 20 drops, water: to make 100 ml}}")
    assert 0.9 < high(found, "polysorbate-20") < 1.2


def test_a_dye_bath_goes_by_its_liquor() -> None:
    found = weighed(
        "bath: {name: Mordant, contains: {water: 30 times fibre, potassium-alum-dodecahydrate: 15 % of fibre}}"
    )
    assert high(found, "potassium-alum-dodecahydrate") == pytest.approx(15 / 3015 * 100, rel=0.001)


def test_a_share_of_fibre_without_a_liquor_is_not_known() -> None:
    found = weighed("bath: {name: Mordant, contains: {potassium-alum-dodecahydrate: 15 % of fibre}}")
    assert (set(found.percent.values()), found.basis) == ({None}, NO_BATH)


def test_more_than_the_volume_holds_is_not_known() -> None:
    found = weighed("bath: {name: Thick, makes: 10 ml, contains: {sodium-chloride: 30 g, water: to make 10 ml}}")
    assert (set(found.percent.values()), found.basis) == ({None}, TOO_MUCH)


def test_a_powder_mixed_dry_stays_a_powder() -> None:
    found = weighed("bath: {name: Salts, contains: {sodium-sulfite-anhydrous: 30 g, metol: 10 g}}")
    assert found.state == "solid"
    assert found.percent["metol"] == Share(low=Fraction(25), high=Fraction(25))


def test_a_range_keeps_both_its_ends() -> None:
    found = weighed("bath: {name: Bath, density: 1 g/ml, contains: {silver-nitrate: 8-12 g, water: to make 100 ml}}")
    assert found.percent["silver-nitrate"] == Share(low=Fraction(8), high=Fraction(12))
