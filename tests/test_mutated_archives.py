"""Mutated recipe files through the whole way: never a traceback, never a partly written build."""

import tempfile
from importlib.resources import files
from pathlib import Path

from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from sitegen.check.whole import check
from sitegen.cli import main
from sitegen.compute.whole import compute
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import read_theme
from sitegen.render.edition import editions
from sitegen.render.site import pages

START = files("sitegen").joinpath("data", "start")
SETTINGS = START.joinpath("archive.yaml").read_text(encoding="utf-8")
LINES = START.joinpath("recipes", "first-blue.yaml").read_text(encoding="utf-8").splitlines()
CARDS = {name: text for name, text in base_cards().items() if any(w in name for w in ("water", "ferr", "citric"))}
# What authors' slips are made of: other amounts, other words, YAML's own signs.
SLIPS = st.sampled_from(
    ["", "1:10", "2 %", "to make 1 l", "2 parts", "30 times fibre", "as needed", "0 g", "1e3 ml", "~", "no", "[",
     "{a: b}", "- x", "*a", "&a b", "<<: x", "part-a: 1 part", "water: 5 ml", "working: 1 part", "edition: secret",
     "\t", "'", ": :", "😀", "[x](amount:water)", "<b>", "makes: 2 kg", "density: 1 g/ml", "12:30", "010"]
)  # fmt: skip


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """The starter's recipe with one to three slips: lines dropped, doubled, swapped or half overwritten."""
    lines = list(LINES)
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(lines) - 1))
        kind = draw(st.sampled_from(["drop", "double", "swap", "value", "line"]))
        if kind == "drop":
            del lines[at]
        elif kind == "double":
            lines.insert(at, lines[at])
        elif kind == "swap":
            other = draw(st.integers(0, len(lines) - 1))
            lines[at], lines[other] = lines[other], lines[at]
        elif kind == "value":
            head, colon, _ = lines[at].partition(": ")
            lines[at] = head + colon + draw(SLIPS)
        else:
            indent = len(lines[at]) - len(lines[at].lstrip())
            lines.insert(at, " " * indent + draw(SLIPS))
    return "\n".join(lines) + "\n"


@given(mutated())
def test_a_slip_gives_pages_or_problems_and_never_a_traceback(recipe: str) -> None:
    problems = Problems()
    archive = check(
        compose_sources({**CARDS, "archive.yaml": SETTINGS, "recipes/first-blue.yaml": recipe}, problems), problems
    )
    if archive is None:
        assert problems.failed
        return
    compute(archive, problems)
    if not problems.failed:
        for edition in editions(archive):
            assert [p.path for p in pages(edition.computed, read_theme(), edition.name)]


@given(mutated())
@settings(max_examples=15)
def test_a_slip_leaves_the_last_good_build_or_a_whole_new_one(recipe: str) -> None:
    with tempfile.TemporaryDirectory() as folder:
        home, out = Path(folder) / "mine", Path(folder) / "out"
        runner = CliRunner()
        assert runner.invoke(main, ["start", str(home)]).exit_code == 0
        (home / "recipes" / "first-blue.yaml").write_text(recipe, encoding="utf-8")
        result = runner.invoke(main, ["compile", "--archive", str(home), "--out", str(out)])
        assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
        assert result.exit_code in (0, 1)
        assert "Traceback" not in result.output
        made = sorted(p.name for p in out.iterdir()) if out.exists() else []
        assert made == (["public", "supporters"] if result.exit_code == 0 else [])
