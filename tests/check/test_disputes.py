"""Shared disputes: drawn into the recipes of their processes, unless a recipe has its own about the same."""

import re

import pytest

from sitegen.model.recipe import Recipe
from tests.golden_cases import run, sound

SIDES = "claims: [{says: A day., source: One book}, {says: A year., source: Another book}]"
SHARED = f"about: How long it keeps\nprocesses: [toning]\n{SIDES}\n"
OWN = """disputes:
  - about: how long it keeps
    claims: [{says: A week., source: A third book}, {says: For ever., source: A fourth}]
    here: A month.
"""


def with_shared(text: str, recipe: str = "", name: str = "how-long-it-keeps") -> dict[str, str]:
    texts = sound()
    texts["recipes/recipe.yaml"] += recipe
    return texts | {f"disputes/{name}.yaml": text}


def drawn(texts: dict[str, str]) -> Recipe:
    archive, problems = run(texts)
    assert problems == ()
    assert archive
    return archive.recipes[0]


def test_a_shared_dispute_is_drawn_into_the_recipes_of_its_process() -> None:
    (dispute,) = drawn(with_shared(SHARED)).disputes
    assert (dispute.id, dispute.shared, dispute.here) == ("how-long-it-keeps", True, "")
    assert [(claim.says, claim.source) for claim in dispute.claims] == [
        ("A day.", "One book"),
        ("A year.", "Another book"),
    ]


def test_a_recipe_keeps_its_own_about_the_same() -> None:
    (dispute,) = drawn(with_shared(SHARED, OWN)).disputes
    assert (dispute.shared, dispute.here) == (False, "A month.")


@pytest.mark.parametrize(
    ("code", "text", "line"),
    [
        ("unknown-process", SHARED.replace("[toning]", "[toning, tonning]"), 1),
        ("unknown-edition", SHARED + "edition: nobody\n", 3),
        ("dispute-one-sided", SHARED.replace(", {says: A year., source: Another book}", ""), 2),
        ("list-empty", SHARED.replace(SIDES, "claims: []"), 2),
        ("field-missing", SHARED.replace("says: A day., ", ""), 2),
        ("bad-address", SHARED.replace("One book}", "One book, address: shelf 3}"), 2),
    ],
)
def test_mistakes_are_said_at_their_line(code: str, text: str, line: int) -> None:
    _, problems = run(with_shared(text))
    assert [(p.code, p.at.file, p.at.line) for p in problems] == [(code, "disputes/how-long-it-keeps.yaml", line)]


def test_an_edition_that_lacks_the_recipe_is_refused_on_its_dispute() -> None:
    texts = sound()
    texts["archive.yaml"] = re.sub(r"(?m)^editions:.*$", "editions: [public, supporters]", texts["archive.yaml"])
    texts["recipes/recipe.yaml"] = re.sub(r"(?m)^edition:.*\n", "", texts["recipes/recipe.yaml"])
    texts["recipes/recipe.yaml"] += "edition: supporters\n" + OWN.replace("    here:", "    edition: public\n    here:")
    _, problems = run(texts)
    assert [p.code for p in problems] == ["edition-without-recipe"]
