"""Rows H, I, J, L: units, temperatures, formulas in two measures, coating."""

from collections.abc import Mapping
from fractions import Fraction

from sitegen.compute.ask import Base, Have, coating, factor_of, parse_sheets
from sitegen.compute.molar import molar_mass
from sitegen.model.quantity import Quantity
from sitegen.model.units import per_unit, to_base
from tests.compute.asking import held, scaled
from tests.compute.rows import Figures, Rows
from tests.compute.shelf import Kitchen, form, q, single, value

ROWS = Rows()


def strength(contains: Mapping[str, str], makes: str) -> Figures:
    """g/l of each solid, in the order given."""
    solids = dict(contains)
    kitchen = Kitchen(*(form(key) for key in solids)).mix(contains={**solids, "water": f"to make {makes}"})
    found = kitchen.strengths()
    return tuple(single(found[key].g_per_l) for key in solids)


def millilitres_per_litre(poured: str, makes: str) -> Fraction:
    """ml of a liquid in a litre of what is filled up."""
    kitchen = Kitchen(form("acid", state="liquid")).mix(contains={"acid": poured, "water": f"to make {makes}"})
    return single(kitchen.strength("acid").percent_vv) * 10


@ROWS("H01")
def fluid_ounce_us() -> Figures:
    return (per_unit("fl oz US"),)


@ROWS("H02")
def fluid_ounce_imperial() -> Figures:
    return (per_unit("fl oz imp"),)


@ROWS("H03")
def gallons() -> Figures:
    return value(q("1 gallon US"), "l"), value(q("1 gallon imp"), "l")


@ROWS("H05")
def grain_ounces_and_pound() -> Figures:
    return (value(q("1 grain"), "mg"), *(value(q(f"1 {unit}"), "g") for unit in ("oz av", "oz ap", "lb")))


@ROWS("H08")
def drams_in_grains_and_fluid_drams() -> Figures:
    solids = tuple(value(q(f"{n} grain"), "g") for n in ("27.34375", "60", "20"))
    return (*solids, value(q("1 fl dr imp"), "ml"), value(q("1 fl dr US"), "ml"))


@ROWS("H09")
def minims() -> Figures:
    return per_unit("minim US"), per_unit("minim imp")


@ROWS("H10")
def two_ounces_of_solids() -> Figures:
    av, ap = value(q("1 oz av"), "grain"), value(q("1 oz ap"), "grain")
    return av, ap, ap - av


@ROWS("H12")
def grams_in_ounces() -> Figures:
    return (value(q("125 g"), "oz av"),)


@ROWS("H14")
def us_measures_in_litres() -> Figures:
    return value(q("1.000 fl oz US"), "l"), value(q("12.0 fl oz US"), "ml"), value(q("12.0 gal US"), "l")


@ROWS("H15")
def five_grain_tablet() -> Figures:
    return (value(q("5.00 grain"), "mg"),)


@ROWS("H17")
def strengths_between_measures() -> Figures:
    litre = Kitchen(form("salt")).mix(contains={"salt": "1 g", "water": "to make 1 l"})
    there = [scaled(litre, "32 fl oz US", "salt", unit) for unit in ("grain", "oz av", "lb")]
    back = [strength({"salt": f"1 {unit}"}, "32 fl oz US")[0] for unit in ("grain", "oz av", "lb")]
    return (*there, *back)


@ROWS("H21")
def ounce_in_a_gallon() -> Figures:
    return strength({"salt": "1 oz av"}, "1 gallon US")


@ROWS("H22")
def grams_in_grains() -> Figures:
    return value(q("1 g"), "grain"), value(q("10 g"), "grain")


@ROWS("I01")
def celsius_in_fahrenheit() -> Figures:
    return tuple(value(q(f"{t} °C"), "°F") for t in ("37.0", "80.92", "45"))


