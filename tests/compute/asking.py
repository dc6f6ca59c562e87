"""How rows of check values ask the program: strengths, contents and sizes of small mixtures."""

from collections.abc import Mapping
from fractions import Fraction

from sitegen.compute.ask import Have, Make, factor_of
from sitegen.compute.dilute import parse_concentration
from sitegen.compute.strength import contents
from sitegen.model.units import from_base, per_unit
from tests.compute.shelf import Kitchen, form, q, single


def g_per_l(text: str, *, density: str = "", formula: str = "") -> Fraction:
    """A strength as grams per litre."""
    strength = parse_concentration(text, density=density, formula=formula)
    assert strength.per == "g/l"
    return strength.value


def held(kitchen: Kitchen, local: str = "m") -> dict[str, Fraction]:
    """Grams of each form in a batch."""
    found = kitchen.batches()
    return {i: single(c.grams) for i, c in contents(found[f"r/{local}"], kitchen.archive, found).items()}


def scaled(kitchen: Kitchen, make: str, of: str, unit: str) -> Fraction:
    """How much of one form the plan takes when so much is made, in a unit."""
    target = kitchen.target()
    total = next(t for t in target.totals if t.of == of)
    return from_base(total.amount * factor_of(Make(quantity=q(make)), target), unit)


def per_ounce(kitchen: Kitchen, of: str, local: str, unit: str) -> Fraction:
    """Grains in so much of a mixture."""
    grams = single(kitchen.strength(of, local).g_per_l) * per_unit(unit) / 1000
    return from_base(grams, "grain")


def molarity(formula: str, grams: str, volume: str) -> Fraction:
    """Moles per litre of so much in so much solution."""
    kitchen = Kitchen(form("salt", formula=formula)).mix(contains={"salt": grams, "water": f"to make {volume}"})
    return single(kitchen.strength("salt").mol_per_l)


def volume_for(formula: str, grams: str, strength: str) -> Fraction:
    """Litres of a molar solution that hold so many grams."""
    in_a_litre = g_per_l(strength, formula=formula)
    kitchen = Kitchen(form("salt", formula=formula)).mix(
        contains={"salt": f"{in_a_litre.numerator}/{in_a_litre.denominator} g", "water": "to make 1 l"}
    )
    return factor_of(Have(left=(("salt", q(grams)),)), kitchen.target())


def thinned(stock: str, taken: str, makes: str) -> Fraction:
    """Moles per litre after a molar stock is filled up."""
    grams = g_per_l(stock, formula="NaCl")
    kitchen = Kitchen(form("salt", formula="NaCl"))
    kitchen.mix("stock", {"salt": f"{grams.numerator}/{grams.denominator} g", "water": "to make 1 l"})
    kitchen.mix("m", {"stock": taken, "water": f"to make {makes}"})
    return single(kitchen.strength("salt").mol_per_l)


def reagent_molarity(formula: str, assay: str, density: str) -> Fraction:
    """Moles per litre of a reagent by its label."""
    reagent = form("reagent", state="liquid", formula=formula, assay=f"{assay} w/w", density=density)
    return single(Kitchen(reagent).mix(contains={"reagent": "100 ml"}).strength("reagent").mol_per_l)


def solution(contains: Mapping[str, str], of: str) -> Fraction:
    """Percent w/v of one solid in a solution."""
    kitchen = Kitchen(*(form(key) for key in contains if key != "water")).mix(contains=contains)
    return single(kitchen.strength(of).g_per_l) / 10
