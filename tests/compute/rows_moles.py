"""Rows D, E and F: moles, reagents by their labels, spirit."""

from fractions import Fraction

from sitegen.compute.ask import Make, factor_of
from sitegen.compute.dilute import dilute_to_strength, parse_concentration
from sitegen.compute.molar import molar_mass
from sitegen.compute.strength import over_solubility
from tests.compute.asking import g_per_l, held, molarity, reagent_molarity, volume_for
from tests.compute.rows import Figures, Rows
from tests.compute.shelf import Kitchen, base_card, base_shelf, form, q, single, value

ROWS = Rows()


@ROWS("D01")
def acetic_acid_molarity() -> Figures:
    return (molarity("CH3COOH", "25.2 g", "0.500 l"),)


@ROWS("D02")
def grams_without_rounding_between() -> Figures:
    return (g_per_l("5.30 mol/l", formula="NaCl") * Fraction("0.250"),)


@ROWS("D04")
def bromide_volume() -> Figures:
    return (volume_for("KBr", "66.0 g", "1.50 mol/l"),)


@ROWS("D05")
def hydrate_molarity() -> Figures:
    return (molarity("Na2SO4.10H2O", "10.5 kg", "18.60 l"),)


@ROWS("D07")
def hydrochloric_molarity() -> Figures:
    return (molarity("HCl", "868.8 g", "2.00 l"),)


@ROWS("D09")
def sulfate_volume() -> Figures:
    return (volume_for("K2SO4", "57 g", "0.20 mol/l"),)


@ROWS("D10")
def cobalt_molarity() -> Figures:
    return (molarity("CoCl2", "6.52 g", "75.0 ml"),)


@ROWS("D12")
def ferricyanide_molarity() -> Figures:
    return (molarity("K3Fe(CN)6", "10 g", "100 ml"),)


@ROWS("D13")
def silver_nitrate_molarity() -> Figures:
    return (g_per_l("12 % w/v") / molar_mass("AgNO3"),)


@ROWS("D14")
def more_copper_sulfate_than_dissolves() -> Figures:
    copper = base_card("copper-sulfate")
    crystals = base_shelf().forms["copper-sulfate-pentahydrate"]
    kitchen = Kitchen(copper).mix(contains={crystals.id: "2.76 kg", "water": "to make 1.45 l"})
    strength = kitchen.strength(crystals.id)
    assert strength.g_per_l
    assert over_solubility(crystals, strength.g_per_l, copper, base_shelf())
    return (single(strength.mol_per_l),)


@ROWS("E01")
def glacial_acetic() -> Figures:
    return (reagent_molarity("CH3COOH", "99.5 %", "1.05 g/ml"),)


@ROWS("E02")
def strong_ammonia() -> Figures:
    return (reagent_molarity("NH3", "28 %", "0.90 g/ml"),)


@ROWS("E04")
def strong_nitric() -> Figures:
    return (reagent_molarity("HNO3", "71 %", "1.42 g/ml"),)


@ROWS("E06")
def lye() -> Figures:
    return (reagent_molarity("NaOH", "50 %", "1.53 g/ml"),)


@ROWS("E07")
def strong_sulfuric() -> Figures:
    return (reagent_molarity("H2SO4", "96 %", "1.84 g/ml"),)


@ROWS("E08")
def reagent_for_a_litre_of_one_molar() -> Figures:
    figures = []
    for formula, assay, density in (("CH3COOH", "99.8", "1.05"), ("HNO3", "69.6", "1.41"), ("H2SO4", "96", "1.84")):
        stock = parse_concentration(f"{assay} % w/w", density=f"{density} g/ml")
        got = dilute_to_strength(stock, parse_concentration("1 mol/l", formula=formula), make=q("1 l"))
        figures.append(value(got.stock, "ml"))
    return tuple(figures)


@ROWS("E10")
def ammonia_told_as_hydroxide() -> Figures:
    return (28 * molar_mass("NH4OH") / molar_mass("NH3"),)


@ROWS("E11")
def sulfuric_per_litre() -> Figures:
    return (g_per_l("96 % w/w", density="1.84 g/ml"),)


@ROWS("E12")
def volume_of_a_weight() -> Figures:
    kitchen = Kitchen(form("acid", state="liquid")).mix(contains={"acid": "100 ml"}, density="1.83 g/ml")
    target = kitchen.target()
    return (factor_of(Make(quantity=q("225 g")), target) * target.makes,)


@ROWS("E20")
def bleach_by_its_label() -> Figures:
    kitchen = Kitchen(form("hypochlorite")).mix(contains={"hypochlorite": "7.4 % w/w"}, makes="100.0 g")
    return (held(kitchen)["hypochlorite"],)


@ROWS("F02")
def spirit_made_up_to_a_litre() -> Figures:
    stock = parse_concentration("96.3 % v/v")
    got = [
        dilute_to_strength(stock, parse_concentration(f"{n} % v/v"), make=q("1000 ml"))
        for n in (90, 80, 70, 60, 50, 45)
    ]
    assert all(one.make_up for one in got)
    return tuple(value(one.stock) for one in got)
