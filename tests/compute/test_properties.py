"""Laws the arithmetic keeps, over random archives of nested mixtures."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from sitegen.compute.ask import (
    Base,
    Factor,
    Have,
    Make,
    factor_of,
    parse_allowance,
    parse_base,
    parse_factor,
    parse_left,
    parse_sheets,
    parse_tray,
)
from sitegen.compute.batch import Batch, batches
from sitegen.compute.dilute import (
    Concentration,
    dilute_by_parts,
    dilute_to_strength,
    parse_concentration,
)
from sitegen.compute.plan import Target, targets
from sitegen.compute.scale import scale
from sitegen.compute.strength import contents, strengths
from sitegen.compute.whole import compute
from sitegen.model.amount import Absolute, FillUp
from sitegen.model.archive import Archive, Measuring
from sitegen.model.dilution import Dilution, parse_dilution
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Mixture
from sitegen.model.sizes import parse_count
from sitegen.problems import Problems, Refusal
from tests.compute.shelf import Kitchen, answered, form, single
from tests.strategies import archives, factors, odd_text, positive, quantities


def worked_out(archive: Archive) -> tuple[dict[str, Batch], tuple[Target, ...]]:
    """Batches and plans of the archive's one recipe; nothing drawn is refused."""
    problems = Problems()
    found = batches(archive, problems)
    plans = targets(archive.recipes[0], archive, found, problems)
    assert not problems.found
    return found, plans


def _times(quantity: Quantity, factor: Fraction) -> Quantity:
    return replace(quantity, low=quantity.low * factor, high=quantity.high * factor)


def rewritten(mixture: Mixture, factor: Fraction) -> Mixture:
    """The mixture as its author would write it so many times as large."""
    lines = tuple(
        replace(line, amount=replace(line.amount, quantity=_times(line.amount.quantity, factor)))
        if isinstance(line.amount, Absolute | FillUp)
        else line
        for line in mixture.lines
    )
    return replace(mixture, lines=lines, makes=mixture.makes and _times(mixture.makes, factor))


def with_last(archive: Archive, mixture: Mixture) -> Archive:
    """The archive with its last mixture, which nothing else uses, written anew."""
    recipe = archive.recipes[0]
    return replace(archive, recipes=(replace(recipe, mixtures=(*recipe.mixtures[:-1], mixture)),))


def weighed(target: Target, factor: Fraction) -> list[tuple[str, str, Fraction, Fraction]]:
    """Everything that is weighed or poured at a factor, exact."""
    got = scale(target, Factor(times=factor), Measuring())
    return [(m.plan.id, n.line.of, n.low, n.high) for m in got.mixtures for n in m.lines]


@given(archives(), factors, factors)
def test_scaling_by_one_factor_and_then_another_is_scaling_by_both(archive: Archive, a: Fraction, b: Fraction) -> None:
    last = archive.recipes[0].mixtures[-1]
    _, plans = worked_out(archive)
    _, larger = worked_out(with_last(archive, rewritten(last, a)))
    once = next(t for t in plans if t.id == last.id)
    twice = next(t for t in larger if t.id == last.id)
    assert weighed(twice, b) == weighed(once, a * b)


@given(archives(), factors)
def test_making_what_a_factor_makes_is_that_factor(archive: Archive, factor: Fraction) -> None:
    for target in worked_out(archive)[1]:
        made = target.makes * factor
        assert factor_of(Make(quantity=Quantity(low=made, high=made, unit="ml")), target) == factor


@given(archives(), factors)
def test_having_what_a_plan_takes_allows_that_plan(archive: Archive, factor: Fraction) -> None:
    for target in worked_out(archive)[1]:
        for total in target.totals:
            left = total.amount * factor
            unit = "g" if total.kind == "mass" else "ml"
            have = Have(left=((total.of, Quantity(low=left, high=left, unit=unit)),))
            assert factor_of(have, target) == factor


@given(archives())
def test_every_substance_that_goes_in_is_in_the_finished_mixture(archive: Archive) -> None:
    """What the plan has weighed and poured of each form, over all its batches, is what the last one holds."""
    found, plans = worked_out(archive)
    for target in plans:
        went_in = {t.of: t for t in target.totals if t.of in archive.forms}
        held = contents(found[target.id], archive, found)
        assert set(held) == set(went_in)
        for form_id, content in held.items():
            pair = content.grams if went_in[form_id].kind == "mass" else content.millilitres
            assert pair is not None
            assert pair[1] == went_in[form_id].amount


@given(archives())
def test_every_batch_that_is_mixed_is_used_up(archive: Archive) -> None:
    for target in worked_out(archive)[1]:
        used = {t.of: t.amount for t in target.totals}
        for mixed in target.mixtures[:-1]:
            assert used[mixed.id] == mixed.makes


@given(archives())
def test_parts_of_a_recipe_are_mixed_before_what_they_go_into(archive: Archive) -> None:
    for target in worked_out(archive)[1]:
        seen: set[str] = set()
        for mixed in target.mixtures:
            assert {n.of for n in mixed.lines if n.of.startswith("r/")} <= seen
            seen.add(mixed.id)
        assert target.mixtures[-1].id == target.id


@given(archives())
def test_a_strength_does_not_depend_on_the_size_of_the_batch(archive: Archive) -> None:
    last = archive.recipes[0].mixtures[-1]
    larger = with_last(archive, rewritten(last, Fraction(7, 3)))
    first, second = (
        {s.of: s for s in strengths(worked_out(a)[0][last.id], a, worked_out(a)[0])} for a in (archive, larger)
    )
    assert first == second


