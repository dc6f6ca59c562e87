"""Several questions on one command line, run as a user runs them, over the demo archive."""

from functools import partial
from pathlib import Path

import pytest

from tests.cli import terminal
from tests.cli.terminal import DEMO

COATS = (
    "IB-03",
    *("--mixture", "iron-blue-light/light-working", "--make", "120 ml"),
    *("--mixture", "second-coat", "--make", "50 ml"),
)

run = partial(terminal.run, "scale", "--archive", DEMO)
data = partial(terminal.data, "scale", "--archive", DEMO)


def test_each_mixture_begins_a_question_and_what_they_share_is_added_up() -> None:
    answer = data(*COATS)
    assert [(one["mixture"], one["makes"]["value"]) for one in answer["asked"]] == [
        ("iron-blue-light/light-working", "120"),
        ("second-coat", "50"),
    ]
    made = {m["id"]: m["makes"]["value"] for m in answer["mixtures"]}
    assert made["iron-blue/part-a"] == made["iron-blue/part-b"] == "35"  # a twelfth of 120 ml and half of 50 ml
    part_a = answer["total"]["mixtures"][0]
    assert part_a["measure"] == {"value": "35", "unit": "ml"}
    assert [(share["mixture"], share["exact"]["value"]) for share in part_a["for"]] == [
        ("iron-blue-light/light-working", "10"),
        ("second-coat", "25"),
    ]
    citrate = next(t for t in answer["total"]["ingredients"] if t["of"] == "ferric-ammonium-citrate-green")
    assert citrate["exact"] == {"value": "8.75", "unit": "g"}  # 25 g in 100 ml of part A
    assert "mixture" not in answer  # there is not one that is meant


def test_the_answers_stand_in_the_order_of_the_recipe_however_they_are_asked() -> None:
    turned = ("IB-03", *COATS[5:], *COATS[1:5])
    assert data(*turned) == data(*COATS)


def test_options_belong_to_the_mixture_before_them() -> None:
    sheets = ("--sheets", "10 of 20x50 cm", "--coverage", "40 ml/m²", "--allowance", "0 %")
    words = (
        "--mixture",
        "working",
        *sheets,
        "--coats",
        "2",
        "--mixture",
        "first-bath",
        "--people",
        "3",
        "--make",
        "1 l",
    )
    asked = data("iron-blue", *words, "--measures", "US")["asked"]
    assert [one["makes"]["value"] for one in asked] == ["80", "3000"]


def test_a_single_question_takes_its_options_in_any_order() -> None:
    assert data("iron-blue", "--make", "40 ml", "--mixture", "working")["makes"]["value"] == "40"


def test_a_session_is_of_its_own_mixture() -> None:
    bath = ("--mixture", "fix", "--make", "1 l", "--session", "60 of 8x10 in")
    asked = data("salted-paper", "--mixture", "salting", "--make", "100 ml", *bath)["asked"]
    assert [(one["mixture"], "bath" in one) for one in asked] == [("salting", False), ("fix", True)]
    assert asked[1]["makes"]["value"] == "3000"
    said = run("salted-paper", "--mixture", "salting", "--make", "100 ml", *bath).stdout
    assert "fix: a filling of 1000 ml does 25 prints" in said


@pytest.mark.parametrize(
    ("words", "said", "remedy"),
    [
        pytest.param(
            ("iron-blue", "--make", "1 l", "--mixture", "working", "--mixture", "part-a", "--make", "1 l"),
            "`--make` stands before the first of several `--mixture`",
            "write each `--mixture` first",
            id="before the first",
        ),
        pytest.param(
            ("iron-blue", "--mixture", "working", "--make", "1 l", "--make", "2 l"),
            "`--make` is given twice",
            "a second mixture begins with its own `--mixture`",
            id="twice",
        ),
        pytest.param(
            ("iron-blue", "--mixture", "part-a", "--make", "1 l", "--mixture", "part-a", "--make", "2 l"),
            "`part-a` is asked for twice",
            "ask for each mixture once",
            id="the same mixture",
        ),
        pytest.param(
            ("iron-blue", "--mixture", "part-a", "--mixture", "part-b", "--make", "2 l"),
            "say how much is wanted",
            "--make",
            id="nothing asked",
        ),
        pytest.param(
            (*COATS[:-2], "--have", "ferric-ammonium-citrate-green=5 g"),
            "`Light sensitiser` takes of it, too",
            "say how much of `Second sensitiser` to make",
            id="left for one",
        ),
    ],
)
def test_refuses_what_belongs_to_no_question_or_to_two(words: tuple[str, ...], said: str, remedy: str) -> None:
    result = run(*words)
    assert (result.exit_code, result.stdout) == (2, "")
    assert said in result.stderr
    assert remedy in result.stderr


def test_the_words_end_with_what_everything_takes() -> None:
    said = run(*COATS).stdout
    assert "second-coat: 50 ml, factor 0.5" in said
    assert said.index("All in all, of what goes into others") < said.index("All in all, to have at hand")
    assert "10 ml for Light sensitiser, 25 ml for Second" in said
    assert max(map(len, said.splitlines())) <= 80


def test_the_sheet_carries_every_question(tmp_path: Path) -> None:
    sheet = tmp_path / "both.pdf"
    assert run(*COATS, "--sheet", str(sheet)).exit_code == 0
    assert sheet.read_bytes().startswith(b"%PDF")
