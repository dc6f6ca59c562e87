"""Rows A and B: percents, parts and dilutions."""

from fractions import Fraction

from sitegen.compute.ask import Have, factor_of
from sitegen.compute.dilute import dilute_by_parts, dilute_to_strength, parse_concentration
from sitegen.model.dilution import parse_dilution
from sitegen.model.units import from_base, per_unit
from tests.compute.asking import g_per_l, held, per_ounce, scaled, solution, thinned
from tests.compute.rows import Figures, Rows
from tests.compute.shelf import Kitchen, base_card, base_shelf, form, q, single, value

ROWS = Rows()


@ROWS("A01")
def grams_and_grams() -> Figures:
    kitchen = Kitchen(form("hcl", formula="HCl")).mix(contains={"hcl": "135 g", "water": "775 g"})
    return (single(kitchen.strength("hcl").percent_ww),)


@ROWS("A03")
def half_a_litre_of_acid() -> Figures:
    return (g_per_l("37.2 % w/w", density="1.19 g/ml") * value(q("0.500 l"), "l"),)


@ROWS("A05")
def volume_percent_uses_the_pure_liquid() -> Figures:
    spirit = form("isopropanol", state="liquid", density="0.785 g/ml")
    kitchen = Kitchen(spirit).mix(contains={"isopropanol": "70 % v/v"}, makes="355 ml")
    return (held(kitchen)["isopropanol"],)


@ROWS("A06")
def saline() -> Figures:
    strength = g_per_l("0.9 % w/v")
    return strength / 10, strength


@ROWS("A08")
def nitric_acid_by_weight() -> Figures:
    stock, to = parse_concentration("68.0 % w/w"), parse_concentration("10.0 % w/w")
    return (value(dilute_to_strength(stock, to, make=q("400.0 g")).stock),)


@ROWS("A09")
def parts_per_million() -> Figures:
    kitchen = Kitchen(form("mercury")).mix(contains={"mercury": "0.48 mg", "water": "50.0 g"})
    share = single(kitchen.strength("mercury").percent_ww)
    return share * 10**4, share * 10**7


@ROWS("A10")
def grains_in_an_ounce_of_water_by_weight() -> Figures:
    return tuple(
        from_base(held(Kitchen(form("salt")).mix(contains={"salt": f"{n} % w/w"}, makes="1 oz av"))["salt"], "grain")
        for n in (1, 5, 10, 20, 30, 40, 50)
    )


@ROWS("A12")
def a_grain_in_ten_minims() -> Figures:
    kitchen = Kitchen(form("pyro")).mix(contains={"pyro": "1 grain", "water": "to make 10 minim imp"})
    target = kitchen.target()
    bulk = factor_of(Have(left=(("pyro", q("1 oz av")),)), target) * target.makes
    ounces_and_minims = per_unit("fl oz imp") * 9 + per_unit("minim imp") * 55
    return from_base(bulk, "minim imp"), from_base(ounces_and_minims, "minim imp")


@ROWS("A14")
def the_apothecaries_rule() -> Figures:
    kitchen = Kitchen(form("salt")).mix(contains={"salt": "480 grain", "water": "to make 10 fl oz imp"})
    return tuple(scaled(kitchen, make, "salt", "grain") for make in ("1 fl oz imp", "1 fl dr imp", "10 minim imp"))


@ROWS("A15")
def an_ounce_in_ten_ounces() -> Figures:
    return tuple(solution({"salt": "1 oz av", "water": f"to make 10 fl oz {which}"}, "salt") for which in ("US", "imp"))


@ROWS("A17")
def thiocyanate_liquid() -> Figures:
    return (g_per_l("51 % w/w", density="1.31 g/ml") / 10,)


@ROWS("A18")
def density_that_a_label_implies() -> Figures:
    return (Fraction("65.5") / (g_per_l("50 % w/w", density="1 g/ml") / 10),)


@ROWS("A20")
def formalin() -> Figures:
    bottle = base_card("formaldehyde").forms[0]
    assert bottle.assay
    assert bottle.density
    return (bottle.assay.low * value(bottle.density, "g/ml"),)


@ROWS("A21")
def citric_acid_solution() -> Figures:
    return (g_per_l("10 % w/w", density="1.0402 g/ml") / 10,)


@ROWS("A23")
def phenol_by_weight() -> Figures:
    phenol = form("phenol", formula="C6H5OH")
    kitchen = Kitchen(phenol).mix(contains={"phenol": "1.40 % w/w"}, makes="1 l", density="0.9956 g/ml")
    return (single(kitchen.strength("phenol").mol_per_l),)


@ROWS("B01")
def five_molar_thinned() -> Figures:
    return (thinned("5.00 mol/l", "0.850 l", "1.80 l"),)


@ROWS("B02")
def two_molar_thinned() -> Figures:
    return (thinned("2.04 mol/l", "25.0 ml", "500.0 ml"),)


@ROWS("B04")
def stock_for_a_tenth_molar() -> Figures:
    stock, to = parse_concentration("1.59 mol/l"), parse_concentration("0.100 mol/l")
    return (value(dilute_to_strength(stock, to, make=q("5.00 l")).stock, "l"),)


@ROWS("B06")
def volume_from_what_is_left() -> Figures:
    stock, to = parse_concentration("1.88 mol/l"), parse_concentration("0.125 mol/l")
    return (value(dilute_to_strength(stock, to, have=q("0.250 l")).makes),)


