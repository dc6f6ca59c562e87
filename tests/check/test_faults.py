"""One mistake, one report: what follows from a mistake that is told already is not told again."""

import pytest

from tests.golden_cases import run, sound

RECIPE = "recipes/recipe.yaml"


def told(old: str, new: str) -> list[tuple[str, str]]:
    """Codes and helps for the sound archive with one text of its recipe changed."""
    texts = sound()
    assert old in texts[RECIPE]
    found = run(texts | {RECIPE: texts[RECIPE].replace(old, new, 1)})[1]
    return [(problem.code, problem.help) for problem in found]


@pytest.mark.parametrize(("old", "new", "name"), [("code:", "cod:", "code"), ("title:", "titel:", "title")])
def test_a_misspelt_name_is_not_missing_as_well(old: str, new: str, name: str) -> None:
    assert told(old, new) == [("unknown-field", f"did you mean `{name}`?")]


def test_lines_that_are_not_indented_enough_are_one_mistake() -> None:
    text = sound()[RECIPE]
    start = text.index("contains:\n") + len("contains:\n")
    lines = text[start:].split("    keeps:")[0]
    assert told(lines, lines.replace("      ", "    ")) == [
        ("nothing-here", "indent the lines that belong to it by two more spaces")
    ]


def test_an_unknown_field_below_one_that_may_be_empty_is_still_told() -> None:
    assert [code for code, _ in told("    keeps: 6-12 months", "    keeps:\n    shelf: 3")] == ["unknown-field"]


def test_the_card_offered_for_an_unknown_substance_is_sound_and_claims_nothing() -> None:
    old = "sodium-carbonate-anhydrous: 10 g"
    ((code, remedy),) = told(old, "Mühlen kelp: 10 g")
    first, _, card = remedy.partition("\n")
    assert code == "unknown-ingredient"
    assert first.startswith("write `muehlen-kelp` here, and save this as `substances/muehlen-kelp.yaml`")
    recipe = sound()[RECIPE].replace(old, "muehlen-kelp: 10 g")
    archive, problems = run(sound() | {RECIPE: recipe, "substances/muehlen-kelp.yaml": card})
    assert archive is not None
    assert not [problem for problem in problems if problem.level == "error"]
    assert "no data" in card


def test_a_mixture_that_has_its_ingredients_name_is_not_made_from_itself_as_well() -> None:
    assert told("  bath:", "  sodium-carbonate-anhydrous:") == [("name-clash", "give the mixture another short name")]
