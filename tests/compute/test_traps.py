"""Twenty traps of the trade, each as behaviour; the rows named (A17, J08 …) are those of the check values."""

import re
from collections.abc import Callable
from fractions import Fraction

import pytest

from sitegen.compute.ask import Factor, Make, coating, factor_of, parse_sheets
from sitegen.compute.dilute import dilute_by_parts, dilute_to_strength, parse_concentration
from sitegen.compute.molar import molar_mass
from sitegen.compute.scale import as_written, scale
from sitegen.compute.strength import over_solubility
from sitegen.compute.swap import swaps
from sitegen.model.amount import parse_amount
from sitegen.model.archive import Measuring
from sitegen.model.dilution import parse_dilution
from sitegen.model.quantity import parse_quantity
from tests.compute import rows_swap
from tests.compute.rows import Figures
from tests.compute.shelf import Kitchen, base_card, base_shelf, form, q, refused, single, value
from tests.compute.test_check_values import ROWS

ELSEWHERE = {17: "exposure: test_exposure and test_strip"}


@pytest.mark.parametrize("read", [parse_dilution, parse_concentration])
def test_trap_01_a_colon_is_refused_with_both_readings(read: Callable[[str], object]) -> None:
    code, message, remedy = refused(read, "1:4")
    assert (code, message) == ("ratio-two-readings", "`1:4` can be read in two ways")
    assert remedy == "write `1+4` or `1+3`"


def test_trap_01_a_colon_behind_one_ingredient_names_both_readings_as_lines() -> None:
    code, message, remedy = refused(parse_amount, "1:4")
    assert (code, message) == ("ratio-two-readings", "`1:4` can be read in two ways")
    assert "`1 part` here and `4 parts` in the line of the other" in remedy
    assert "`3 parts` there" in remedy


def test_trap_02_parts_with_a_powder_need_a_basis() -> None:
    kitchen = Kitchen(form("citrate")).mix(contains={"citrate": "45 parts", "water": "100 parts"})
    code, message, remedy = kitchen.refusal()
    assert code == "parts-without-basis"
    assert message == "`citrate` is not a liquid, so `parts` can be read in two ways"
    assert remedy == "write `parts by weight` or `parts by volume` on every part"


def test_trap_02_parts_by_weight_are_not_grams_made_up() -> None:
    made_up, weighed = ROWS["B21"]()
    assert 1.44 < made_up / weighed < 1.46


def test_trap_03_a_bare_percent_is_refused_with_three_readings() -> None:
    code, message, remedy = refused(parse_amount, "28 %")
    assert (code, message) == ("percent-without-basis", "`28 %` does not say percent of what")
    assert remedy == "write `28 % w/v` (g per 100 ml), `28 % w/w` (g per 100 g) or `28 % v/v` (ml per 100 ml)"
    assert refused(parse_concentration, "28 %")[0] == "percent-without-basis"


@pytest.mark.parametrize(("stock", "to"), [("51 % w/w", "10 % w/v"), ("28 % v/v", "10 % w/v"), ("28 % v/v", "5 % w/w")])
def test_trap_03_percents_of_two_kinds_are_not_compared(stock: str, to: str) -> None:
    ask = dilute_to_strength
    got = refused(ask, parse_concentration(stock), parse_concentration(to), make=q("1 l"))
    assert got[:2] == ("strengths-differ", f"`{stock}` and `{to}` are not strengths of one kind")


def test_trap_03_percent_by_weight_becomes_by_volume_through_the_density_only() -> None:
    with_density = parse_concentration("51 % w/w", density="1.31 g/ml")
    assert (with_density.per, with_density.value) == ("g/l", Fraction("668.1"))
    assert parse_concentration("51 % w/w").per == "w/w"


def test_trap_04_the_old_ten_percent_is_three_strengths() -> None:
    us, imperial = ROWS["A15"]()
    apothecaries = Kitchen(form("salt")).mix(contains={"salt": "480 grain", "water": "to make 10 fl oz imp"})
    got = [us, imperial, single(apothecaries.strength("salt").g_per_l) / 10]
    assert [round(float(n), 2) for n in got] == [9.59, 9.98, 10.95]


