"""Loading pictures: a problem at the line of each that cannot be shown, and none of the others lost."""

import os
from dataclasses import replace
from pathlib import Path

import pytest
from PIL import Image

from sitegen.check import check_archive
from sitegen.cli import pictures as loading
from sitegen.cli.pictures import load_pictures
from sitegen.model.archive import Archive
from sitegen.problems import Problem, Problems
from sitegen.read import compose_sources
from tests.golden_cases import sound

STEP = """        for: 2-3 min
        image: {file: tone.png, alt: A print in a tray}
        compare:
          before: {file: blue.png, alt: A blue print}
          after: {file: brown.jpg, alt: The same print in brown}
        moving picture:
          title: Toning
          address: https://example.org/toning.webm
          poster: {file: poster.png, alt: A hand and a tray}
"""
NAMES = ("tone.png", "blue.png", "brown.jpg", "poster.png")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """An archive's folder with four sound pictures."""
    (tmp_path / "images").mkdir()
    for name in NAMES:
        Image.new("RGB", (80, 60), "white").save(tmp_path / "images" / name)
    return tmp_path


@pytest.fixture
def archive() -> Archive:
    """A recipe of one step that shows them all."""
    problems = Problems()
    texts = sound()
    texts["recipes/recipe.yaml"] = texts["recipes/recipe.yaml"].replace("        for: 2-3 min\n", STEP)
    checked = check_archive(compose_sources(texts, problems, pictures=frozenset(NAMES)), problems)
    assert checked is not None
    assert problems.found == []
    return checked


def loaded(archive: Archive, folder: Path) -> tuple[set[str], tuple[Problem, ...]]:
    problems = Problems()
    return set(load_pictures(archive, folder, problems)), problems.in_order()


def test_every_picture_of_a_step_is_loaded(archive: Archive, folder: Path) -> None:
    assert loaded(archive, folder) == (set(NAMES), ())


@pytest.mark.parametrize("name", NAMES)
def test_a_corrupt_picture_is_said_where_it_is_named(name: str, archive: Archive, folder: Path) -> None:
    (folder / "images" / name).write_bytes(b"\x89PNG\r\n\x1a\nhalf")
    ready, [problem] = loaded(archive, folder)
    assert problem.code == "picture-not-read"
    assert f"`{name}`" in problem.message
    assert problem.at.file == "recipes/recipe.yaml"
    assert ready == set(NAMES) - {name}


def test_pictures_to_compare_must_have_one_shape(archive: Archive, folder: Path) -> None:
    Image.new("RGB", (60, 80), "white").save(folder / "images" / "brown.jpg")
    _, [problem] = loaded(archive, folder)
    assert problem.code == "pictures-differ"
    assert problem.message.endswith("differ in their proportions: 80 × 60 and 60 × 80 pixels")


def test_a_file_too_large_is_not_even_read(archive: Archive, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(loading, "MOST_BYTES", 100)
    large = folder / "images" / "tone.png"
    large.write_bytes(os.urandom(200))
    _, problems = loaded(archive, folder)
    assert {(p.code, "tone.png" in p.message) for p in problems} >= {("picture-too-large", True)}


def test_a_picture_that_is_gone_by_then_is_said(archive: Archive, folder: Path) -> None:
    (folder / "images" / "tone.png").unlink()
    _, [problem] = loaded(archive, folder)
    assert (problem.code, "no such file" in problem.message) == ("picture-not-read", True)


def test_an_archive_without_pictures_needs_no_folder(archive: Archive, tmp_path: Path) -> None:
    assert loaded(replace(archive, recipes=()), tmp_path / "nowhere") == (set(), ())