@ROWS("I03")
def fahrenheit_in_celsius() -> Figures:
    return value(q("68 °F"), "°C"), value(q("125 °F"), "°C")


@ROWS("I04")
def width_of_a_range_of_temperatures() -> Figures:
    got = q("65-70 °F").in_unit("°C")
    return (got.high - got.low,)


@ROWS("J01")
def stock_thinned_fourfold() -> Figures:
    stock = {"borax": "24.4 g", "ascorbic": "8 g", "metol": "0.8 g", "lye": "68 ml", "phenidone-solution": "10 ml"}
    liquids = ("lye", "phenidone-solution")
    kitchen = Kitchen(*(form(i, state="liquid" if i in liquids else "solid") for i in stock))
    kitchen.mix("stock", {**stock, "water": "to make 1 l"})
    kitchen.mix("m", {"stock": "1 part", "water": "3 parts"}, makes="1 l")
    found = kitchen.strengths()
    solids = [single(found[i].g_per_l) for i in stock if i not in liquids]
    return (*solids, *(single(found[i].percent_vv) * 10 for i in liquids))


@ROWS("J03")
def permanganate_for_eighty_ounces() -> Figures:
    kitchen = Kitchen(form("permanganate")).mix(contains={"permanganate": "5.3 g", "water": "to make 1000 ml"})
    return (scaled(kitchen, "80 fl oz imp", "permanganate", "grain"),)


@ROWS("J04")
def five_and_ten_grams_for_eighty_ounces() -> Figures:
    figures = []
    for grams in ("5.0 g", "10.0 g"):
        kitchen = Kitchen(form("salt")).mix(contains={"salt": grams, "water": "to make 1000 ml"})
        figures.append(scaled(kitchen, "80 fl oz imp", "salt", "grain"))
    return tuple(figures)


@ROWS("J07")
def fixing_bath() -> Figures:
    return strength({"hypo": "4 oz av"}, "20 fl oz imp")


@ROWS("J08")
def metabisulfite_in_two_columns() -> Figures:
    return strength({"salt": "200 grain"}, "20 fl oz imp") + strength({"salt": "13 g"}, "500 ml")


@ROWS("J10")
def pyro_and_soda() -> Figures:
    return (
        *strength({"soda": "8 oz av"}, "80 fl oz imp"),
        *(value(q(text), "ml") for text in ("1 fl dr imp", "1 fl oz imp", "10 fl oz imp")),
    )


@ROWS("J11")
def borax_developer_ratios() -> Figures:
    grains = strength(
        {"metol": "20 grain", "hq": "50 grain", "borax": "200 grain", "salt": "200 grain"}, "20 fl oz imp"
    )
    grams = strength({"metol": "1 g", "hq": "2.5 g", "borax": "10 g", "salt": "10 g"}, "500 ml")
    ratios = tuple(n / grains[0] for n in grains[1:])
    assert ratios == tuple(n / grams[0] for n in grams[1:])
    return (*ratios, grains[0], grams[0])


@ROWS("J13")
def toning_bath() -> Figures:
    solid = strength({"sulfocyanide": "20 grain", "gold": "2 grain"}, "16 fl oz imp")
    kitchen = Kitchen(form("gold")).mix("stock", {"gold": "1 % w/v", "water": "to make 100 ml"})
    kitchen.mix("m", {"stock": "30 ml", "water": "to make 1 l"})
    return (*solid, single(kitchen.strength("gold").g_per_l))


@ROWS("J14")
def ammonia_by_volume() -> Figures:
    return (
        millilitres_per_litre("1 fl oz imp", "10 fl oz imp") / 10,
        millilitres_per_litre("50 ml", "500 ml") / 10,
    )


@ROWS("J16")
def two_solution_developer() -> Figures:
    return strength({"sulfite": "2 oz av", "hydroquinone": "160 grain"}, "20 fl oz imp")