@pytest.mark.parametrize(
    ("word", "remedy"),
    [
        ("oz", "write `oz av` (437.5 grains), `oz ap` (480 grains), `fl oz US` or `fl oz imp`"),
        ("fl oz", "write `fl oz US` (29.57 ml) or `fl oz imp` (28.41 ml)"),
        ("drams", "write `fl dr US` (3.70 ml) or `fl dr imp` (3.55 ml); for a weight write grains: a dram "
        "avoirdupois is 27.34 grains, a drachm apothecaries 60 grains"),
        ("pint", "write `pint US` (473.2 ml) or `pint imp` (568.3 ml)"),
        ("gr", "write `g` for grams or `grain` for grains"),
    ],
)  # fmt: skip
def test_trap_05_a_bare_ounce_dram_or_pint_is_refused(word: str, remedy: str) -> None:
    assert refused(parse_quantity, f"4 {word}") == ("unit-two-readings", f"`{word}` does not say which one", remedy)


def test_trap_06_two_columns_stay_two_recipes() -> None:
    """J08: metabisulfite 200 gr in 20 oz stands beside 13 g in 500 cc; neither is turned into the other."""
    kitchen = Kitchen(form("metabisulfite"))
    kitchen.mix("ounces", {"metabisulfite": "200 grain", "water": "to make 20 fl oz imp"})
    kitchen.mix("grams", {"metabisulfite": "13 g", "water": "to make 500 ml"})
    ounces, grams = (single(kitchen.strength("metabisulfite", i).g_per_l) for i in ("ounces", "grams"))
    assert grams == 26
    assert grams / ounces > Fraction("1.13")


def test_trap_07_mass_and_volume_are_converted_together() -> None:
    back = ROWS["H17"]()[4]
    assert abs(back - Fraction("29.96")) < Fraction("0.005")
    assert back != value(q("1 oz av"), "g")


def test_trap_08_there_and_back_again_is_exactly_one() -> None:
    there = rows_swap.factor("sodium-carbonate-anhydrous", "sodium-carbonate-monohydrate")
    back = rows_swap.factor("sodium-carbonate-monohydrate", "sodium-carbonate-anhydrous")
    assert there * back == 1
    assert abs(back - Fraction("0.833")) > Fraction("0.02")  # the inverse of a rounded 1.2, as forums print it


def test_trap_08_a_trade_name_of_two_forms_gets_both_answers() -> None:
    got = swaps(q("100 g"), "washing soda", "soda ash", base_shelf())
    assert [one.wanted.id for one in got] == ["sodium-carbonate-monohydrate", "sodium-carbonate-decahydrate"]
    assert [round(float(value(one.answer)), 1) for one in got] == [85.5, 37.0]


def test_trap_08_sulfite_crystals_are_the_heptahydrate() -> None:
    """C08: one handbook names a decahydrate, which is not known here."""
    assert refused(swaps, q("1 g"), "sodium-sulfite-decahydrate", "sodium-sulfite", base_shelf())[0] == (
        "unknown-substance"
    )


@pytest.mark.parametrize(
    ("lighter", "heavier"),
    [
        ("sodium-hydroxide", "potassium-hydroxide"),
        ("sodium-bromide", "potassium-bromide"),
        ("sodium-carbonate-anhydrous", "sodium-carbonate-decahydrate"),
        ("copper-sulfate-anhydrous", "copper-sulfate-pentahydrate"),
    ],
)
def test_trap_09_the_heavier_salt_in_the_jar_needs_more_grams(lighter: str, heavier: str) -> None:
    assert rows_swap.factor(lighter, heavier) > 1 > rows_swap.factor(heavier, lighter)


