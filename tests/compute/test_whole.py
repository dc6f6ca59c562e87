"""The whole: plans, strengths and warnings of a checked archive, and the problems they find."""

from sitegen.compute.whole import compute
from sitegen.problems import Problems
from tests.compute.shelf import Kitchen, base_card, card, form


def test_computes_every_mixture_of_every_recipe() -> None:
    mixed = Kitchen(form("citrate")).mix("a", {"citrate": "25 g", "water": "to make 100 ml"})
    mixed.mix("m", {"a": "1 part", "water": "1 part"})
    problems = Problems()
    computed = compute(mixed.archive, problems)
    assert [t.local for t in computed.targets["r"]] == ["m", "a"]
    assert [s.shown for s in computed.strengths["r/m"]] == [("125 g/l", "12.5 % w/v")]
    assert (computed.warnings, problems.found) == ({"r": ()}, [])


def test_warns_where_it_is_written_and_wherever_it_is_scaled() -> None:
    """D14: 2.76 kg of copper sulfate crystals in 1.45 l is arithmetic, but no solution."""
    copper = base_card("copper-sulfate")
    mixed = Kitchen(copper).mix(
        contains={"copper-sulfate-pentahydrate": "2.76 kg", "water": "to make 1.45 l"}, name="Etch"
    )
    problems = Problems()
    computed = compute(mixed.archive, problems)
    words = (
        "copper sulfate, pentahydrate: 122 g per 100 ml (as copper sulfate, anhydrous) is over the "
        "20.1 g that dissolve at 20 °C"
    )
    (problem,) = problems.found
    assert (problem.code, problem.level, problem.message) == (
        "over-solubility",
        "warning",
        "`m` holds more than dissolves",
    )
    assert problem.notes == (words,)
    assert problem.help == "raise the volume, warm it, or name another form; check the form that is meant"
    assert computed.warnings["r"] == (f"Etch: {words}",)
    assert not problems.failed


def test_a_mixture_that_cannot_be_worked_out_is_reported_once_and_left_out() -> None:
    mixed = Kitchen(card(form("citrate"), limit="1 g")).mix("bad", {"citrate": "2 % w/v", "water": "100 ml"})
    mixed.mix("m", {"bad": "10 ml", "water": "to make 1 l"})
    problems = Problems()
    computed = compute(mixed.archive, problems)
    assert [p.code for p in problems.found] == ["makes-missing"]
    assert (computed.targets["r"], computed.strengths) == ((), {})


def test_a_stock_that_cannot_be_poured_has_no_strength_either() -> None:
    mixed = Kitchen(form("citrate")).mix("a", {"citrate": "25 g", "water": "to make 100 ml"})
    mixed.mix("m", {"a": "10 g", "water": "to make 1 l"})
    problems = Problems()
    computed = compute(mixed.archive, problems)
    assert [p.code for p in problems.found] == ["mixture-needs-density"]
    assert list(computed.strengths) == ["r/a"]
