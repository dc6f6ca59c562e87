"""Rows C and G: swaps of forms and salts, and what dissolves."""

from fractions import Fraction

from sitegen.compute.molar import molar_mass
from sitegen.compute.strength import over_solubility
from sitegen.compute.swap import swap
from tests.compute.rows import Figures, Rows
from tests.compute.shelf import archive_of, base_card, base_shelf, card, form, q, value

ROWS = Rows()


def swapped(amount: str, wanted: str, in_jar: str) -> Fraction:
    """Grams of what is in the jar, by the built-in cards."""
    shelf = base_shelf()
    return value(swap(q(amount), shelf.forms[wanted], shelf.forms[in_jar], shelf).answer, "g")


def factor(wanted: str, in_jar: str) -> Fraction:
    """Grams in the jar for each gram wanted."""
    return swapped("1 g", wanted, in_jar)


def dissolves(id_: str) -> Fraction:
    """The most g per 100 ml that the program lets pass, found by halving, to a thousandth."""
    shelf = base_shelf()
    form_, low, high = shelf.forms[id_], Fraction(0), Fraction(1000)
    while high - low > Fraction(1, 1000):
        middle = (low + high) / 2
        if over_solubility(form_, (middle * 10, middle * 10), shelf.substance_of[id_], shelf):
            high = middle
        else:
            low = middle
    return low


def on_card(id_: str, *celsius: int) -> Figures:
    """The card's limits at some temperatures, g per 100 ml of water."""
    limits = {value(row.at, "°C"): value(row.limit, "g") for row in base_card(id_).solubility}
    return tuple(limits[Fraction(t)] for t in celsius)


@ROWS("C01")
def carbonate_masses() -> Figures:
    return tuple(molar_mass(f) for f in ("Na2CO3", "Na2CO3.H2O", "Na2CO3.10H2O"))


@ROWS("C02")
def anhydrous_to_monohydrate() -> Figures:
    got = factor("sodium-carbonate-anhydrous", "sodium-carbonate-monohydrate")
    return got, got


@ROWS("C04")
def developer_carbonate() -> Figures:
    return (
        swapped("52.5 g", "sodium-carbonate-monohydrate", "sodium-carbonate-decahydrate"),
        swapped("45 g", "sodium-carbonate-anhydrous", "sodium-carbonate-monohydrate"),
    )


@ROWS("C05")
def monohydrate_to_anhydrous() -> Figures:
    return (factor("sodium-carbonate-monohydrate", "sodium-carbonate-anhydrous"),)


@ROWS("C07")
def sulfite_crystals() -> Figures:
    return (swapped("72 grain", "sodium-sulfite-anhydrous", "sodium-sulfite-heptahydrate") / q("72 grain").base()[0],)


@ROWS("C08")
def which_hydrate_of_sulfite() -> Figures:
    crystals = factor("sodium-sulfite-anhydrous", "sodium-sulfite-heptahydrate")
    return crystals, molar_mass("Na2SO3.10H2O") / molar_mass("Na2SO3")


@ROWS("C09")
def hypo_both_ways() -> Figures:
    crystals, dry = "sodium-thiosulfate-pentahydrate", "sodium-thiosulfate-anhydrous"
    return factor(crystals, dry), factor(dry, crystals)


@ROWS("C11")
def borax_both_ways() -> Figures:
    ten, five = "borax-decahydrate", "borax-pentahydrate"
    return factor(ten, five), factor(five, ten)


@ROWS("C13")
def sulfate_crystals() -> Figures:
    return (swapped("45 g", "sodium-sulfate-anhydrous", "sodium-sulfate-decahydrate"),)


@ROWS("C14")
def copper_sulfate_both_ways() -> Figures:
    crystals, dry = "copper-sulfate-pentahydrate", "copper-sulfate-anhydrous"
    return swapped("100 g", crystals, dry), swapped("100 g", dry, crystals)


@ROWS("C15")
def citric_acid_monohydrate() -> Figures:
    dry, wet = "citric-acid-anhydrous", "citric-acid-monohydrate"
    return factor(dry, wet), swapped("15 g", dry, wet)


@ROWS("C17")
def ferric_chloride() -> Figures:
    lumps, dry = "ferric-chloride-hexahydrate", "ferric-chloride-anhydrous"
    return factor(lumps, dry) * 100, swapped("500 g", lumps, dry)


@ROWS("C19")
def bromide_for_bromide() -> Figures:
    return factor("sodium-bromide", "potassium-bromide"), factor("potassium-bromide", "sodium-bromide")


@ROWS("C20")
def ascorbate_for_ascorbic() -> Figures:
    return (factor("sodium-ascorbate", "ascorbic-acid"),)


@ROWS("C22")
def lye_for_lye() -> Figures:
    return (factor("potassium-hydroxide", "sodium-hydroxide"),)


@ROWS("C24")
def metaborate_of_two_formulas() -> Figures:
    carbonate = molar_mass("Na2CO3.H2O")
    return molar_mass("NaBO2.8H2O") / carbonate, molar_mass("Na2B2O4.8H2O") / carbonate


@ROWS("C25")
def muriatic_acid() -> Figures:
    strong = form("hcl-36", state="liquid", formula="HCl", assay="36 % w/w", density="1.18 g/ml")
    muriatic = form("hcl-31", state="liquid", formula="HCl", assay="31.45 % w/w", density="1.160 g/ml")
    shelf = archive_of(cards=(card(strong, muriatic, id_="hcl"),))
    return (value(swap(q("10.0 ml"), strong, muriatic, shelf).answer, "ml"),)


@ROWS("G01")
def hypo_dissolves() -> Figures:
    return (dissolves("sodium-thiosulfate-anhydrous"),)


@ROWS("G05")
def carbonate_by_temperature() -> Figures:
    return on_card("sodium-carbonate", 0, 20, 40, 60)


@ROWS("G07")
def dichromate_by_temperature() -> Figures:
    return on_card("potassium-dichromate", 0, 20, 40, 60)


@ROWS("G09")
def ferricyanide_dissolves() -> Figures:
    return (dissolves("potassium-ferricyanide"),)


@ROWS("G10")
def citric_acid_by_temperature() -> Figures:
    return on_card("citric-acid", 10, 20, 100)


@ROWS("G11")
def copper_sulfate_dissolves() -> Figures:
    return (dissolves("copper-sulfate-anhydrous"),)


@ROWS("G13")
def bromide_by_temperature() -> Figures:
    return on_card("potassium-bromide", 10, 20, 30)


@ROWS("G15")
def chlorides_dissolve() -> Figures:
    return dissolves("sodium-chloride"), dissolves("ammonium-chloride")


@ROWS("G16")
def potash_dissolves() -> Figures:
    return (dissolves("potassium-carbonate"),)


@ROWS("G17")
def silver_nitrate_by_temperature() -> Figures:
    return on_card("silver-nitrate", 0, 20, 40)


@ROWS("G19")
def borax_dissolves() -> Figures:
    return (dissolves("borax-decahydrate"),)


@ROWS("G20")
def hydroquinone_dissolves() -> Figures:
    return (dissolves("hydroquinone"),)
