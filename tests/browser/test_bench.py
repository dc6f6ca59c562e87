"""The sums of the bench against the program, with random figures."""

import random
from fractions import Fraction
from functools import partial

import pytest

from sitegen.compute.ask import coating, parse_allowance, parse_sheets, parse_tray
from sitegen.compute.dilute import Diluted, dilute_by_parts, dilute_to_strength, parse_concentration
from sitegen.compute.plan import Target
from sitegen.compute.rounding import System, to_figures
from sitegen.compute.swap import Swap, swaps
from sitegen.compute.whole import Computed
from sitegen.model.dilution import parse_dilution
from sitegen.model.quantity import exact_number, exact_text, format_quantity, parse_quantity
from sitegen.problems import Refusal
from tests.browser.asking import SYSTEMS, UNITS_OF, number
from tests.browser.conftest import Open
from tests.browser.sums import Fields, Shelf, amount, answers, asked, or_refusal, plain, sum_form, system_of, typed

BENCH = "bench/index.html"


@pytest.fixture
def shelf(computed: Computed) -> Shelf:
    return Shelf(computed)


def test_parts_come_out_as_in_the_program(visit: Open, shelf: Shelf) -> None:
    dice = random.Random(19)
    questions = []
    for _ in range(100):
        parts = f"{dice.randint(1, 9)}+{exact_number(Fraction(dice.randint(1, 400), dice.choice((1, 2, 10))))}"
        questions.append({"parts": parts, **amount(dice, "mass", "volume")})
    for fields, found in zip(questions, answers(visit(BENCH), sum_form("parts"), questions), strict=True):
        diluted = dilute_by_parts(parse_dilution(fields["parts"]), **asked(fields))
        assert (found["parts"], found["said"]) == (
            shelf.parts(diluted, system_of(fields)), list(diluted.warnings),
        ), fields  # fmt: skip
        assert found["refused"] == ""


@pytest.mark.parametrize("parts", ["1:10", "9", "0+9", "1+0", "1+x", "1,5+9", "+"])
def test_parts_that_cannot_be_read_are_refused_as_in_the_program(parts: str, visit: Open) -> None:
    fields = {"parts": parts, "amount": "500", "measures": "metric"}
    [found] = answers(visit(BENCH), sum_form("parts"), [fields])
    with pytest.raises(Refusal) as said:
        parse_dilution(parts)
    assert found["refused"] == f"{said.value.message}: {said.value.help}".replace("`", "")
    assert found["parts"] == {}


STRENGTHS = ("% w/v", "g/l", "% v/v", "% w/w", "mol/l")


def test_strengths_come_out_as_in_the_program(visit: Open, shelf: Shelf) -> None:
    """Every pair of kinds, with and without a density and a substance; refusals too."""
    dice = random.Random(3646)
    pairs = [(stock, to) for stock in STRENGTHS for to in STRENGTHS for _ in range(12)]
    questions = [
        {
            "stock": exact_number(Fraction(dice.randint(20, 1200), 10)),
            "stock-unit": stock,
            "to": exact_number(Fraction(dice.randint(1, 300), 10)),
            "to-unit": to,
            "density": dice.choice(["", "1.18"]),
            "substance": dice.choice(["", "hydrochloric acid", "HCl"]),
            **amount(dice, "volume", "volume", "mass"),
        }
        for stock, to in pairs
    ]
    refused = 0
    for fields, found in zip(questions, answers(visit(BENCH), sum_form("strength"), questions), strict=True):
        diluted = or_refusal(partial(strength_in_python, fields))
        if isinstance(diluted, Refusal):
            refused += 1
            as_typed = plain(diluted).replace(format_quantity(*asked(fields).values()), typed(fields))
            assert found["refused"].startswith(as_typed), fields
            assert found["parts"] == {}
        else:
            assert found["parts"] == shelf.parts(diluted, system_of(fields)), fields
            assert set(diluted.warnings) <= set(found["said"])
    assert 50 < refused < len(questions) - 50


def strength_in_python(fields: Fields) -> Diluted:
    kinds = [STRENGTHS.index(fields[name]) for name in ("stock-unit", "to-unit")]
    # The page asks for a density or a substance only where two kinds are to meet.
    differ = kinds[0] != kinds[1] and kinds not in ([0, 1], [1, 0])
    of = [fields["stock-unit"], fields["to-unit"]]
    density = f"{fields['density']} g/ml" if differ and of[0] == "% w/w" and fields["density"] else ""
    formula = "HCl" if differ and "mol/l" in of and fields["substance"] else ""
    stock = parse_concentration(f"{fields['stock']} {fields['stock-unit']}", density=density, formula=formula)
    to = parse_concentration(f"{fields['to']} {fields['to-unit']}", formula=formula)
    return dilute_to_strength(stock, to, **asked(fields))