@ROWS("B07")
def fortieth_molar_thinned() -> Figures:
    return (thinned("0.025 mol/l", "22.50 ml", "100.0 ml"),)


@ROWS("B08")
def one_and_nine_against_one_and_ten() -> Figures:
    nine, ten = (dilute_by_parts(parse_dilution(p), make=q("1000 ml")) for p in ("1+9", "1+10"))
    return value(nine.stock), value(nine.diluent), value(ten.stock), value(ten.diluent)


@ROWS("B09")
def one_and_four_against_one_in_four() -> Figures:
    four, three = (dilute_by_parts(parse_dilution(p), make=q("500 ml")) for p in ("1+4", "1+3"))
    return value(four.stock), value(four.diluent), value(three.stock), value(three.diluent)


@ROWS("B11")
def one_part_with_four_parts() -> Figures:
    kitchen = Kitchen(form("amidol")).mix("stock", {"amidol": "80 grain", "water": "to make 8 fl oz imp"})
    kitchen.mix("m", {"stock": "1 part", "water": "4 parts"})
    return tuple(per_ounce(kitchen, "amidol", local, "fl oz imp") for local in ("stock", "m"))


@ROWS("B12")
def tank_developer() -> Figures:
    kitchen = Kitchen(form("pyro"))
    kitchen.mix("stock", {"pyro": "5 grain", "water": "to make 1 fl oz imp"})
    kitchen.mix("others", {"water": "16 fl oz imp"})
    kitchen.mix("m", {"stock": "16 fl oz imp", "others": "16 fl oz imp", "water": "64 fl oz imp"})
    makes = from_base(kitchen.batch().makes, "fl oz imp")
    return makes, from_base(held(kitchen)["pyro"], "grain"), per_ounce(kitchen, "pyro", "m", "fl oz imp")


@ROWS("B14")
def three_and_eight_by_volume() -> Figures:
    cards = base_card("acetic-acid"), base_card("water")
    grams = held(Kitchen(*cards).mix(contains={"acetic-acid-glacial": "3 parts", "water": "8 parts"}))
    assay = base_shelf().forms["acetic-acid-glacial"].assay
    assert assay
    return (grams["acetic-acid-glacial"] * assay.low / sum(grams.values()),)


@ROWS("B15")
def nine_and_twenty_three_by_volume() -> Figures:
    stock, to = parse_concentration("99.5 % v/v"), parse_concentration("28 % v/v")
    got = dilute_to_strength(stock, to, make=q("32 fl oz US"))
    return value(got.stock), value(got.diluent)


@ROWS("B17")
def gold_tube() -> Figures:
    kitchen = Kitchen(form("gold")).mix(contains={"gold": "15 grain", "water": "to make 15 fl dr imp"})
    return tuple(scaled(kitchen, make, "gold", "grain") for make in ("1 fl dr imp", "1 fl oz imp"))


@ROWS("B18")
def ounce_in_twenty() -> Figures:
    kitchen = Kitchen(form("salt")).mix(contains={"salt": "1 oz av", "water": "to make 20 fl oz imp"})
    return (scaled(kitchen, "1 fl oz imp", "salt", "grain"),)


@ROWS("B20")
def parts_that_total_no_hundred() -> Figures:
    kitchen = Kitchen(form("gum"), form("citrate"), form("chloride"))
    for local, of, grams in (("a", "gum", 15), ("b", "citrate", 45), ("c", "chloride", 45)):
        kitchen.mix(local, {of: f"{grams} g", "water": "to make 100 ml"})
    kitchen.mix("m", {"a": "100 parts", "b": "40 parts", "c": "20 parts"}, makes="80 ml")
    return tuple(b.low for b in kitchen.batch().lines)


@ROWS("B21")
def parts_need_a_basis() -> Figures:
    made_up = Kitchen(form("citrate")).mix(contains={"citrate": "45 g", "water": "to make 100 ml"})
    weighed = Kitchen(form("citrate")).mix(contains={"citrate": "45 parts by weight", "water": "100 parts by weight"})
    return scaled(made_up, "20 ml", "citrate", "g"), scaled(weighed, "20 g", "citrate", "g")


@ROWS("B23")
def equal_volumes_of_two_stocks() -> Figures:
    kitchen = Kitchen(form("citrate"), form("ferricyanide"))
    kitchen.mix("a", {"citrate": "25 g", "water": "to make 100 ml"})
    kitchen.mix("b", {"ferricyanide": "10 g", "water": "to make 100 ml"})
    kitchen.mix("m", {"a": "1 part", "b": "1 part"})
    return tuple(single(kitchen.strength(of).g_per_l) / 10 for of in ("citrate", "ferricyanide"))


@ROWS("B24")
def three_stocks_and_water() -> Figures:
    kitchen = Kitchen(form("tolidol"), form("sulfite"), form("carbonate"))
    kitchen.mix("a", {"tolidol": "1 oz ap", "sulfite": "1 oz ap", "water": "to make 32 fl oz US"})
    kitchen.mix("b", {"sulfite": "2 oz ap", "water": "to make 32 fl oz US"})
    kitchen.mix("c", {"carbonate": "4 oz ap", "water": "to make 32 fl oz US"})
    kitchen.mix("m", {"a": "1 part", "b": "1 part", "c": "1 part", "water": "7 parts"}, makes="16 fl oz US")
    return tuple(from_base(held(kitchen)[of], "grain") for of in ("tolidol", "sulfite", "carbonate"))
