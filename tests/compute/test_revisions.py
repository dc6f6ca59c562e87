"""Revisions: each figure became what the next revision found, else what the recipe says today."""

from fractions import Fraction

from sitegen.compute.difference import of_quantities
from sitegen.compute.revisions import revisions
from sitegen.model.quantity import Quantity
from tests.golden_cases import run, sound

RECIPE = "recipes/recipe.yaml"


def changed(changes: str) -> tuple[list[tuple[int, str, str]], list[str]]:
    text = sound()[RECIPE] + changes
    archive, problems = run(sound() | {RECIPE: text})
    assert archive is not None
    if problems:
        return [], [p.code for p in problems]
    recipe = archive.recipe_named["recipe"]
    found = revisions(recipe, archive)
    return [(r.change.revision, row.name, row.difference.text()) for r in found for row in r.rows], []


def test_figures_are_chained_from_revision_to_revision() -> None:
    rows, _ = changed(
        "changes:\n"
        "  - {revision: 2, what: More., before: {amounts: {sodium-carbonate-anhydrous: 5 g}, times: {Tone/1: 8 min}}}\n"
        "  - {revision: 3, what: More., before: {amounts: {bath/sodium-carbonate-anhydrous: 8 g}}}\n"
    )
    assert rows == [
        (3, "sodium carbonate, anhydrous in Soda bath", "+25 %"),
        (2, "sodium carbonate, anhydrous in Soda bath", "+60 %"),
        (2, "Tone, step 1, time", "÷ 4 at the lower end, ÷ 2.67 at the upper"),
    ]


def test_what_was_not_there_is_none() -> None:
    rows, _ = changed("changes: [{revision: 3, what: New., before: {amounts: {sodium-carbonate: none}}}]\n")
    assert rows == [(3, "sodium carbonate, anhydrous in Soda bath", "not there before")]


def test_names_and_dimensions_of_what_was_are_checked() -> None:
    for before, code in (
        ("amounts: {sodium-carbonat: 5 g}", "unknown-amount"),
        ("amounts: {bath: 5 g}", "unknown-amount"),
        ("amounts: {sodium-carbonate: 5 min}", "wrong-dimension"),
        ("times: {Ton/1: 5 min}", "unknown-step"),
        ("times: {Tone: 5 min}", "unknown-step"),
        ("times: {Tone/1: 5 g}", "wrong-dimension"),
        ("times: {Tone/1: 2-3 min}", "before-unchanged"),
    ):
        _, codes = changed(f"changes: [{{revision: 3, what: So., before: {{{before}}}}}]\n")
        assert codes == [code], before


def test_temperatures_differ_by_degrees() -> None:
    from_, to = (Quantity(low=Fraction(t), high=Fraction(t), unit="°C") for t in (18, 22))
    assert of_quantities(from_, to).text() == "+4 °C"
    assert of_quantities(to, from_).text() == "−4 °C"
