"""What a card or a mixture gets wrong for its label is said at its line, in the words kept beside the case."""

from pathlib import Path

import pytest

from sitegen.check import check_archive
from sitegen.compute.whole import compute
from sitegen.labels.check import check_labels
from sitegen.problems import Problem, Problems
from sitegen.read import compose_sources
from sitegen.report import show
from tests.conftest import Golden
from tests.golden_cases import MARK, sound

ROOT = Path(__file__).parent.parent / "golden_labels"
CASES = sorted(folder for folder in ROOT.iterdir() if folder.is_dir())
PLACES = {"recipe.yaml": "recipes/recipe.yaml", "substance.yaml": "substances/substance.yaml"}


def run(texts: dict[str, str]) -> tuple[Problem, ...]:
    problems = Problems()
    archive = check_archive(compose_sources(texts, problems), problems)
    assert archive
    assert not problems.failed, problems.in_order()
    check_labels(compute(archive, problems), problems)
    return problems.in_order()


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_problems_stand_at_the_marked_lines_and_nowhere_else(case: Path, golden: Golden) -> None:
    own = {PLACES[path.name]: path.read_text(encoding="utf-8") for path in sorted(case.glob("*.yaml"))}
    texts = sound() | own
    problems = run(texts)
    marks = {
        (file, line, code)
        for file, text in own.items()
        for line, written in enumerate(text.splitlines())
        for code in MARK.findall(written)
    }
    assert {(p.at.file, p.at.line, p.code) for p in problems} == marks
    assert case.name in {p.code for p in problems}
    golden(case / "problems.txt", "\n\n".join(show(p, texts) for p in problems) + "\n")


def test_a_sound_archive_is_quiet() -> None:
    assert run(sound()) == ()
