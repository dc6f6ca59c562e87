"""trayside trial and trayside adopt, run as a user runs them on a copy of the demo."""

import difflib
import shutil
from pathlib import Path

import pytest
from click.testing import Result

from sitegen.cli.shell import load
from sitegen.compute.revisions import revisions
from tests.cli import terminal

DEMO = Path(__file__).parents[2] / "content"
BLEACH, IRON = "2026-10-24-longer-weak-bleach", "2026-06-06-more-iron-in-part-a"


@pytest.fixture
def archive(tmp_path: Path) -> Path:
    shutil.copytree(DEMO, tmp_path / "archive")
    return tmp_path / "archive"


def run(archive: Path, *words: str) -> Result:
    return terminal.run(*words, "--archive", archive)


def texts(archive: Path) -> dict[str, str]:
    return {p.relative_to(archive).as_posix(): p.read_bytes().decode() for p in archive.rglob("*.yaml")}


def changed(before: dict[str, str], after: dict[str, str]) -> dict[str, list[str]]:
    return {
        name: [d for d in difflib.ndiff(before.get(name, "").splitlines(), text.splitlines()) if d[0] in "+-"]
        for name, text in after.items()
        if before.get(name) != text
    }


def test_an_entry_is_started_and_proof_asks_for_the_rest(archive: Path) -> None:
    done = run(archive, "trial", "IB-01", "--title", "A fifth more: iron")
    assert done.exit_code == 0, done.output
    (path,) = (archive / "journal").glob("*-a-fifth-more-iron.yaml")
    text = path.read_text()
    assert "revision: 5\n" in text
    assert "#     part-a/ferric-ammonium-citrate-green: 50 g\n" in text
    assert "water: tap}\n# The archive's waters: tap (Town tap at the mill), well (Well in the yard), school" in text
    asked = run(archive, "proof")
    assert asked.exit_code == 1
    assert "nothing stands after `outcome`" in asked.stderr
    assert "nothing stands after `verdict`" in asked.stderr
    path.write_text(text.replace("outcome:\n", "outcome: Paler.\n").replace("verdict:\n", "verdict: open\n"))
    assert run(archive, "proof").exit_code == 0


def test_its_comments_are_sound_once_they_are_taken_up(archive: Path) -> None:
    run(archive, "trial", "iron-blue", "--title", "Less")
    (path,) = (archive / "journal").glob("*-less.yaml")
    text = path.read_text().replace("outcome:\n", "outcome: Paler.\n").replace("verdict:\n", "verdict: open\n")
    lines = [
        line.removeprefix("# ") if "changed:" in line and line.startswith("# c") else line for line in text.split("\n")
    ]
    lines = [line.replace("#  ", "   ") if "amounts:" in line else line for line in lines]
    lines = [line.replace("#  ", "   ").replace("50 g", "45 g") if "green: 50 g" in line else line for line in lines]
    path.write_text("\n".join(lines))
    done = run(archive, "proof")
    assert done.exit_code == 0, done.stderr


def test_nothing_is_overwritten(archive: Path) -> None:
    assert run(archive, "trial", "iron-blue").exit_code == 0
    before = texts(archive)
    (path,) = (archive / "journal").glob("*-iron-blue.yaml")
    path.write_text(
        before[f"journal/{path.name}"].replace("outcome:\n", "outcome: x\n").replace("verdict:\n", "verdict: open\n")
    )
    again = run(archive, "trial", "iron-blue")
    assert (again.exit_code, "error[entry-exists]" in again.stderr) == (2, True)
    assert "outcome: x" in path.read_text()


def test_what_worked_becomes_the_next_revision_and_every_other_byte_stays(archive: Path) -> None:
    recipe = archive / "recipes" / "walnut-toner.yaml"
    recipe.write_text(
        recipe.read_text().replace("        for: 10-30 s\n", "        for: 10-30 s   # by the sand glass\n")
    )
    before = texts(archive)
    shown = run(archive, "adopt", BLEACH, "--show")
    assert (shown.exit_code, texts(archive)) == (0, before)
    done = run(archive, "adopt", BLEACH)
    assert done.exit_code == 0, done.output
    assert shown.stdout in done.stdout
    found = changed(before, texts(archive))
    assert sorted(found) == [f"journal/{BLEACH}.yaml", "recipes/walnut-toner.yaml"]
    lines = found["recipes/walnut-toner.yaml"]
    assert "-         for: 10-30 s   # by the sand glass" in lines
    assert "+         for: 30-45 s   # by the sand glass" in lines
    assert next(line for line in lines if line.startswith("-")) == "- revision: 2"
    assert "+         Wet and bleach/2: 10-30 s" in "\n".join(lines).partition("before:")[2]
    assert len(lines) == 11
    assert "+     Wet and bleach/2: {from: 10-30 s, to: 30-45 s}" in found[f"journal/{BLEACH}.yaml"]
    assert "+ became: 3" in found[f"journal/{BLEACH}.yaml"]
    assert run(archive, "proof").exit_code == 0
    again = run(archive, "adopt", BLEACH)
    assert (again.exit_code, "error[trial-left-behind]" in again.stderr) == (2, True)


