"""Strengths: what is known, what is an estimate, what cannot be known, what cannot dissolve."""

from fractions import Fraction

import pytest

from sitegen.compute.molar import molar_mass
from sitegen.compute.strength import contents, over_solubility, three_figures
from tests.compute.shelf import Kitchen, archive_of, card, form, single

NITRATE = form("nitrate", formula="AgNO3")
ACID = form("acid", state="liquid", formula="CH3COOH", assay="80 % w/w", density="1.07 g/ml")
OIL = form("oil", state="liquid")


def test_a_solid_filled_up_is_known_in_every_way_a_volume_allows() -> None:
    got = Kitchen(NITRATE).mix(contains={"nitrate": "12 g", "water": "to make 100 ml"}).strength("nitrate")
    assert single(got.g_per_l) == 120
    assert single(got.mol_per_l) == 120 / molar_mass("AgNO3")
    assert (got.percent_vv, got.percent_ww, got.estimate) == (None, None, False)
    assert got.shown == ("120 g/l", "12 % w/v", "0.706 mol/l")


def test_a_density_of_the_mixture_gives_percent_by_weight() -> None:
    mixed = Kitchen(NITRATE).mix(contains={"nitrate": "12 g", "water": "to make 100 ml"}, density="1.1 g/ml")
    assert single(mixed.strength("nitrate").percent_ww) == Fraction(120, 11)


def test_a_mixture_by_weight_needs_a_density_for_grams_per_litre() -> None:
    contains = {"nitrate": "12 g", "water": "to make 100 g"}
    without = Kitchen(NITRATE).mix(contains=contains).strength("nitrate")
    assert (without.g_per_l, without.mol_per_l, single(without.percent_ww)) == (None, None, 12)
    assert without.shown == ("12 % w/w",)
    with_one = Kitchen(NITRATE).mix(contains=contains, density="1.1 g/ml").strength("nitrate")
    assert single(with_one.g_per_l) == 132


def test_moles_of_a_reagent_are_of_what_its_label_says_is_in_it() -> None:
    got = Kitchen(ACID).mix(contains={"acid": "100 ml", "water": "to make 1 l"}).strength("acid")
    assert (single(got.g_per_l), single(got.percent_vv)) == (107, 10)
    assert single(got.mol_per_l) == 107 * Fraction("0.8") / molar_mass("CH3COOH")


def test_moles_are_unknown_where_the_label_is_by_volume() -> None:
    spirit = form("spirit", state="liquid", formula="C2H6O", assay="96 % v/v", density="0.8074 g/ml")
    got = Kitchen(spirit).mix(contains={"spirit": "100 ml", "water": "to make 1 l"}).strength("spirit")
    assert got.mol_per_l is None
    assert got.g_per_l is not None


def test_a_liquid_without_a_density_is_known_by_volume_only() -> None:
    got = Kitchen(OIL).mix(contains={"oil": "5-10 ml", "water": "to make 100 ml"}).strength("oil")
    assert (got.g_per_l, got.percent_vv, got.shown) == (None, (5, 10), ("5–10 % v/v",))


def test_stocks_are_resolved_and_added_up() -> None:
    mixed = Kitchen(NITRATE).mix("stock", {"nitrate": "10 g", "water": "to make 100 ml"})
    mixed.mix("m", {"stock": "50 ml", "nitrate": "5 g", "water": "to make 1 l"})
    assert single(mixed.strength("nitrate").g_per_l) == 10


@pytest.mark.parametrize(("taken", "g_per_l"), [("110 g", 10), ("100 ml", 10)])
def test_a_stock_taken_by_either_measure_gives_the_same_strength(taken: str, g_per_l: int) -> None:
    mixed = Kitchen(NITRATE).mix("stock", {"nitrate": "10 g", "water": "to make 100 ml"}, density="1.1 g/ml")
    mixed.mix("m", {"stock": taken, "water": "to make 1 l"})
    assert single(mixed.strength("nitrate").g_per_l) == g_per_l


def test_a_stock_by_weight_taken_by_volume_goes_through_its_density() -> None:
    mixed = Kitchen(NITRATE).mix("stock", {"nitrate": "11 g", "water": "to make 110 g"}, density="1.1 g/ml")
    mixed.mix("m", {"stock": "100 ml", "water": "to make 1 l"})
    assert single(mixed.strength("nitrate").g_per_l) == 11


def test_a_figure_known_for_one_part_only_is_not_known_for_the_whole() -> None:
    mixed = Kitchen(OIL).mix("stock", {"oil": "10 ml", "water": "to make 100 ml"})
    mixed.mix("m", {"stock": "50 ml", "oil": "5 g", "water": "to make 1 l"})
    found = mixed.batches()
    held = contents(found["r/m"], mixed.archive, found)["oil"]
    assert (held.grams, held.millilitres) == (None, None)
    assert mixed.strength("oil").shown == ()


def test_an_estimated_stock_makes_an_estimated_strength() -> None:
    mixed = Kitchen(OIL).mix("stock", {"oil": "10 ml", "water": "90 ml"})
    mixed.mix("m", {"stock": "50 ml", "water": "to make 1 l"})
    assert mixed.strength("oil").estimate


def test_water_drops_and_words_are_not_listed() -> None:
    mixed = Kitchen(OIL, form("wetting", state="liquid"), form("gum"))
    mixed.mix(contains={"oil": "5 ml", "wetting": "3 drops", "gum": "as needed", "water": "100 ml"}, makes="105 ml")
    assert list(mixed.strengths()) == ["oil"]


def test_what_goes_by_a_base_has_no_strength() -> None:
    assert Kitchen(NITRATE).mix(contains={"nitrate": "2 % of fibre"}).strengths() == {}


@pytest.mark.parametrize(
    ("value", "text"),
    [("107.45", "107"), ("0.00123456", "0.00123"), ("99.95", "100"), ("1234567", "1230000"), ("5", "5")],
)
def test_strengths_are_shown_in_three_figures(value: str, text: str) -> None:
    assert three_figures(Fraction(value)) == text


BORAX = form("borax-ten", name="borax, decahydrate", formula="Na2B4O7.10H2O")
DRY = form("borax-dry", name="borax, anhydrous", formula="Na2B4O7")
NO_FORMULA = form("borax-odd")
SHELF = archive_of(cards=(card(BORAX, DRY, NO_FORMULA, id_="borax", limit="4.94 g"), card(OIL)))


@pytest.mark.parametrize(
    ("of", "g_per_l", "words"),
    [
        ("borax-ten", "49.4", ""),
        ("borax-ten", "49.5", "borax, decahydrate: 4.95 g per 100 ml (as borax, decahydrate) is over the 4.94 g that "
         "dissolve at 20 °C"),
        ("borax-dry", "26", ""),
        ("borax-dry", "49.4", "borax, anhydrous: 9.36 g per 100 ml (as borax, decahydrate) is over the 4.94 g that "
         "dissolve at 20 °C"),
        ("borax-odd", "900", ""),
        ("oil", "900", ""),
    ],
)  # fmt: skip
def test_warns_of_more_than_dissolves_as_the_form_of_the_table(of: str, g_per_l: str, words: str) -> None:
    """4.94 g of the decahydrate in 100 g of water at 20 °C (G19); 2.61 g of the anhydrous salt are as much."""
    pair = (Fraction(0), Fraction(g_per_l))
    assert over_solubility(SHELF.forms[of], pair, SHELF.substance_of[of], SHELF) == words
