"""What dangerous pairs make the check say, at the marked line, in the very words kept beside the case."""

import ast
from dataclasses import replace
from pathlib import Path

import pytest

import sitegen
from sitegen.check import check_archive
from sitegen.check.pairs import check_pairs
from sitegen.check.pairs.wording import CODES, WARMED
from sitegen.problems import Problem, Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.report import show
from tests.check.bench import shelf
from tests.conftest import Golden
from tests.golden_cases import MARK

ROOT = Path(__file__).parent.parent / "golden_pairs"
CASES = sorted(folder for folder in ROOT.iterdir() if folder.is_dir())
ANSWERS = Path(sitegen.__file__).parent / "check" / "pairs" / "answers.py"
SETTINGS = "title: Bench book\nprocesses: {iron-blue: {name: Iron-blue prints}}\n"
FILE = "recipes/recipe.yaml"


def run(text: str) -> tuple[Problem, ...]:
    """What is said of a recipe that is sound but for its pairs."""
    cards = {path: card for path, card in base_cards().items() if path[len("base/") : -len(".yaml")] in text}
    problems = Problems()
    archive = check_archive(compose_sources({"archive.yaml": SETTINGS, FILE: text} | cards, problems), problems)
    assert {p.code for p in problems.found} <= {"unknown-look-alike"}
    assert archive is not None
    problems = Problems()
    check_pairs(replace(archive, substances=shelf()), problems)
    return problems.in_order()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_problems_stand_at_the_marked_lines_and_nowhere_else(case: Path, golden: Golden) -> None:
    text = (case / "recipe.yaml").read_text(encoding="utf-8")
    problems = run(text)
    marked = {(n, code) for n, line in enumerate(text.split("\n")) for code in MARK.findall(line)}
    assert {(p.at.line, p.code) for p in problems} == marked
    assert case.name in {p.code for p in problems}
    golden(case / "problems.txt", "\n\n".join(show(p, {FILE: text}) for p in problems) + "\n")


def test_every_code_has_a_case_and_every_case_a_code() -> None:
    tree = ast.parse(ANSWERS.read_text(encoding="utf-8"))
    calls = (node for node in ast.walk(tree) if isinstance(node, ast.Call))
    said = {
        keyword.value.value
        for call in calls
        for keyword in call.keywords
        if keyword.arg == "code" and isinstance(keyword.value, ast.Constant)
    }
    assert {case.name for case in CASES} == said | set(CODES.values()) | {WARMED}