def test_an_adopted_revision_says_its_figures_before_and_after(archive: Path) -> None:
    entry = archive / "journal" / f"{IRON}.yaml"
    entry.write_text(entry.read_text().replace("verdict: failed", "verdict: worked"))
    assert run(archive, "adopt", IRON).exit_code == 0
    assert run(archive, "adopt", BLEACH).exit_code == 0
    loaded = load(archive).archive
    assert loaded is not None
    newest = [revisions(loaded.recipe_named[slug], loaded)[0] for slug in ("iron-blue", "walnut-toner")]
    assert [
        (revised.change.revision, row.name, row.difference.text()) for revised in newest for row in revised.rows
    ] == [
        (6, "ferric ammonium citrate, green in Part A, iron", "+20 %"),
        (3, "Wet and bleach, step 2, time", "× 3 at the lower end, +50 % at the upper"),
    ]


def test_what_a_kept_back_step_became_is_not_told_to_all(archive: Path) -> None:
    recipe = archive / "recipes" / "walnut-toner.yaml"
    recipe.write_text(
        recipe.read_text().replace(
            "  - title: Wet and bleach\n", "  - title: Wet and bleach\n    edition: supporters\n"
        )
    )
    done = run(archive, "adopt", BLEACH)
    assert done.exit_code == 0, done.output
    after = texts(archive)["recipes/walnut-toner.yaml"]
    assert "A time is another. Tried on 2026-10-24" in after
    loaded = load(archive).archive
    assert loaded is not None
    (last,) = [c for c in loaded.edition("public").recipe_named["walnut-toner"].changes if c.revision == 3]
    assert not last.times


def test_what_failed_becomes_a_trouble(archive: Path) -> None:
    before = texts(archive)
    asked = run(archive, "adopt", IRON)
    assert (asked.exit_code, "error[remedy-missing]" in asked.stderr) == (2, True)
    done = run(archive, "adopt", IRON, "--symptom", "Tint in the lights", "--remedy", "Stay with the recipe's iron.")
    assert done.exit_code == 0, done.output
    found = changed(before, texts(archive))
    assert found[f"journal/{IRON}.yaml"] == ["+ trouble: tint-in-the-lights"]
    assert "+   - symptom: Tint in the lights" in found["recipes/iron-blue.yaml"]
    assert all(line.startswith("+") for line in found["recipes/iron-blue.yaml"])
    assert run(archive, "proof").exit_code == 0


def test_what_would_not_be_sound_is_not_written(archive: Path) -> None:
    recipe = archive / "recipes" / "walnut-toner.yaml"
    text = recipe.read_text()
    place = text.index("mixtures:\n")
    recipe.write_text(text[:place] + "takes: 13-27 h\n" + text[place:])
    entry = archive / "journal" / f"{BLEACH}.yaml"
    entry.write_text(entry.read_text().replace("30-45 s\n", "40-45 h\n"))
    before = texts(archive)
    done = run(archive, "adopt", BLEACH)
    assert done.exit_code == 1
    assert "error[takes-disagrees]" in done.stderr
    assert "nothing was written" in done.stderr
    assert texts(archive) == before


def test_an_amount_that_an_alias_shares_is_not_changed_unasked(archive: Path) -> None:
    recipe = archive / "recipes" / "iron-blue.yaml"
    recipe.write_text(
        recipe.read_text()
        .replace("        amount: 50 g\n", "        amount: &much 50 g\n")
        .replace("        amount: 20 g\n", "        amount: *much\n")
    )
    entry = archive / "journal" / f"{IRON}.yaml"
    entry.write_text(entry.read_text().replace("verdict: failed", "verdict: worked"))
    before = texts(archive)
    done = run(archive, "adopt", IRON)
    assert (done.exit_code, "error[edit-not-possible]" in done.stderr) == (2, True)
    assert texts(archive) == before


@pytest.mark.parametrize(
    ("entry", "code"),
    [
        ("2026-11-14-a-third-more-iron-in-the-ink", "trial-open"),
        ("2026-09-20-the-same-with-fresh-hypo", "nothing-to-adopt"),
        ("2026-03-15-still-water", "trial-left-behind"),
        ("2026-03-15-still-watter", "unknown-trial"),
    ],
)
def test_what_cannot_be_adopted_is_refused(entry: str, code: str, archive: Path) -> None:
    before = texts(archive)
    done = run(archive, "adopt", entry)
    assert (done.exit_code, f"error[{code}]" in done.stderr) == (2, True), done.output
    assert texts(archive) == before


def test_proof_names_entries_whose_recipe_has_moved_on(archive: Path) -> None:
    done = run(archive, "proof")
    assert done.exit_code == 0
    assert (
        "journal/2026-02-27-an-hour-under-the-tap.yaml tried revision 4; its recipe has moved on since" in done.stdout
    )
    assert "2026-03-15-still-water" not in done.stdout