def test_trap_10_a_hydrate_is_not_held_to_the_anhydrous_figure() -> None:
    """G02: 100 g of hypo crystals in 100 ml dissolve, though the handbook's figure is 70.1 g anhydrous."""
    shelf, hypo = base_shelf(), base_card("sodium-thiosulfate")
    crystals = shelf.forms["sodium-thiosulfate-pentahydrate"]
    assert over_solubility(crystals, (Fraction(1000), Fraction(1000)), hypo, shelf) == ""
    assert over_solubility(crystals, (Fraction(1200), Fraction(1200)), hypo, shelf) == (
        "sodium thiosulfate, pentahydrate: 76.4 g per 100 ml (as sodium thiosulfate, anhydrous) is over the "
        "70.1 g that dissolve at 20 °C"
    )


def test_trap_10_the_room_figure_is_used_where_the_curve_falls_again() -> None:
    """G04: carbonate dissolves less at 60 °C than at 40 °C; neither lends its figure to a cold bottle."""
    assert abs(rows_swap.dissolves("sodium-carbonate-anhydrous") - Fraction("21.5")) < Fraction("0.01")


def test_trap_11_adding_and_filling_up_are_two_things() -> None:
    solids = form("citrate")
    added = Kitchen(solids).mix(contains={"citrate": "20 g", "water": "100 ml"}, makes="100 ml").batch()
    filled = Kitchen(solids).mix(contains={"citrate": "20 g", "water": "to make 100 ml"}).batch()
    assert (added.estimate, filled.estimate) == (True, False)
    assert [line.fill for line in filled.lines] == [False, True]


def test_trap_11_volumes_added_up_are_an_estimate_and_say_so() -> None:
    """F06: 500 ml of alcohol and 500 ml of water come to about 970 ml."""
    spirit = form("ethanol", state="liquid")
    kitchen = Kitchen(spirit).mix(contains={"ethanol": "500 ml", "water": "500 ml"}, name="Spirit")
    scaled = scale(kitchen.target(), Factor(times=Fraction(1)), Measuring())
    assert kitchen.batch().estimate
    assert kitchen.strength("ethanol").estimate
    assert scaled.warnings == ("Spirit: its volume is an estimate, since volumes do not add up exactly",)


def test_trap_11_the_diluent_is_made_up_to_and_no_measure_of_its_own() -> None:
    """F08: 727 ml of spirit take 300 ml of water to a litre, not 273 ml."""
    got = dilute_to_strength(parse_concentration("96.3 % v/v"), parse_concentration("70 % v/v"), make=q("1000 ml"))
    assert got.make_up
    assert got.warnings == ("make up to the final volume: the diluent is what is left, not a measure of its own",)
    in_parts = dilute_by_parts(parse_dilution("1+1"), make=q("1 l"))
    assert in_parts.warnings[0].startswith("parts by volume: strong solutions and alcohol shrink when mixed")


def test_trap_12_volumes_of_peroxide_are_no_strength() -> None:
    code, message, _ = refused(parse_concentration, "10 volumes")
    assert (code, message) == ("strength-not-read", "`10 volumes` is not a strength")


def test_trap_12_percent_by_volume_is_not_diluted_by_weight() -> None:
    """F09: 100 g of 40 % v/v from 96.2 % v/v needs densities of mixtures."""
    stock, to = parse_concentration("96.2 % v/v"), parse_concentration("40 % v/v")
    code, message, remedy = refused(dilute_to_strength, stock, to, make=q("100 g"))
    assert code == "dilute-by-volume"
    assert message == "`100 g` is a mass, and `96.2 % v/v` to `40 % v/v` is diluted by volume"
    assert remedy == "ask for a volume, such as `500 ml`"


def test_trap_13_ammonia_is_reckoned_as_the_species_its_card_names() -> None:
    """E10: 28 % of NH3 is 57.6 % told as NH4OH; the card says NH3, and moles are of NH3."""
    bottle = base_shelf().forms["ammonia-28-percent"]
    kitchen = Kitchen(base_card("ammonia")).mix(contains={bottle.id: "1 l"})
    assert bottle.formula == "NH3"
    assert kitchen.strength(bottle.id).shown[-1] == "14.8 mol/l"
    assert "NH4OH" in base_card("ammonia").note


