"""What is wrong with files as files: each is a problem with its words kept in tests/golden, no traceback."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from sitegen.check import check_archive
from sitegen.problems import Problems
from sitegen.read import folder as reading
from sitegen.read import read_folder
from sitegen.report import show
from tests.conftest import Golden
from tests.golden_cases import ROOT, sound

Spoil = Callable[[Path], None]


def write(folder: Path) -> None:
    """The sound archive on a disk; its cards as the archive's own."""
    for name, text in sound().items():
        path = folder / name.replace("base/", "substances/")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")


def recipe(folder: Path) -> Path:
    return folder / "recipes/recipe.yaml"


def no_folder(folder: Path) -> None:
    folder.rename(folder.with_name("elsewhere"))


def no_settings(folder: Path) -> None:
    (folder / "archive.yaml").unlink()


def old_ending(folder: Path) -> None:
    recipe(folder).rename(folder / "recipes/recipe.yml")


def beside_the_folders(folder: Path) -> None:
    recipe(folder).rename(folder / "my-blue.yaml")


def folder_in_capitals(folder: Path) -> None:
    (folder / "recipes").rename(folder / "Recipes")


def nested(folder: Path) -> None:
    (folder / "recipes/blue").mkdir()
    recipe(folder).rename(folder / "recipes/blue/recipe.yaml")


def is_a_loop(folder: Path) -> None:
    (folder / "recipes/loop.yaml").symlink_to((folder / "recipes/loop.yaml").absolute())


def leads_outside(folder: Path) -> None:
    secret = folder.with_name("secret.yaml")
    secret.write_text("password: hush\n", encoding="utf-8")
    recipe(folder).unlink()
    recipe(folder).symlink_to(secret.absolute())


def picture_leads_outside(folder: Path) -> None:
    secret = folder.with_name("secret.jpg")
    secret.write_bytes(b"x")
    (folder / "images").mkdir()
    (folder / "images/tray.jpg").symlink_to(secret.absolute())


def latin_1(folder: Path) -> None:
    text = recipe(folder).read_text(encoding="utf-8").replace("weak", "wéak")
    recipe(folder).write_bytes(text.encode("latin-1"))


def too_big(folder: Path) -> None:
    recipe(folder).write_text("#" * (reading.MAX_BYTES + 1), encoding="utf-8")


def a_pipe(folder: Path) -> None:
    recipe(folder).unlink()
    os.mkfifo(recipe(folder))


CASES: dict[str, Spoil] = {
    "archive-missing": no_settings,
    "file-astray": beside_the_folders,
    "file-ending": old_ending,
    "file-not-read": a_pipe,
    "file-too-big": too_big,
    "folder-missing": no_folder,
    "folder-name": folder_in_capitals,
    "folder-too-deep": nested,
    "link-outside": leads_outside,
    "not-utf-8": latin_1,
}