@ROWS("J17")
def ferricyanide_reducer() -> Figures:
    return strength({"ferricyanide": "10 grain", "sulfocyanide": "20 grain"}, "2 fl oz imp")


@ROWS("J19")
def stop_bath() -> Figures:
    got = millilitres_per_litre("1 1/2 fl oz US", "32 fl oz US")
    return got, got


@ROWS("J20")
def film_developer() -> Figures:
    three_ounces = value(q("3 oz av"), "grain") + 145  # the sheet writes both measures: 3 oz 145 gr
    return strength(
        {"metol": "29 grain", "sulfite": f"{three_ounces} grain", "hydroquinone": "73 grain", "borax": "29 grain"},
        "32 fl oz US",
    )


@ROWS("J22")
def paper_developer_carbonate() -> Figures:
    desiccated = Fraction("67.5")
    return (desiccated * molar_mass("Na2CO3.H2O") / molar_mass("Na2CO3"),)


@ROWS("J23")
def hardening_fixer() -> Figures:
    hypo, sulfite, boric, alum = strength(
        {"hypo": "2 lb", "sulfite": "2 oz av", "boric": "1 oz av", "alum": "2 oz av"}, "1 gallon US"
    )
    return hypo, sulfite, millilitres_per_litre("6 fl oz US", "1 gallon US"), boric, alum


def rate(millilitres: str, square_inches: int) -> Quantity:
    """A coverage told as ml on so many square inches."""
    square_metres = to_base(Fraction(1), "in") ** 2 * square_inches / 10**6
    exact = Fraction(millilitres) / square_metres
    return Quantity(low=exact, high=exact, unit="ml/m²")


def coat(sheets: str, coverage: Quantity) -> Fraction:
    """ml for some sheets at a rate, no allowance."""
    kitchen = Kitchen().mix(contains={"water": "100 ml"})
    text = f"{coverage.low.numerator}/{coverage.low.denominator} ml/m²"
    asked = parse_sheets(sheets, coats="1", allowance=Fraction(0), coverage=text)
    return coating(asked, kitchen.target())


@ROWS("L01")
def platinum_sensitiser() -> Figures:
    coverage = rate("1", 20)
    return coat("1 of 8x10 in", coverage), coat("1 of 4x5 in", coverage), value(coverage)


@ROWS("L04")
def a_thinner_coat() -> Figures:
    coverage = rate("0.36", 20)
    sheets = Fraction("2.7") / coat("1 of 4x5 in", coverage)
    return value(coverage), sheets * 20


@ROWS("L07")
def silver_on_a_square_metre() -> Figures:
    kitchen = Kitchen(form("silver-nitrate")).mix(contains={"silver-nitrate": "12 % w/v", "water": "to make 100 ml"})
    nitrate = held(kitchen)["silver-nitrate"] / 100 * coat("1 of 1x1 m", rate("1", 20))
    return nitrate, nitrate * molar_mass("Ag") / molar_mass("AgNO3")


@ROWS("L08")
def dye_by_weight_of_fibre() -> Figures:
    figures = []
    for yarn, share in (("125 g", 2), ("300 g", 3)):
        target = Kitchen(form("dye")).mix(contains={"dye": f"{share} % of fibre"}).target()
        figures.append(target.totals[0].amount * factor_of(Base(name="fibre", quantity=q(yarn)), target))
    return tuple(figures)


@ROWS("L10")
def dye_from_a_stock() -> Figures:
    dyeing = Kitchen(form("dye")).mix(contains={"dye": "50 % of fibre"}).target()
    dye = dyeing.totals[0].amount * factor_of(Base(name="fibre", quantity=q("100 g")), dyeing)
    stock = Kitchen(form("dye")).mix(contains={"dye": "10 % w/v", "water": "to make 100 ml"}).target()
    left = Quantity(low=dye, high=dye, unit="g")
    return (factor_of(Have(left=(("dye", left),)), stock) * stock.makes,)
