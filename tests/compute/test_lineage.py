"""Beside the parent: proportions, forms by moles, and nothing said where nothing is known."""

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from chemicals import molecular_weight, nested_formula_parser
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.difference import ratio_text
from sitegen.compute.lineage import Compared, Lineage, compare, lineage
from sitegen.compute.whole import Computed, compute
from sitegen.model.archive import Archive, Process, Settings
from sitegen.model.origin import Parent
from sitegen.model.recipe import Mixture
from sitegen.problems import Problems
from tests.compute.shelf import WATER, card, form, mixture, recipe_of

SODA = card(
    form("soda-anhydrous", formula="Na2CO3"),
    form("soda-decahydrate", formula="Na2CO3.10H2O"),
    id_="soda",
)
CITRATE = card(form("citrate-green"), form("citrate-brown"), id_="citrate")
SALT = card(form("salt", formula="NaCl"))
FERRI = card(form("ferricyanide", formula="K3[Fe(CN)6]"))
BARK = card(form("bark", state="plant"))
OIL = card(form("oil", state="liquid"))
CARDS = (SODA, CITRATE, SALT, FERRI, BARK, OIL, card(WATER))
KNOWN = frozenset(f.id for c in CARDS for f in c.forms)


def mixed(local: str, contains: dict[str, str], slug: str = "r", **more: Any) -> Mixture:
    made = mixture(local, contains, KNOWN, **more)
    lines = tuple(
        replace(one, mixture=one.mixture.replace("r/", f"{slug}/", 1) if one.mixture else "") for one in made.lines
    )
    return replace(made, id=f"{slug}/{local}", lines=lines)


def worked(parent: tuple[Mixture, ...], own: tuple[Mixture, ...]) -> tuple[Computed, Lineage]:
    first = recipe_of(*parent, slug="p", code="TE-01")
    second = recipe_of(*own, slug="o", code="TE-02", derived_from=Parent(recipe="p", changes="Less."))
    problems = Problems()
    settings = Settings(title="test", processes=(Process(id="test", name="Test"),))
    computed = compute(Archive(settings=settings, recipes=(first, second), substances=CARDS), problems)
    assert not problems.failed
    return computed, lineage(second, first, computed)


def beside(parent: dict[str, str], own: dict[str, str], **more: Any) -> Compared:
    _, found = worked((mixed("m", parent, "p", **more),), (mixed("m", own, "o", **more),))
    (one,) = found.mixtures
    return one


def said(one: Compared) -> list[tuple[str, str, str, str]]:
    return [(r.of, r.was, r.then, r.difference.text() or r.difference.verdict) for r in one.rows]


def test_the_four_published_pairs_of_the_blue_print_differ_as_their_figures_do() -> None:
    """Grams in 100 ml of parts A and B: 20/8, 20/15, 25/10, 25/15, each printed as the usual recipe."""
    pairs = [(20, 8), (20, 15), (25, 10), (25, 15)]
    for iron, ferri in pairs:
        for other_iron, other_ferri in pairs:
            parent, own = (
                tuple(
                    mixed(name, {what: f"{grams} g", "water": "to make 100 ml"}, slug)
                    for name, what, grams in (("a", "citrate-green", a), ("b", "ferricyanide", b))
                )
                for slug, a, b in (("p", iron, ferri), ("o", other_iron, other_ferri))
            )
            _, found = worked(parent, own)
            ratios = [m.rows[0].difference.ratio for m in found.mixtures]
            assert ratios == [
                (Fraction(other_iron, iron),) * 2,
                (Fraction(other_ferri, ferri),) * 2,
            ]
    assert [ratio_text(Fraction(*r)) for r in ((25, 20), (15, 8), (15, 10), (8, 15))] == [
        "+25 %", "+87.5 %", "+50 %", "−46.7 %",
    ]  # fmt: skip


def test_two_hydrates_are_compared_by_molar_mass() -> None:
    """The factor by the `chemicals` library's atomic weights; 106.0 g and 286.1 g are a mole each."""
    one = beside(
        {"soda-anhydrous": "10 g", "water": "to make 1 l"}, {"soda-decahydrate": "27 g", "water": "to make 1 l"}
    )
    (row,) = one.rows
    dry = molecular_weight(nested_formula_parser("Na2CO3"))
    wet = dry + 10 * molecular_weight(nested_formula_parser("H2O"))
    assert row.difference.ratio
    assert float(row.difference.ratio[0]) == pytest.approx(27 / wet * dry / 10, rel=1e-4)
    assert "molar mass" in row.note
    assert (row.was, row.then) == ("10 g soda anhydrous", "27 g soda decahydrate")


def test_forms_without_a_formula_stand_there_and_are_not_compared() -> None:
    one = beside({"citrate-green": "10 g", "water": "to make 1 l"}, {"citrate-brown": "10 g", "water": "to make 1 l"})
    (row,) = one.rows
    assert (row.difference.verdict, row.difference.ratio) == ("not compared", None)
    assert row.difference.why
    assert (row.was, row.then) == ("10 g citrate green", "10 g citrate brown")


