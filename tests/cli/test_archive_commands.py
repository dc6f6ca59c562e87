"""proof, compile and start, run as a user runs them."""

import json
from pathlib import Path

import pytest

from sitegen.cli import main
from tests.cli.terminal import run

DEMO = Path(__file__).parents[2] / "content"


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """A new archive as `start` makes it."""
    assert run("start", tmp_path / "mine").exit_code == 0
    return tmp_path / "mine"


def break_recipe(archive: Path) -> None:
    recipe = archive / "recipes" / "first-blue.yaml"
    recipe.write_text(recipe.read_text().replace("25 g", "25 %"))


def files(folder: Path) -> dict[str, bytes]:
    return {p.relative_to(folder).as_posix(): p.read_bytes() for p in folder.rglob("*") if p.is_file()}


def test_the_demo_is_sound_and_quiet() -> None:
    result = run("proof", "--archive", DEMO)
    assert (result.exit_code, result.stderr) == (0, "")
    assert "recipes and" in result.stdout


def test_a_new_archive_is_sound_and_compiles(mine: Path, tmp_path: Path) -> None:
    result = run("proof", "--archive", mine)
    assert (result.exit_code, result.stderr) == (0, "")
    assert run("compile", "--archive", mine, "--out", tmp_path / "out").exit_code == 0
    made = files(tmp_path / "out" / "public")
    assert {"index.html", "recipes/first-blue/index.html", "recipes/first-blue/sheet-a4.pdf"} <= set(made)


def test_a_new_archive_carries_schemas_and_the_editor_hint(mine: Path) -> None:
    assert json.loads((mine / "schema" / "recipe.schema.json").read_text())["additionalProperties"] is False
    assert "$schema=../schema/recipe.schema.json" in (mine / "recipes" / "first-blue.yaml").read_text()


def test_start_never_overwrites(tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    result = run("start", tmp_path)
    assert result.exit_code == 2
    assert "already in use" in result.stderr
    assert [p.name for p in tmp_path.iterdir()] == ["notes.txt"]


def test_proof_names_file_line_and_remedy(mine: Path) -> None:
    break_recipe(mine)
    result = run("proof", "--archive", mine)
    assert result.exit_code == 1
    assert "recipes/first-blue.yaml:19:38: error[percent-without-basis]" in result.stderr
    assert "25 % w/v" in result.stderr
    assert result.stdout == ""


def test_proof_gives_editors_the_same_as_json(mine: Path) -> None:
    break_recipe(mine)
    result = run("proof", "--archive", mine, "--json")
    assert result.exit_code == 1
    problems = json.loads(result.stdout)["problems"]
    assert [(p["code"], p["line"], p["level"]) for p in problems] == [("percent-without-basis", 19, "error")]


def test_an_error_leaves_the_last_good_build(mine: Path, tmp_path: Path) -> None:
    out = tmp_path / "out"
    run("compile", "--archive", mine, "--out", out)
    before = files(out)
    break_recipe(mine)
    result = run("compile", "--archive", mine, "--out", out)
    assert result.exit_code == 1
    assert files(out) == before


def test_the_same_archive_gives_the_same_bytes(mine: Path, tmp_path: Path) -> None:
    for out in ("one", "two"):
        run("compile", "--archive", mine, "--out", tmp_path / out)
    assert files(tmp_path / "one") == files(tmp_path / "two")


def test_no_archive_here_says_how_to_make_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    result = run("proof")
    assert result.exit_code == 2
    assert "trayside start DIR" in result.stderr


def test_a_picture_that_is_none_is_an_error_at_its_line(mine: Path) -> None:
    (mine / "images").mkdir()
    (mine / "images" / "coat.jpg").write_bytes(b"not a picture")
    recipe = mine / "recipes" / "first-blue.yaml"
    recipe.write_text(recipe.read_text().replace("takes: 2-4 h", "takes: 2-4 h\nimage: {file: coat.jpg, alt: A brush}"))
    result = run("proof", "--archive", mine)
    assert result.exit_code == 1
    assert "error[picture-not-read]" in result.stderr
    assert "recipes/first-blue.yaml:14" in result.stderr


def test_a_picture_that_is_not_there_is_one_error(mine: Path) -> None:
    recipe = mine / "recipes" / "first-blue.yaml"
    recipe.write_text(recipe.read_text().replace("takes: 2-4 h", "takes: 2-4 h\nimage: {file: coat.jpg, alt: A brush}"))
    result = run("proof", "--archive", mine)
    assert "error[picture-missing]" in result.stderr
    assert "1 error in 1 file" in result.stderr


def test_compile_refuses_a_folder_that_is_not_a_build(mine: Path, tmp_path: Path) -> None:
    (tmp_path / "out" / "public").mkdir(parents=True)
    (tmp_path / "out" / "public" / "letters.txt").write_text("mine")
    result = run("compile", "--archive", mine, "--out", tmp_path / "out")
    assert result.exit_code == 1
    assert "not a build of ours" in result.stderr
    assert (tmp_path / "out" / "public" / "letters.txt").read_text() == "mine"


def test_every_command_has_help_with_an_example() -> None:
    for name, command in main.commands.items():
        result = run(name, "--help")
        assert result.exit_code == 0
        assert command.short_help, name


def test_an_archive_made_in_an_unwritable_place_says_so(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    result = run("start", tmp_path / "file" / "mine")
    assert result.exit_code == 1
    assert "error[not-written]" in result.stderr
