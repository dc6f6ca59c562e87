"""Every problem is said at the marked line, in the very words kept beside the case."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import sitegen
from sitegen.report import show
from tests.conftest import Golden
from tests.golden_cases import MARK, ROOT, SHELF, Case, cases, run, sound

PACKAGE = Path(sitegen.__file__).parent
# Live amounts, prose, hazards, themes and edits have modules and tests of their own.
ELSEWHERE = {"prose", "hazards", "reference", "theme", "edits"}
OWN = [
    path
    for part in ("read", "check", "model")
    for path in sorted((PACKAGE / part).glob("*.py"))
    if path.stem not in ELSEWHERE
]


def by_name(case: Case) -> str:
    return case.folder.name


def test_the_shelf_that_cases_are_put_in_is_sound() -> None:
    archive, problems = run(sound())
    assert problems == ()
    assert archive is not None
    assert [recipe.slug for recipe in archive.recipes] == ["recipe"]


@pytest.mark.parametrize("case", cases(), ids=by_name)
def test_problems_stand_at_the_marked_lines_and_nowhere_else(case: Case, golden: Golden) -> None:
    _, problems = run(case.texts, case.pictures)
    marked = {
        (file, line, code)
        for file, text in case.own.items()
        for line, source in enumerate(re.split(r"\r\n|\r|\n", text))
        for code in MARK.findall(source)
    }
    assert {(p.at.file, p.at.line, p.code) for p in problems} == marked
    golden(case.folder / "problems.txt", "\n\n".join(show(p, case.texts) for p in problems) + "\n")


@pytest.mark.parametrize("case", cases(), ids=by_name)
def test_the_order_of_files_changes_nothing(case: Case) -> None:
    backwards = dict(reversed(list(case.texts.items())))
    assert run(case.texts, case.pictures) == run(backwards, case.pictures)


@pytest.mark.parametrize("case", cases(), ids=by_name)
def test_a_case_of_one_code_is_named_after_it(case: Case) -> None:
    _, problems = run(case.texts, case.pictures)
    assert {p.code for p in problems} == {case.folder.name}


def codes_in(path: Path) -> Iterator[str]:
    """Codes as they stand in calls: `Refusal("code", …)`, `code="code"`, `_stop("code", …)`, tables."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Call):
            named = [keyword.value for keyword in node.keywords if keyword.arg == "code"]
            function = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            first = {"Refusal": 0, "_stop": 0, "_refuse": 1}.get(function)
            if first is not None:
                named.append(node.args[first])
            for value in named:
                yield from (str(n.value) for n in _results(value) if isinstance(n, ast.Constant))
        elif isinstance(node, ast.Tuple) and path.stem == "units":
            # The model's table of refused units: a code, then what to write.
            yield from (
                str(n.value) for n in node.elts[:1] if isinstance(n, ast.Constant) and str(n.value)[:5] == "unit-"
            )


def _results(value: ast.expr) -> list[ast.expr]:
    return [value.body, value.orelse] if isinstance(value, ast.IfExp) else [value]


def test_every_code_has_a_case_and_every_case_a_code() -> None:
    said = {code for path in OWN for code in codes_in(path)}
    assert said == {folder.name for folder in ROOT.iterdir() if folder != SHELF}
