"""Fitting a film to shrunk paper on the bench comes out as in the program, with random figures."""

import random
from fractions import Fraction
from functools import partial

from sitegen.compute.shrink import measured_shrink, millimetres, percent
from sitegen.model.quantity import exact_number, parse_quantity
from sitegen.problems import Refusal
from tests.browser.asking import SYSTEMS, UNITS_OF
from tests.browser.conftest import Open
from tests.browser.sums import Fields, answers, or_refusal, plain, sum_form


def question(dice: random.Random) -> Fields:
    before = Fraction(dice.randint(200, 9000), dice.choice((1, 10, 100)))
    after = before * Fraction(dice.randint(860, 1010), 1000)
    return {
        "before": exact_number(before),
        "after": exact_number(after),
        "side": exact_number(Fraction(dice.randint(30, 6000), 10)),
        "fit-unit": dice.choice(UNITS_OF["length"]),
        "measures": dice.choice(SYSTEMS),
    }


def test_fitted_films_come_out_as_in_the_program(visit: Open) -> None:
    dice = random.Random(111)
    questions = [question(dice) for _ in range(150)]
    refused = 0
    for fields, found in zip(questions, answers(visit("bench/index.html"), sum_form("fit"), questions), strict=True):
        before, after, side = (
            parse_quantity(f"{fields[name]} {fields['fit-unit']}").base()[0] for name in ("before", "after", "side")
        )
        share = or_refusal(partial(measured_shrink, before, after))
        if isinstance(share, Refusal):
            refused += 1
            assert found["refused"].startswith(plain(share)), fields
            assert found["parts"] == {}
            continue
        fitted = side * (1 - share)
        assert found["parts"] == {
            "shrink": f"{percent(share)} %",
            "fitted": f"{millimetres(fitted)} mm",
            "miss": f"{millimetres(side - fitted)} mm",
        }, fields
    assert 20 < refused < 100


def test_a_sheet_of_thirty_centimetres_misses_by_a_millimetre(visit: Open) -> None:
    # B112 of the dossier: 0.33 % of 300 mm is 1.0 mm.
    fields = {"before": "300", "after": "299", "side": "300", "fit-unit": "mm", "measures": "metric"}
    [found] = answers(visit("bench/index.html"), sum_form("fit"), [fields])
    assert found["parts"] == {"shrink": "0.33 %", "fitted": "299 mm", "miss": "1 mm"}
