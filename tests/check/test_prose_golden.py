"""What prose and hazard blocks get wrong is said at the marked line, in the very words kept beside the case.

Cases are recipes, or the settings, on the shelf of built-in cards; marks are those of the other golden cases.
"""

import ast
from dataclasses import replace
from pathlib import Path

import pytest

import sitegen
from sitegen.check import check_archive
from sitegen.check.hazards import check_hazards
from sitegen.check.prose import check_prose
from sitegen.problems import Problem, Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.report import show
from tests.check.bench import shelf
from tests.conftest import Golden
from tests.golden_cases import MARK

ROOT = Path(__file__).parent.parent / "golden_prose"
CASES = sorted(folder for folder in ROOT.iterdir() if folder.is_dir())
PACKAGE = Path(sitegen.__file__).parent / "check"
SETTINGS = "title: Bench book\nprocesses: {iron-blue: {name: Iron-blue prints}}\n"
# Said by the model for links, too.
OF_THE_MODEL = {"unknown-link-target", "ambiguous-link-target"}


def own(case: Path) -> dict[str, str]:
    """The case's files by their place in an archive."""
    places = {"recipe.yaml": "recipes/recipe.yaml"}
    return {places.get(p.name, p.name): p.read_text(encoding="utf-8") for p in sorted(case.glob("*.yaml"))}


def run(texts: dict[str, str]) -> tuple[Problem, ...]:
    """What is said of an archive that is sound but for its prose and its hazard blocks."""
    cards = {p: t for p, t in base_cards().items() if p[len("base/") : -len(".yaml")] in texts["recipes/recipe.yaml"]}
    problems = Problems()
    archive = check_archive(compose_sources({"archive.yaml": SETTINGS} | cards | texts, problems), problems)
    assert {p.code for p in problems.found} <= {"unknown-look-alike"}
    assert archive is not None
    archive = replace(archive, substances=shelf())  # every card is named, the few that are weighed are checked
    problems = Problems()
    check_prose(archive, problems, texts=texts)
    check_hazards(archive, problems)
    return problems.in_order()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_problems_stand_at_the_marked_lines_and_nowhere_else(case: Path, golden: Golden) -> None:
    texts = own(case)
    problems = run(texts)
    marked = {
        (file, line, code)
        for file, text in texts.items()
        for line, source in enumerate(text.split("\n"))
        for code in MARK.findall(source)
    }
    assert {(p.at.file, p.at.line, p.code) for p in problems} == marked
    assert {p.code for p in problems} == {case.name}
    golden(case / "problems.txt", "\n\n".join(show(p, texts) for p in problems) + "\n")


def test_every_code_has_a_case_and_every_case_a_code() -> None:
    said = {
        keyword.value.value
        for part in ("prose", "hazards")
        for path in (PACKAGE / part).glob("*.py")
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        for keyword in node.keywords
        if keyword.arg == "code" and isinstance(keyword.value, ast.Constant)
    }
    assert {case.name for case in CASES} == said | OF_THE_MODEL | {"amount-outside-recipe"}