@pytest.mark.parametrize("word", ["Bé", "Baumé", "°Bé"])
def test_trap_14_baume_is_not_a_unit(word: str) -> None:
    assert refused(parse_quantity, f"42 {word}")[:2] == ("unknown-unit", f"`{word}` is not a unit known here")


@pytest.mark.parametrize("word", ["tsp", "teaspoon", "tablespoons"])
def test_trap_15_spoons_are_refused(word: str) -> None:
    assert refused(parse_amount, f"2 {word}") == (
        "unit-not-measured",
        f"`{word}` is not a measure",
        "weigh what your spoon holds once and write grams, or measure in ml",
    )


def test_trap_15_drops_are_not_millilitres() -> None:
    assert refused(q("3 drops").in_unit, "ml")[:2] == (
        "wrong-dimension",
        "`3 drops` is a count of drops; a volume was expected",
    )
    kitchen = Kitchen(form("acid", state="liquid")).mix(contains={"acid": "3 drops", "water": "to make 1 l"})
    assert "acid" not in kitchen.strengths()


def test_trap_16_a_difference_of_temperatures_has_no_offset() -> None:
    """I04: within 5 °F is within 2.8 °C, not -15."""
    got = q("65-70 °F").in_unit("°C")
    assert got.high - got.low == Fraction(25, 9)
    assert value(q("5 °F"), "°C") == -15


def test_trap_18_coverage_is_a_datum_of_the_recipe() -> None:
    """L01, L04: two printed rates differ 2.8 times, so none is assumed."""
    sheets = parse_sheets("12 of 24x30 cm", coats="1", allowance=Fraction(0))
    target = Kitchen().mix(contains={"water": "100 ml"}).target()
    assert refused(coating, sheets, target)[:2] == (
        "no-coverage",
        "`m` does not say how much liquid a sheet takes",
    )


def test_trap_19_nothing_is_rounded_inside_a_chain() -> None:
    """D02: 77.433 g; with 1.325 mol rounded to 1.32 it would be 77.1 g."""
    got = ROWS["D02"]()[0]
    assert got == Fraction("5.30") * Fraction("0.250") * molar_mass("NaCl")
    assert abs(got - Fraction("77.1")) > Fraction("0.3")


def test_trap_19_a_third_of_a_third_of_a_recipe_is_a_ninth() -> None:
    kitchen = Kitchen(form("citrate")).mix(contains={"citrate": "40 g", "water": "to make 200 ml"})
    target = kitchen.target()
    third = factor_of(Make(quantity=q("200/3 ml")), target)
    scaled = scale(target, Factor(times=third * third), Measuring())
    assert scaled.mixtures[0].lines[0].low == Fraction(40, 9)
    written = as_written(target, Measuring()).mixtures[0].lines[0]
    assert (written.low, written.shown and written.shown.text()) == (40, "40 g")


@pytest.mark.parametrize(
    ("id_", "place", "printed"),
    [
        ("C05", 0, "0.833"),
        ("C08", 1, "2.000"),
        ("C11", 1, "1.32"),
        ("C13", 0, "105"),
        ("C22", 0, "1.40"),
        ("C24", 1, "1.70"),
        ("D02", 0, "77.1"),
        ("D05", 0, "3.97"),
        ("D10", 0, "0.674"),
        ("E10", 0, "56.6"),
        ("H10", 2, "52.5"),
        ("H15", 0, "325"),
        ("J22", 0, "80.0"),
        ("L10", 0, "50"),
    ],
)
def test_trap_20_what_is_printed_wrong_does_not_come_out(id_: str, place: int, printed: str) -> None:
    figures: Figures = ROWS[id_]()
    places = len(printed.partition(".")[2])
    assert f"{float(figures[place]):.{places}f}" != printed


def test_every_trap_is_a_test_or_listed_with_a_reason() -> None:
    tested = {int(m[1]) for name in globals() if (m := re.match(r"test_trap_(\d\d)_", name))}
    assert tested | set(ELSEWHERE) == set(range(1, 21))
    assert not tested & set(ELSEWHERE)
