"""The whole check: places, the demo archive, and texts nobody foresaw."""

from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import sitegen
from sitegen.check import check_archive
from sitegen.check.hazards import check_hazards
from sitegen.check.prose import check_prose
from sitegen.model.archive import Archive
from sitegen.model.recipe import Prose
from sitegen.problems import Problems
from sitegen.read import read_folder
from tests.check.bench import built, prose, recipe, words

DEMO = Path(sitegen.__file__).parent.parent / "content"


@pytest.mark.parametrize(
    "written",
    [
        pytest.param("Add 40 g of citrate.", id="plain"),
        pytest.param("'Don''t wait. Add 40 g of citrate.'", id="single-quotes"),
        pytest.param('"Say \\"now\\". Add 40 g of citrate."', id="double-quotes"),
        pytest.param("|\n          Stir.\n\n          Add 40 g of citrate.", id="literal"),
        pytest.param(">-\n          Stir well and\n          add 40 g of citrate.", id="folded"),
        pytest.param("Stir well and\n          add 40 g of citrate.", id="over-two-lines"),
    ],
)
def test_a_problem_stands_under_the_words_however_they_are_written(written: str) -> None:
    text = recipe(do=written)
    (found,) = prose(text)
    assert words(found, text) == "40 g"
    assert found.at.line == next(n for n, line in enumerate(text.split("\n")) if "40 g" in line)


@pytest.mark.parametrize("written", ["Add 40 g of citrate.", "'Add 40 g of citrate.'"])
def test_without_the_files_a_text_in_one_line_is_counted_through(written: str) -> None:
    text = recipe(do=written)
    archive, _ = built(text)
    problems = Problems()
    check_prose(archive, problems)
    assert [words(p, text) for p in problems.found] == ["40 g"]


def test_without_the_files_a_longer_text_is_named_by_its_beginning() -> None:
    text = recipe(do="|\n          Add 40 g of citrate.")
    archive, _ = built(text)
    problems = Problems()
    check_prose(archive, problems)
    assert [words(p, text) for p in problems.found] == ["|"]


def test_the_demo_archive_is_free_of_problems() -> None:
    problems = Problems()
    sources = read_folder(DEMO, problems)
    archive = check_archive(sources, problems)
    assert archive is not None
    problems = Problems()
    check_prose(archive, problems, texts=sources.texts)
    check_hazards(archive, problems)
    assert problems.in_order() == ()


def _with(archive: Archive, text: str) -> Archive:
    """The archive with this text wherever prose can stand."""
    (one,) = archive.recipes
    said = Prose(text=text, at=one.at)
    mixtures = tuple(replace(m, mixing=(said,), note=said, store=text) for m in one.mixtures)
    stages = tuple(
        replace(stage, steps=tuple(replace(s, do=said, look_for=text, caution=text) for s in stage.steps))
        for stage in one.stages
    )
    changed = replace(one, about=said, summary=text, needs=(text,), mixtures=mixtures, stages=stages)
    return replace(archive, recipes=(changed,), settings=replace(archive.settings, welcome=said))


ARCHIVE, TEXTS = built(recipe())
PIECES = st.sampled_from(
    [
        "40 g",
        "5 in (100 mm)",
        " of ",
        "citrate",
        "[",
        "](",
        "amount:",
        "water",
        ")",
        "<b>",
        "1:10",
        "%",
        "8 oz",
        "1/0 g",
        "007 ml",
        "ferrocyanide",
        "`",
        "\n",
        "- ",
        "&amp;",
        "\\",
        "'",
        '"',
        "(",
        "²",
        "٣ g",
        "1 1/2 cup",
    ]
)


@settings(deadline=None, max_examples=60)
@given(st.one_of(st.text(), st.lists(PIECES, max_size=12).map("".join)))
def test_no_text_raises_and_every_place_is_in_a_file(text: str) -> None:
    for texts in ({}, TEXTS):
        problems = Problems()
        check_prose(_with(ARCHIVE, text), problems, texts=texts)
        for problem in problems.found:
            assert problem.at.file in TEXTS
            assert problem.at.end > problem.at.column >= 0
            assert problem.help
