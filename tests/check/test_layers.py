"""Layers of a recipe: their mixtures are found and go where their readers are; order and drying are kept."""

from sitegen.model.archive import Archive
from sitegen.problems import Problem
from tests.golden_cases import run, sound

LAYERS = """layers:
  - name: warm
    coat: bath
    bleach: {in: soda/bleach, for: 10-40 s, look for: Straw.}
    tone: {in: bath, for: 20 min}
stages:"""
SODA = """title: Soda
code: SO-01
summary: Soda.
process: toning
revision: 1
revised: 2026-03-02
credits: own
mixtures:
  bleach: {name: Bleach, contains: {water: 1 l}}
hazards: {wear: Gloves.}
"""


def checked(recipe: str, soda: str = SODA) -> tuple[Archive | None, tuple[Problem, ...]]:
    return run(sound() | {"recipes/recipe.yaml": recipe, "recipes/soda.yaml": soda})


def layered(layers: str = LAYERS) -> str:
    return sound()["recipes/recipe.yaml"].replace("stages:", layers)


def test_a_layer_knows_its_mixtures_wherever_they_are_mixed() -> None:
    archive, problems = checked(layered())
    assert problems == ()
    assert archive is not None
    [layer] = archive.recipe_named["recipe"].layers
    assert layer.bleach is not None
    assert layer.tone is not None
    assert (layer.coat, layer.bleach.mixture, layer.tone.mixture) == ("recipe/bath", "soda/bleach", "recipe/bath")
    assert layer.bleach.look_for == "Straw."


def test_a_mixture_of_a_higher_edition_is_refused_as_in_a_mixture() -> None:
    _, problems = checked(layered(), SODA + "edition: supporters\n")
    assert [p.code for p in problems] == ["edition-too-low"]


def test_a_mixture_that_is_not_there_is_said_with_a_near_one() -> None:
    _, problems = checked(layered(LAYERS.replace("soda/bleach", "soda/bleech")))
    [problem] = problems
    assert (problem.code, problem.help) == ("unknown-mixture", "did you mean `soda/bleach`?")


TWO = """credits: own
layers: [{{name: warm}}, {{name: blue}}]
stages:
  - {{title: One, layer: warm, steps: [{{do: Slide it in.}}]{after}}}
  - {{title: Two, layer: blue, steps: [{{do: Slide it in.}}]}}
rest:"""


def codes(after: str) -> list[str]:
    start = sound()["recipes/recipe.yaml"].partition("stages:")[0]
    return [p.code for p in checked(start + TWO.format(after=after).removesuffix("rest:"))[1]]


def test_a_wait_or_a_check_about_drying_lets_a_layer_dry() -> None:
    assert codes("") == ["layer-on-wet-paper"]
    assert codes(", then wait: 12 h") == []
    assert codes(", checks: [The sheet has dried flat.]") == []
    assert codes(", checks: [The laundry is done.]") == ["layer-on-wet-paper"]


def test_a_stage_between_two_layers_may_do_the_drying() -> None:
    start = sound()["recipes/recipe.yaml"].partition("stages:")[0]
    two = (
        TWO.format(after="")
        .removesuffix("rest:")
        .replace("  - {title: Two", "  - {title: Hang up, steps: [{do: Hang it up.}], then wait: 8 h}\n  - {title: Two")
    )
    assert checked(start + two)[1] == ()