SWAPS = [
    ("washing soda", "sodium carbonate, anhydrous"),
    ("sodium carbonate", "soda ash"),
    ("sodium carbonate", "sodium carbonate"),
    ("ferric ammonium citrate, green", "ferric ammonium citrate, brown"),
    ("potassium bromide", "sodium bromide"),
    ("KBr", "ammonium-bromide"),
    ("acetic acid", "vinegar"),
    ("gum arabic", "potassium bromide"),
    ("no such thing", "potassium bromide"),
    ("citric acid", "Citric-Acid"),
]


def test_swaps_come_out_as_in_the_program(visit: Open, computed: Computed, shelf: Shelf) -> None:
    """Household names, ids and formulas; names that do not tell the form give every answer."""
    dice = random.Random(2861414)
    names = [name for card in computed.archive.substances for name in card.names()]
    pairs = [*SWAPS, *((dice.choice(names), dice.choice(names)) for _ in range(80)), *related(computed, dice)]
    questions = [
        {"wanted": wanted, "jar": jar, "amount": number(dice), "measures": dice.choice(SYSTEMS),
         "unit": dice.choice(UNITS_OF[dice.choice(("mass", "mass", "volume"))])}
        for wanted, jar in pairs
    ]  # fmt: skip
    answered = 0
    for fields, found in zip(questions, answers(visit(BENCH), sum_form("swap"), questions), strict=True):
        quantity = parse_quantity(typed(fields))
        said = or_refusal(partial(swaps, quantity, fields["wanted"], fields["jar"], computed.archive))
        if isinstance(said, Refusal):
            assert found["refused"].startswith(plain(said)), fields
            assert found["swaps"] == []
            continue
        answered += 1
        assert found["swaps"] == [swap_words(one, shelf, system_of(fields)) for one in said], fields
        assert bool(found["said"]) == (len(said) > 1)
    assert answered > 100


def swap_words(swap: Swap, shelf: Shelf, system: System) -> list[str]:
    amount = shelf.quantity(swap.answer, system)
    return [swap.wanted.id, swap.in_jar.id, amount, factor(swap.factor), *swap.warnings]


def related(computed: Computed, dice: random.Random) -> list[tuple[str, str]]:
    """Two names of one substance each, so that most can be answered."""
    cards = [card for card in computed.archive.substances if len(card.forms) > 1]
    return [(dice.choice(card.names()), dice.choice(card.names())) for card in cards for _ in range(4)]


def factor(pair: tuple[Fraction, Fraction]) -> str:
    low, high = (exact_text(to_figures(value, 4)) for value in pair)
    return low if pair[0] == pair[1] else f"{low}–{high}"


def test_trays_and_sheets_come_out_as_in_the_program(visit: Open, shelf: Shelf, computed: Computed) -> None:
    dice = random.Random(64)
    page = visit(BENCH)
    trays, coats = [], []
    for _ in range(60):
        sides = [number(dice) for _ in range(3)]
        tray = {**dict(zip(("tray-long", "tray-wide", "depth"), sides, strict=True)), "measures": "metric"}
        trays.append({**tray, "tray-unit": dice.choice(UNITS_OF["length"])})
        coats.append(
            {"sheets": str(dice.randint(1, 30)), "long": number(dice), "wide": number(dice), "measures": "imp",
             "size-unit": dice.choice(UNITS_OF["length"]), "coats": str(dice.randint(1, 3)),
             "coverage": number(dice), "coverage-unit": dice.choice(UNITS_OF["coverage"]),
             "extra": str(dice.randint(0, 300))}
        )  # fmt: skip
    for fields, found in zip(trays, answers(page, sum_form("tray"), trays), strict=True):
        tray_ = parse_tray(f"{fields['tray-long']}x{fields['tray-wide']}x{fields['depth']} {fields['tray-unit']}")
        volume = tray_.length * tray_.width * tray_.depth / 1000
        assert found["parts"] == {"total": shelf.text(volume, volume, "volume", "metric")}, fields
    target = computed.targets["iron-blue"][0]
    for fields, found in zip(coats, answers(page, sum_form("sheets"), coats), strict=True):
        volume = coated(fields, target)
        assert found["parts"] == {"total": shelf.text(volume, volume, "volume", "imp")}, fields


def coated(fields: Fields, target: Target) -> Fraction:
    sheets = parse_sheets(
        f"{fields['sheets']} of {fields['long']}x{fields['wide']} {fields['size-unit']}",
        coats=fields["coats"],
        allowance=parse_allowance(f"{fields['extra']} %"),
        coverage=f"{fields['coverage']} {fields['coverage-unit']}",
    )
    return coating(sheets, target)
