"""trayside label, run as a user runs it."""

from functools import partial
from pathlib import Path

import pypdf
import pytest

from tests.cli import terminal
from tests.cli.terminal import DEMO

run = partial(terminal.run, "label", "--archive", DEMO)


def test_labels_of_one_recipe_are_written(tmp_path: Path) -> None:
    out = tmp_path / "labels.pdf"
    result = run("stocks", "--mixture", "hypo", "--mixed", "2026-11-25", "--copies", "3", "--out", out)
    assert (result.exit_code, result.stdout) == (0, f"3 labels of 70x37 mm: {out}\n")
    text = "".join(page.extract_text() for page in pypdf.PdfReader(out).pages)
    assert text.count("ST-01.") == 3
    assert "2026-11-25" in text


def test_what_was_shortened_is_told(tmp_path: Path) -> None:
    result = run("ST-01", "--mixture", "citric", "--out", tmp_path / "labels.pdf")
    assert "shortened for 70x37 mm. Precautions: see recipe ST-01." in result.stdout


@pytest.mark.parametrize(
    ("words", "code", "remedy"),
    [
        (["--mixed", "25.11.2026"], "bad-date", "write year, month, day: `2026-03-02`"),
        (["--mixed", "2026-02-30"], "bad-date", "write a day of the calendar, such as `2026-03-02`"),
        (["--size", "small"], "size-not-read", "write width and height in mm, such as `70x37`"),
        (["--size", "300x20"], "size-too-big", "write at most 200 by 287 mm"),
        (["--size", "20x10"], "label-too-small", "it fits `--size"),
        (["--mixture", "nope"], "unknown-mixture", "write one of `alkali`"),
        (["--first", "25"], "no-such-place", "count places from 1, row by row"),
    ],
)
def test_a_wrong_question_is_refused_and_nothing_written(
    words: list[str], code: str, remedy: str, tmp_path: Path
) -> None:
    out = tmp_path / "labels.pdf"
    result = run("stocks", *words, "--out", out)
    assert result.exit_code == 2
    assert f"error[{code}]" in result.stderr
    assert remedy in result.stderr
    assert not out.exists()


def test_a_recipe_that_bottles_nothing_asks_which_mixture(tmp_path: Path) -> None:
    result = run("plant-developer", "--out", tmp_path / "labels.pdf")
    if result.exit_code:
        assert "error[nothing-bottled]" in result.stderr
        assert "--mixture" in result.stderr


def test_an_unwritable_place_is_told(tmp_path: Path) -> None:
    result = run("stocks", "--mixture", "hypo", "--out", tmp_path / "none" / "labels.pdf")
    assert result.exit_code == 1
    assert "error[not-written]" in result.stderr
