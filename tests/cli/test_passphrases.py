"""Passphrases on the command line: made, judged, taken from outside, and found where they must not stand."""

import math
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from sitegen.cli import main
from sitegen.read.words import word_list

WORDS = "rib certain credit cotton cattle program mansion"
SETTINGS = """
title: Bench book
editions: [public, {id: supporters, sealed: yes}]
processes: {salt: {name: Salt prints}}
"""
RECIPE = """
title: Salt bath
code: SB-01
summary: Salt in water.
process: salt
edition: supporters
revision: 1
revised: 2026-01-02
credits: own
mixtures:
  bath: {name: Bath, contains: {sodium-chloride: 20 g, water: to make 1 l}}
hazards: {wear: Eye protection., air: No dust., never: No bleach., first aid: Rinse., disposal: Local rules decide.}
"""


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    folder = tmp_path / "archive"
    (folder / "recipes").mkdir(parents=True)
    (folder / "archive.yaml").write_text(SETTINGS)
    (folder / "recipes" / "bath.yaml").write_text(RECIPE)
    return folder


def run(*words: str | Path, given: str = "", typed: str = "") -> Result:
    return CliRunner().invoke(main, [str(w) for w in words], env={"TRAYSIDE_PASSPHRASES": given}, input=typed)


def compiled(archive: Path, *words: str | Path, given: str = "") -> Result:
    return run("compile", "--archive", archive, "--out", archive.parent / "build", *words, given=given)


def test_a_passphrase_is_made_from_the_list_and_is_new_each_time() -> None:
    one, other = run("passphrase").output.split(), run("passphrase").output.split()
    assert set(one) <= set(word_list())
    assert len(one) * math.log2(len(word_list())) >= 77
    assert one != other


def test_a_weak_one_is_refused_with_its_strength() -> None:
    done = run("passphrase", "--check", typed="password123\n")
    assert done.exit_code == 2
    assert "passphrase-weak" in done.output
    assert "bits" in done.output
    assert "password123" not in done.output
    assert run("passphrase", "--check", typed=f"{WORDS}\n").output == "about 77 bits; 77 are needed\n"
    assert run("passphrase", "--bits", "40").exit_code == 2


def test_a_sealed_edition_needs_a_passphrase_and_nothing_is_written_without(archive: Path) -> None:
    done = compiled(archive)
    assert done.exit_code == 2
    assert "passphrase-missing" in done.output
    assert not (archive.parent / "build").exists()


@pytest.mark.parametrize(
    ("given", "code"),
    [
        ("too short", "passphrase-weak"),
        (f"public: {WORDS}", "passphrase-of-unknown-edition"),
        ("# only a remark\n", "passphrase-missing"),
    ],
)
def test_what_cannot_be_a_passphrase_is_refused(archive: Path, given: str, code: str) -> None:
    done = compiled(archive, given=given)
    assert done.exit_code == 2
    assert f"[{code}]" in done.output


def test_passphrases_come_from_the_environment_or_a_file_outside(archive: Path, tmp_path: Path) -> None:
    assert compiled(archive, given=WORDS).exit_code == 0
    kept = tmp_path / "words.txt"
    kept.write_text(f"# friends\nsupporters: {WORDS}\n")
    assert compiled(archive, "--passphrases", kept).exit_code == 0
    assert (tmp_path / "build" / "supporters" / "sealed").is_dir()


def test_a_file_of_passphrases_inside_the_archive_is_refused(archive: Path) -> None:
    (archive / "words.txt").write_text(WORDS)
    done = compiled(archive, "--passphrases", archive / "words.txt")
    assert done.exit_code == 2
    assert "[passphrases-in-archive]" in done.output


@pytest.mark.parametrize("place", ["notes.txt", ".env", "recipes/old.txt", "images/readme", "deep/down/there.md"])
@pytest.mark.parametrize(
    "written", [WORDS, WORDS.upper(), WORDS.replace(" ", "-"), f'words: "{WORDS}"', WORDS.replace(" ", "\n- ")]
)
def test_the_proof_catches_one_that_stands_inside(archive: Path, place: str, written: str) -> None:
    (archive / place).parent.mkdir(parents=True, exist_ok=True)
    (archive / place).write_text(f"a line\n{written}\n")
    done = run("proof", "--archive", archive, given=WORDS)
    assert done.exit_code == 1
    assert f"./{place}:" in done.output
    assert "error[passphrase-in-archive]" in done.output
    assert "certain" not in done.output, "the report does not spread it"


def test_the_compile_catches_it_too_and_leaves_the_last_good_build(archive: Path) -> None:
    assert compiled(archive, given=WORDS).exit_code == 0
    page = archive.parent / "build" / "supporters" / "index.html"
    before = page.read_bytes()
    (archive / "notes.txt").write_text(WORDS)
    assert compiled(archive, given=WORDS).exit_code == 1
    assert page.read_bytes() == before


def test_a_line_of_nothing_but_words_of_the_list_is_a_warning_without_any_given(archive: Path) -> None:
    assert "passphrase" not in run("proof", "--archive", archive).output
    (archive / "notes.txt").write_text(f"to do\n{WORDS}\n")
    done = run("proof", "--archive", archive)
    assert done.exit_code == 0
    assert "./notes.txt:2:1: warning[passphrase-perhaps]" in done.output


def test_a_wrong_day_is_a_wrong_command(archive: Path) -> None:
    assert compiled(archive, "--on", "1 December 2026", given=WORDS).exit_code == 2


def test_a_passphrase_left_out_is_withdrawn_with_the_next_compile(archive: Path) -> None:
    pages = []
    for given in (f"{WORDS}\ntide mill feather sluice river chart walnut onion skin bark", WORDS):
        assert compiled(archive, given=given).exit_code == 0
        pages.append((archive.parent / "build" / "supporters" / "index.html").read_text())
    assert [page.count('"salt"') for page in pages] == [2, 1]