def test_a_volume_beside_a_weight_is_not_compared_without_a_density() -> None:
    one = beside({"oil": "10 ml", "water": "to make 1 l"}, {"oil": "10 g", "water": "to make 1 l"})
    assert one.rows[0].difference.verdict == "not compared"
    assert "density" in one.rows[0].difference.why


def test_mixtures_measured_in_two_ways_say_why_they_are_not_compared() -> None:
    _, found = worked(
        (mixed("m", {"salt": "10 g", "water": "to make 1 l"}, "p"),),
        (mixed("m", {"salt": "10 g", "bark": "90 g"}, "o"),),
    )
    (one,) = found.mixtures
    assert one.rows == ()
    assert one.refused == (
        "the parent's is made by volume, this one by weight, and no density tells the one from the other"
    )


def test_a_working_mixture_split_otherwise_is_compared_by_what_a_litre_holds() -> None:
    stock = mixed("stock", {"salt": "100 g", "water": "to make 1 l"}, "p")
    parent = (stock, mixed("work", {"stock": "1 part", "water": "1 part"}, "p"))
    own = (mixed("work", {"salt": "25 g", "water": "to make 1 l"}, "o"),)
    _, found = worked(parent, own)
    (one,) = found.mixtures
    assert said(one) == [("salt", "50 g", "25 g", "÷ 2")]
    assert one.estimate
    assert [m.local for m in found.left_out] == ["stock"]


def test_a_mixture_taken_from_the_parent_is_not_left_out() -> None:
    parent = (mixed("stock", {"salt": "100 g", "water": "to make 1 l"}, "p"),)
    own = (mixed("work", {"p/stock": "1 part", "water": "9 parts"}, "o"),)
    _, found = worked(parent, own)
    assert ([m.local for m in found.taken_over], found.left_out) == (["stock"], ())
    assert [m.local for m in found.added] == ["work"]


def test_what_one_of_the_two_lacks_is_named() -> None:
    one = beside({"salt": "10 g", "water": "to make 1 l"}, {"ferricyanide": "5 g", "water": "to make 1 l"})
    assert said(one) == [("salt", "10 g", "", "left out"), ("ferricyanide", "", "5 g", "not there before")]


def test_a_dye_is_compared_by_its_base_and_parts_by_a_hundred_of_them() -> None:
    dye = beside(
        {"bark": "50 % of fibre", "water": "30 times fibre"}, {"bark": "100 % of fibre", "water": "30 times fibre"}
    )
    assert (dye.basis, dye.base, said(dye)[0]) == ("base", "fibre", ("bark", "50 g", "100 g", "× 2"))
    paste = beside(
        {"salt": "1 part by weight", "bark": "3 parts by weight"},
        {"salt": "1 part by weight", "bark": "1 part by weight"},
    )
    assert (paste.basis, said(paste)[0]) == ("parts", ("salt", "25 parts", "50 parts", "× 2"))
    assert not paste.estimate


GRAMS = st.fractions(min_value=Fraction(1, 10), max_value=200, max_denominator=20)
PAIR = st.tuples(GRAMS, GRAMS)


def bath(salt: Fraction, soda: Fraction, slug: str, times: Fraction = Fraction(1)) -> Mixture:
    contains = {
        "salt": f"{salt * times} g",
        "soda-anhydrous": f"{soda * times} g",
        "water": f"to make {1000 * times} ml",
    }
    return mixed("m", contains, slug)


@given(amounts=PAIR, times=st.fractions(min_value=Fraction(1, 10), max_value=50, max_denominator=20))
def test_a_recipe_beside_itself_at_any_size_differs_in_nothing(
    amounts: tuple[Fraction, Fraction], times: Fraction
) -> None:
    _, found = worked((bath(*amounts, "p", times),), (bath(*amounts, "o"),))
    assert not any(one.differs for one in found.mixtures)
    assert (found.added, found.left_out) == ((), ())


@given(amounts=PAIR)
def test_a_doubled_ingredient_is_said_to_be_doubled(amounts: tuple[Fraction, Fraction]) -> None:
    salt, soda = amounts
    _, found = worked((bath(salt, soda, "p"),), (bath(2 * salt, soda, "o"),))
    first, second = found.mixtures[0].rows
    assert (first.difference.ratio, first.difference.text()) == ((Fraction(2), Fraction(2)), "× 2")
    assert second.difference.verdict == "same"


@given(before=PAIR, after=PAIR)
def test_a_difference_turns_round_when_the_two_change_places(
    before: tuple[Fraction, Fraction], after: tuple[Fraction, Fraction]
) -> None:
    parent, own = bath(*before, "p"), bath(*after, "o")
    computed, there = worked((parent,), (own,))
    back = compare(own, parent, computed)
    for row, turned in zip(there.mixtures[0].rows, back.rows, strict=True):
        assert (row.was, row.then) == (turned.then, turned.was)
        assert row.difference.ratio
        assert turned.difference.ratio
        assert row.difference.ratio[0] * turned.difference.ratio[0] == 1