@given(archives())
def test_a_range_keeps_its_order_through_every_mixture(archive: Archive) -> None:
    found, plans = worked_out(archive)
    for target in plans:
        for strength in strengths(found[target.id], archive, found):
            for pair in (strength.g_per_l, strength.percent_vv, strength.percent_ww, strength.mol_per_l):
                assert pair is None or pair[0] <= pair[1]
        for mixed in scale(target, Factor(times=Fraction(2, 3)), Measuring()).mixtures:
            for line in mixed.lines:
                assert line.low <= line.high
                assert line.shown
                assert Fraction(line.shown.low) <= Fraction(line.shown.high)


@given(archives())
def test_nothing_drawn_makes_a_problem_but_what_cannot_dissolve(archive: Archive) -> None:
    problems = Problems()
    computed = compute(archive, problems)
    assert {p.code for p in problems.found} <= {"over-solubility"}
    assert set(computed.strengths) == {m.id for m in archive.recipes[0].mixtures}


@given(positive(90), positive(90), positive(5000))
def test_what_is_diluted_has_the_strength_that_was_asked(stock: Fraction, to: Fraction, makes: Fraction) -> None:
    assume(to < stock)
    made = Quantity(low=makes, high=makes, unit="ml")
    got = dilute_to_strength(_wv(stock), _wv(to), make=made)
    kitchen = Kitchen(form("salt")).mix("stock", {"salt": f"{stock} % w/v", "water": "to make 100 ml"})
    kitchen.mix("m", {"stock": f"{got.stock.low} ml", "water": f"to make {got.makes.low} ml"})
    assert single(kitchen.strength("salt").g_per_l) == to * 10
    assert got.stock.low + got.diluent.low == got.makes.low


@given(positive(90), positive(90), positive(5000))
def test_having_the_stock_that_was_asked_makes_what_was_asked(stock: Fraction, to: Fraction, makes: Fraction) -> None:
    assume(to < stock)
    made = Quantity(low=makes, high=makes, unit="ml")
    first = dilute_to_strength(_wv(stock), _wv(to), make=made)
    assert dilute_to_strength(_wv(stock), _wv(to), have=first.stock) == first


def _wv(percent: Fraction) -> Concentration:
    return Concentration(value=percent * 10, per="g/l", written=f"{float(percent)} % w/v")


@given(positive(50), positive(50), quantities("volume", single=True))
def test_parts_keep_their_ratio_and_their_sum(stock: Fraction, diluent: Fraction, makes: Quantity) -> None:
    parts = Dilution(stock=stock, diluent=diluent)
    got = dilute_by_parts(parts, make=makes)
    assert got.stock.low * diluent == got.diluent.low * stock
    assert got.stock.low + got.diluent.low == makes.low
    assert dilute_by_parts(parts, have=got.stock) == got


DIMENSIONS = ("length", "time", "temperature", "coverage", "density", "molarity", "drops", "pieces")


@given(st.sampled_from(DIMENSIONS).flatmap(quantities), archives())
def test_a_question_of_another_dimension_is_always_refused(quantity: Quantity, archive: Archive) -> None:
    for target in worked_out(archive)[1]:
        with pytest.raises(Refusal, match="is made by volume"):
            factor_of(Make(quantity=quantity), target)
        with pytest.raises(Refusal):
            factor_of(Base(name="fibre", quantity=quantity), target)
        for total in target.totals:
            with pytest.raises(Refusal):
                factor_of(Have(left=((total.of, quantity),)), target)


@given(quantities("mass"), archives())
def test_a_mass_of_what_is_made_by_volume_is_refused_without_a_density(quantity: Quantity, archive: Archive) -> None:
    for target in worked_out(archive)[1]:
        with pytest.raises(Refusal, match="mass and volume meet only through a density"):
            factor_of(Make(quantity=quantity), target)


@given(st.sampled_from(DIMENSIONS).flatmap(quantities))
def test_only_a_mass_or_a_volume_is_diluted(quantity: Quantity) -> None:
    with pytest.raises(Refusal):
        dilute_by_parts(Dilution(stock=Fraction(1), diluent=Fraction(9)), make=quantity)
    with pytest.raises(Refusal):
        dilute_to_strength(_wv(Fraction(10)), _wv(Fraction(2)), have=quantity)


READERS: tuple[Callable[[str], object], ...] = (
    parse_factor,
    parse_tray,
    parse_allowance,
    parse_left,
    parse_base,
    parse_dilution,
    parse_concentration,
    lambda text: parse_count(text, "sheets"),
    lambda text: parse_sheets(text, coats=text, allowance=Fraction(0)),
    lambda text: parse_sheets("12 of A4", coats="1", allowance=Fraction(0), coverage=text or None),
    lambda text: parse_concentration("37 % w/w", density=text),
    lambda text: parse_concentration("1 mol/l", formula=text),
)


@given(odd_text)
@example("9" * 5000)
@example("1+" + "9" * 5000)
@example("9" * 5000 + "x1x1 cm")
@example("9" * 5000 + " %")
@example("x=" + "9" * 5000 + " g")
def test_any_text_is_a_question_or_refused_and_nothing_else(text: str) -> None:
    for read in READERS:
        answered(read, text)
