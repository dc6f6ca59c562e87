"""Dilutions beside their stock's table against the program, with random figures."""

import random
from fractions import Fraction

import pytest

from sitegen.compute.dilute import dilute_by_parts, dilute_to_strength, parse_concentration
from sitegen.compute.rounding import to_figures
from sitegen.compute.strength import Strength
from sitegen.compute.whole import Computed
from sitegen.model.dilution import parse_dilution
from sitegen.model.quantity import exact_number, exact_text
from tests.browser.conftest import Open
from tests.browser.sums import Fields, Shelf, amount, answers, asked, system_of


@pytest.fixture
def shelf(computed: Computed) -> Shelf:
    return Shelf(computed)


def test_a_stock_is_diluted_beside_its_table(visit: Open, computed: Computed, shelf: Shelf) -> None:
    """By parts, and to a strength of each substance the stock holds, in each unit that is known."""
    dice = random.Random(40)
    stocks = [m for m in computed.archive.mixtures.values() if m.dilute]
    assert stocks
    for stock in stocks:
        page = visit(f"recipes/{stock.id.partition('/')[0]}/index.html")
        form = f'[data-dilute="{stock.id}"] form'
        by_parts = [
            {"how": "parts", "parts": f"{d.stock}+{d.diluent}", **amount(dice, "volume", "mass")} for d in stock.dilute
        ]
        for fields, found in zip(by_parts, answers(page, form, by_parts), strict=True):
            diluted = dilute_by_parts(parse_dilution(fields["parts"]), **asked(fields))
            assert found["parts"] == shelf.parts(diluted, system_of(fields)), fields
        to_strengths = [q for s in computed.strengths[stock.id] for q in strengths_to_ask(s, dice)]
        for (fields, ends), found in zip(to_strengths, answers(page, form, [f for f, _ in to_strengths]), strict=True):
            assert found["parts"] == from_range(fields, ends, shelf), fields
        page.close()


def strengths_to_ask(strength: Strength, dice: random.Random) -> list[tuple[Fields, tuple[Fraction, Fraction]]]:
    """Questions to a stock, each with the stock's own strength in the unit of the question."""
    kinds = {"g/l": strength.g_per_l, "% v/v": strength.percent_vv, "mol/l": strength.mol_per_l}
    if strength.g_per_l:
        kinds["% w/v"] = (strength.g_per_l[0] / 10, strength.g_per_l[1] / 10)
    asked = []
    for unit, ends in kinds.items():
        if ends:
            to = to_figures(ends[0] * Fraction(dice.randint(1, 99), 100), 2)
            fields = {"how": "strength", "of": strength.of, "strength-unit": unit, "strength": exact_text(to)}
            asked.append((fields | amount(dice, "volume"), ends))
    return asked


def from_range(fields: Fields, ends: tuple[Fraction, Fraction], shelf: Shelf) -> Fields:
    """The program knows single strengths: ask it with both ends of the stock's, and put them together."""
    unit = fields["strength-unit"]
    to = parse_concentration(f"{fields['strength']} {unit}")
    both = [dilute_to_strength(parse_concentration(f"{exact_number(end)} {unit}"), to, **asked(fields)) for end in ends]
    parts = {}
    for name, pick in (("stock", "stock"), ("diluent", "diluent"), ("total", "makes")):
        values = sorted(getattr(diluted, pick).base()[0] for diluted in both)
        parts[name] = shelf.text(values[0], values[1], "volume", system_of(fields))
    return parts


def test_a_stock_is_not_diluted_to_more_than_it_holds(visit: Open, computed: Computed) -> None:
    page = visit("recipes/stocks/index.html")
    stock = next(m for m in computed.archive.mixtures.values() if m.dilute and m.id.startswith("stocks/"))
    fields = {"how": "strength", "strength-unit": "g/l", "strength": "5000", "amount": "500", "measures": "metric"}
    [found] = answers(page, f'[data-dilute="{stock.id}"] form', [fields])
    assert "is stronger than the stock" in found["refused"]
