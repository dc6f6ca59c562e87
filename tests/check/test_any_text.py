"""Whatever an author types, the check answers with problems and never with a traceback."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.check import check_archive
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.report import as_json, show
from tests.golden_cases import run, sound

SOUND = sound()
FILES = ("recipes/recipe.yaml", "archive.yaml", "base/sodium-carbonate.yaml")
SIGNS = "ab1:-+%/[]{}&*!|>'\"@`#,.?° \n\tµ½"


def check(texts: dict[str, str]) -> None:
    """Runs all the way to the shown text; an archive without an error refers to nothing missing."""
    problems = Problems()
    archive = check_archive(compose_sources(texts, problems), problems)
    for problem in problems.in_order():
        assert show(problem, texts)
        assert as_json(problem)["line"]
        source = texts.get(problem.at.file)
        assert source is None or problem.at.line <= source.count("\n") + source.count("\r")
    if archive is None:
        assert problems.failed
    else:
        closed(archive)


def closed(archive: Archive) -> None:
    for recipe in archive.recipes:
        assert recipe.edition in archive.settings.editions
        assert recipe.process in {process.id for process in archive.settings.processes}
        for line in (line for mixture in recipe.mixtures for line in mixture.lines):
            assert (line.form in archive.forms) != (line.mixture in archive.mixtures)


@pytest.mark.parametrize("file", FILES)
@given(text=st.one_of(st.text(), st.text(alphabet=SIGNS)))
def test_any_text_in_place_of_a_file(file: str, text: str) -> None:
    check(SOUND | {file: text})


@st.composite
def mutated(draw: st.DrawFn) -> tuple[str, str]:
    """A sound file with lines dropped, doubled, swapped, and characters put in or taken out."""
    file = draw(st.sampled_from(FILES))
    lines = SOUND[file].splitlines()
    for _ in range(draw(st.integers(1, 4))):
        here = draw(st.integers(0, len(lines) - 1))
        there = draw(st.integers(0, len(lines) - 1))
        line = lines[here]
        match draw(st.sampled_from(["drop", "double", "swap", "insert", "delete", "indent"])):
            case "drop" if len(lines) > 1:
                del lines[here]
            case "double":
                lines.insert(there, line)
            case "swap":
                lines[here], lines[there] = lines[there], line
            case "insert":
                at = draw(st.integers(0, len(line)))
                lines[here] = line[:at] + draw(st.text(max_size=3)) + line[at:]
            case "delete" if line:
                at = draw(st.integers(0, len(line) - 1))
                lines[here] = line[:at] + line[at + 1 :]
            case _:
                lines[here] = "  " + line
    return file, "\n".join(lines)


@given(mutated())
def test_any_mutation_of_a_sound_file(changed: tuple[str, str]) -> None:
    file, text = changed
    check(SOUND | {file: text})


VALUES = [line for line in SOUND["recipes/recipe.yaml"].splitlines() if ": " in line]


@given(st.sampled_from(VALUES), st.text(alphabet="0123456789 -–+:/.,%gmlto psw½²°", max_size=12))
def test_any_value_of_any_field(line: str, value: str) -> None:
    name = line.partition(": ")[0]
    text = SOUND["recipes/recipe.yaml"].replace(line, f"{name}: '{value}'", 1)
    check(SOUND | {"recipes/recipe.yaml": text})


def test_all_mistakes_of_all_files_are_told_in_one_run() -> None:
    texts = SOUND | {
        "archive.yaml": SOUND["archive.yaml"] + "colour: blue\n",
        "recipes/recipe.yaml": SOUND["recipes/recipe.yaml"].replace("10 g", "10 gg").replace("IB-07", "7"),
        "recipes/second.yaml": "[",
    }
    archive, problems = run(texts)
    assert archive is None
    assert [(p.at.file, p.code) for p in problems] == [
        ("archive.yaml", "unknown-field"),
        ("recipes/recipe.yaml", "bad-code"),
        ("recipes/recipe.yaml", "unknown-unit"),
        ("recipes/second.yaml", "yaml-bracket-open"),
    ]
