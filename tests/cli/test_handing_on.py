"""bundle and announce, run as a user runs them."""

import json
import zipfile
from pathlib import Path
from typing import Any

import pytest

from tests.cli.terminal import run


@pytest.fixture
def mine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A new archive as `start` makes it; this folder is beside it."""
    monkeypatch.chdir(tmp_path)
    assert run("start", tmp_path / "mine").exit_code == 0
    return tmp_path / "mine"


def break_recipe(archive: Path) -> None:
    recipe = archive / "recipes" / "first-blue.yaml"
    recipe.write_text(recipe.read_text().replace("25 g", "25 %"))


def full(*_: Any) -> None:
    raise OSError(28, "No space left on device")


def test_a_bundle_is_one_file_named_after_archive_and_edition(mine: Path, tmp_path: Path) -> None:
    result = run("bundle", "public", "--archive", mine)
    assert result.exit_code == 0, result.stderr
    (made,) = tmp_path.glob("*.zip")
    assert made.name in result.stdout
    names = zipfile.ZipFile(made).namelist()
    root = made.stem
    assert names[0] == f"{root}/start.html"
    assert f"{root}/archive/recipes/first-blue/index.html" in names


def test_the_same_archive_gives_the_same_bundle(mine: Path, tmp_path: Path) -> None:
    for name in ("a.zip", "b.zip"):
        assert run("bundle", "public", "--archive", mine, "--out", tmp_path / name).exit_code == 0
    assert (tmp_path / "a.zip").read_bytes() == (tmp_path / "b.zip").read_bytes()


def test_an_unknown_edition_is_refused(mine: Path) -> None:
    result = run("bundle", "pubic", "--archive", mine)
    assert result.exit_code == 2
    assert "there is no edition `pubic`" in result.stderr
    assert "did you mean `public`?" in result.stderr


def test_an_archive_with_errors_leaves_the_last_bundle(mine: Path, tmp_path: Path) -> None:
    (tmp_path / "b.zip").write_bytes(b"the last one")
    break_recipe(mine)
    result = run("bundle", "public", "--archive", mine, "--out", tmp_path / "b.zip")
    assert result.exit_code == 1
    assert "error[percent-without-basis]" in result.stderr
    assert (tmp_path / "b.zip").read_bytes() == b"the last one"


def test_a_full_disk_leaves_the_last_bundle(mine: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "b.zip").write_bytes(b"the last one")
    monkeypatch.setattr(zipfile.ZipFile, "writestr", full)
    result = run("bundle", "public", "--archive", mine, "--out", tmp_path / "b.zip")
    assert result.exit_code == 1
    assert "no space left on device; the last bundle stands" in result.stderr
    assert (tmp_path / "b.zip").read_bytes() == b"the last one"
    assert not list(tmp_path.glob(".*.part"))


def test_a_post_is_printed_in_the_way_asked_for(mine: Path) -> None:
    said = {way: run("announce", "first-blue", "--archive", mine, "--no-picture", "--as", way) for way in WAYS}
    assert {result.exit_code for result in said.values()} == {0}
    assert said["markdown"].stdout.startswith("## New recipe: ")
    assert said["html"].stdout.startswith("<h2>New recipe: ")
    data = json.loads(run("announce", "first-blue", "--archive", mine, "--no-picture", "--json").stdout)
    assert data == {way: result.stdout for way, result in said.items()}


WAYS = ("text", "markdown", "html")


def test_a_post_with_its_postcards_is_written_to_a_folder(mine: Path, tmp_path: Path) -> None:
    result = run("announce", "first-blue", "--archive", mine, "--no-picture", "--out", tmp_path / "post")
    assert result.exit_code == 0, result.stderr
    names = {path.name for path in (tmp_path / "post").iterdir()}
    assert names == {"post.txt", "post.md", "post.html", "postcard-a6.pdf", "postcard-4x6.pdf"}
    assert (tmp_path / "post" / "post.txt").read_text() == result.stdout


def test_a_missing_picture_in_a_post_is_said(mine: Path, tmp_path: Path) -> None:
    result = run("announce", "first-blue", "--archive", mine, "--out", tmp_path / "post")
    assert result.exit_code == 2
    assert "error[picture-missing] `first-blue` has no picture for its post" in result.stderr
    assert not (tmp_path / "post").exists()


def test_an_unknown_recipe_or_edition_is_said(mine: Path) -> None:
    result = run("announce", "first-blu", "--archive", mine)
    assert (result.exit_code, "did you mean `first-blue`?" in result.stderr) == (2, True)
    result = run("announce", "first-blue", "--archive", mine, "--edition", "friends")
    assert (result.exit_code, "error[unknown-edition]" in result.stderr) == (2, True)


def test_nothing_newer_is_said(mine: Path) -> None:
    result = run("announce", "first-blue", "--archive", mine, "--since", "9")
    assert (result.exit_code, "error[nothing-new]" in result.stderr) == (2, True)


def test_a_revision_of_which_nothing_is_written_is_told_to_the_author(mine: Path) -> None:
    recipe = mine / "recipes" / "first-blue.yaml"
    recipe.write_text(recipe.read_text().replace("revision: 1", "revision: 2"))
    result = run("announce", "first-blue", "--archive", mine, "--no-picture")
    assert result.exit_code == 0, result.stderr
    assert "nothing says what revision 2 changed" in result.stderr
    recipe.write_text(recipe.read_text() + "\nchanges: [{revision: 2, what: Half the iron.}]\n")
    result = run("announce", "first-blue", "--archive", mine, "--no-picture")
    assert (result.stderr, "Revision 2: Half the iron." in result.stdout) == ("", True)


def test_a_full_disk_leaves_the_last_post(mine: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    run("announce", "first-blue", "--archive", mine, "--no-picture", "--out", tmp_path / "post")
    before = {path.name: path.read_bytes() for path in (tmp_path / "post").iterdir()}
    monkeypatch.setattr(Path, "write_bytes", full)
    result = run("announce", "first-blue", "--archive", mine, "--no-picture", "--out", tmp_path / "post")
    assert result.exit_code == 1
    assert "no space left on device; what was there stands" in result.stderr
    assert {path.name: path.read_bytes() for path in (tmp_path / "post").iterdir()} == before
