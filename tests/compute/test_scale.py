"""Scaling: a plan, a question and the author's measures give what to weigh and pour."""

from dataclasses import replace
from fractions import Fraction

from sitegen.compute.ask import Factor, Make, parse_sheets
from sitegen.compute.scale import Scaled, as_written, scale
from sitegen.model.archive import Measuring
from tests.compute.shelf import Kitchen, form, q

MEASURING = Measuring()


def working() -> Kitchen:
    """A stock and a working solution of it."""
    mixed = Kitchen(form("citrate"), form("gum"))
    mixed.mix("stock", {"citrate": "25 g", "water": "to make 100 ml"}, name="Stock")
    contains = {"stock": "1 part", "water": "1 part", "gum": "2 pieces"}
    return mixed.mix(contains=contains, makes="40 ml", coverage="40-50 ml/m²", name="Working")


def table(scaled: Scaled) -> list[tuple[str, str, list[tuple[str, str]]]]:
    """Each batch's name, how much of it, and each line as it is read."""
    return [
        (m.plan.name, m.shown.text(), [(n.line.key, n.shown.text() if n.shown else "") for n in m.lines])
        for m in scaled.mixtures
    ]


def test_every_batch_is_scaled_and_shown_to_what_can_be_measured() -> None:
    scaled = scale(working().target(), Make(quantity=q("350 ml")), MEASURING)
    assert scaled.factor == Fraction(35, 4)
    assert table(scaled) == [
        ("Stock", "175 ml", [("citrate", "43.8 g"), ("water", "175 ml")]),
        ("Working", "350 ml", [("stock", "175 ml"), ("water", "175 ml"), ("gum", "17.5 pieces")]),
    ]
    assert scaled.mixtures[0].lines[0].low == Fraction("43.75")  # the exact value stays beside what is shown


def test_as_written_is_the_size_the_author_wrote() -> None:
    scaled = as_written(working().target(), MEASURING)
    assert (scaled.factor, scaled.mixtures[-1].makes, scaled.warnings) == (1, 40, ())
    assert table(scaled)[0] == ("Stock", "20 ml", [("citrate", "5 g"), ("water", "20 ml")])


def test_what_is_not_scaled_keeps_its_words() -> None:
    mixed = Kitchen(form("acid")).mix(contains={"acid": "to pH 4", "water": "to make 1 l"})
    line = scale(mixed.target(), Factor(times=Fraction(9)), MEASURING).mixtures[0].lines[0]
    assert (line.shown, line.line.written, line.notes[0].text()) == (None, "to pH 4", "not scaled")


def test_other_measures_can_be_asked_for() -> None:
    scaled = scale(working().target(), Make(quantity=q("8 fl oz US")), MEASURING, system="US")
    assert table(scaled)[1] == (
        "Working",
        "8 fl oz US",
        [("stock", "4 fl oz US"), ("water", "4 fl oz US"), ("gum", "11.8 pieces")],
    )


def test_a_base_is_shown_by_its_weight() -> None:
    target = Kitchen(form("alum")).mix(contains={"alum": "12 % of fibre"}).target()
    assert as_written(target, MEASURING).mixtures[0].shown.text() == "100 g"


def test_warnings_name_the_upper_coverage_the_estimate_and_the_recipes_own() -> None:
    sheets = parse_sheets("1 of 24x30 cm", coats="1", allowance=Fraction(0))
    scaled = scale(working().target(), sheets, MEASURING, warnings=("mind the glass",))
    assert scaled.warnings == (
        "coverage is 40–50 ml/m²: this is mixed for the upper end",
        "Working: its volume is an estimate, since volumes do not add up exactly",
        "mind the glass",
    )


def test_a_single_coverage_needs_no_warning() -> None:
    sheets = parse_sheets("1 of 24x30 cm", coats="1", allowance=Fraction(0), coverage="40 ml/m²")
    assert scale(working().target("stock"), sheets, MEASURING).warnings == ()
    twice = replace(working().target("stock"), again="mix it again for the second wash")
    assert scale(twice, sheets, MEASURING).warnings == ("mix it again for the second wash",)