@pytest.fixture
def archive(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A sound archive in the folder `archive` of a working directory without a name worth knowing."""
    monkeypatch.chdir(tmp_path)
    folder = Path("archive")
    write(folder)
    return folder


@pytest.mark.parametrize("code", CASES)
def test_a_spoilt_folder_gives_one_problem_in_known_words(code: str, archive: Path, golden: Golden) -> None:
    CASES[code](archive)
    problems = Problems()
    sources = read_folder(archive, problems)
    assert [p.code for p in problems.found] == [code]
    golden(ROOT / code / "problems.txt", "\n".join(show(p, sources.texts) for p in problems.found) + "\n")


@pytest.mark.parametrize("spoil", [is_a_loop, picture_leads_outside])
def test_no_link_leads_out_of_the_archive(spoil: Spoil, archive: Path) -> None:
    spoil(archive)
    problems = Problems()
    sources = read_folder(archive, problems)
    assert [p.code for p in problems.found] == ["link-outside"]
    assert sources.pictures == frozenset()


def test_what_is_secret_outside_is_never_read(archive: Path) -> None:
    leads_outside(archive)
    assert not any("hush" in text for text in read_folder(archive, Problems()).texts.values())


def test_a_sound_folder_is_read_whole(archive: Path) -> None:
    (archive / "images/steps").mkdir(parents=True)
    (archive / "images/steps/coat.jpg").write_bytes(b"x")
    problems = Problems()
    sources = read_folder(archive, problems)
    assert problems.found == []
    assert {"archive.yaml", "recipes/recipe.yaml", "substances/water.yaml"} < sources.texts.keys()
    assert all(sources.documents[file] is not None for file in sources.texts)
    assert sources.pictures == {"steps/coat.jpg"}
    assert "base/water.yaml" in sources.texts


@pytest.mark.parametrize("name", ["blue.YAML", "blue.yaml.txt", "blue.txt", "blue.YML"])
def test_a_recipe_that_its_ending_hides_is_said(name: str, archive: Path) -> None:
    recipe(archive).rename(archive / "recipes" / name)
    problems = Problems()
    read_folder(archive, problems)
    assert [(p.code, p.at.file, p.help) for p in problems.found] == [
        ("file-ending", f"recipes/{name}", "rename it to `blue.yaml`")
    ]


@pytest.mark.parametrize("folder", ["substances", "troubles", "disputes", "journal"])
def test_a_recipe_in_anothers_folder_is_one_mistake(folder: str, archive: Path) -> None:
    (archive / folder).mkdir(exist_ok=True)
    recipe(archive).rename(archive / folder / "blue.yaml")
    problems = Problems()
    sources = read_folder(archive, problems)
    check_archive(sources, problems)
    assert [(p.code, p.at.file, p.help) for p in problems.found] == [
        ("file-astray", f"{folder}/blue.yaml", "move it into `recipes`")
    ]


def test_a_folder_reached_by_a_link_names_its_files_as_they_are_in_it(archive: Path) -> None:
    Path("linked").symlink_to(archive)
    beside_the_folders(archive)
    problems = Problems()
    read_folder(Path("linked"), problems)
    assert [(p.code, p.at.file) for p in problems.found] == [("file-astray", "my-blue.yaml")]


@pytest.mark.parametrize("text", ["services: {}\n", "", "  state: solid\n"])
def test_other_files_beside_the_folders_are_left_alone(text: str, archive: Path) -> None:
    (archive / "other.yaml").write_text(text, encoding="utf-8")
    problems = Problems()
    read_folder(archive, problems)
    assert problems.found == []


@pytest.mark.parametrize(
    "name", ["#recipe.yaml#", ".recipe.yaml", "~recipe.yaml", "recipe.yaml~", "notes.txt", ".#lock.yaml"]
)
def test_hidden_and_backup_files_are_passed_over(name: str, archive: Path) -> None:
    (archive / "recipes" / name).write_text("[", encoding="utf-8")
    problems = Problems()
    sources = read_folder(archive, problems)
    assert problems.found == []
    assert f"recipes/{name}" not in sources.texts


def test_a_byte_order_mark_is_accepted(archive: Path) -> None:
    plain = recipe(archive).read_bytes()
    recipe(archive).write_bytes(b"\xef\xbb\xbf" + plain)
    problems = Problems()
    assert read_folder(archive, problems).texts["recipes/recipe.yaml"] == plain.decode()
    assert problems.found == []


def test_utf_16_is_named(archive: Path) -> None:
    recipe(archive).write_bytes(recipe(archive).read_text(encoding="utf-8").encode("utf-16"))
    problems = Problems()
    read_folder(archive, problems)
    assert [(p.code, p.message) for p in problems.found] == [("not-utf-8", "the file is UTF-16")]


def test_an_empty_folder_lacks_only_its_settings(tmp_path: Path) -> None:
    problems = Problems()
    read_folder(tmp_path, problems)
    assert [p.code for p in problems.found] == ["archive-missing"]
    assert "trayside start" in problems.found[0].help
