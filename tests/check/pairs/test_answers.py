"""What a recipe says to a pair: answers to warnings, declared processes, and what is printed of both."""

import pytest

from sitegen.check.pairs import pair_lines
from sitegen.check.pairs.table import table
from sitegen.model.recipe import Intention
from tests.check.pairs.bench import archive, codes, mix, recipe, said, stage

WEAK = "sodium-sulfite-anhydrous + citric-acid-monohydrate"
PROCESSES: list[tuple[Intention, str, tuple[str, ...]]] = [
    ("acid etch", "nitric-acid-65-percent 10 ml", ("Copper plate",)),
    ("ammoniacal silver", "silver-nitrate + ammonia-10-percent", ()),
    ("dichromated colloid", "potassium-dichromate + gum-arabic + iron-oxide", ()),
    ("silver with ferric oxalate", "silver-nitrate + ferric-oxalate-hexahydrate", ()),
]


def test_an_answer_silences_a_warning_and_is_printed() -> None:
    made = recipe(WEAK, answers={"X34": "A trace of acid, in the open, by a window."})
    assert codes(made) == []
    (line,) = pair_lines(made, archive(made))
    assert (line.kind, line.rule, line.text) == ("answered", "X34", "A trace of acid, in the open, by a window.")
    assert line.title == "sodium sulfite, anhydrous and citric acid, monohydrate: sulfur dioxide"
    assert line.source.startswith("ICSC 1134")


def test_a_warning_hands_over_the_lines_that_answer_it() -> None:
    (one,) = said(recipe(WEAK))
    assert (one.code, one.level) == ("dangerous-pair", "warning")
    assert one.help.endswith("answers:\n  - pair: X34\n    reason: Why it is safe here, in a sentence.")


@pytest.mark.parametrize(
    ("contains", "pair", "code", "level"),
    [
        pytest.param("sodium-sulfite-anhydrous + sulfuric-acid-battery", "X33", "answer-to-error", "error", id="error"),
        pytest.param("sodium-sulfite-anhydrous", "X34", "answer-unneeded", "warning", id="no-pair"),
        pytest.param("silver-nitrate + sodium-chloride", "X53", "answer-unneeded", "warning", id="note"),
        pytest.param("sodium-sulfite-anhydrous", "X999", "unknown-pair", "error", id="no-rule"),
    ],
)
def test_an_answer_that_answers_nothing(contains: str, pair: str, code: str, level: str) -> None:
    assert (code, level) in codes(recipe(contains, answers={pair: "Because."}))


def test_an_error_stays_an_error_beside_its_answer() -> None:
    made = recipe("sodium-sulfite-anhydrous + sulfuric-acid-battery", answers={"X33": "Because."})
    assert codes(made) == [("answer-to-error", "error"), ("dangerous-pair", "error")]


@pytest.mark.parametrize(("name", "contains", "needs"), PROCESSES)
def test_a_process_that_is_not_declared_is_an_error(name: Intention, contains: str, needs: tuple[str, ...]) -> None:
    problems = said(recipe(contains, needs=needs))
    assert ("error", f"intends: [{name}]") in [(p.level, p.help.split("\n")[-1]) for p in problems]


@pytest.mark.parametrize(("name", "contains", "needs"), PROCESSES)
def test_a_declared_process_carries_its_cautions(name: Intention, contains: str, needs: tuple[str, ...]) -> None:
    made = recipe(contains, needs=needs, intends=(name,))
    assert [p for p in said(made) if p.level == "error"] == []
    line = pair_lines(made, archive(made))[0]
    assert (line.kind, line.title) == ("intended", name)
    assert line.cautions == table().intentions[name].cautions
    assert line.text == table().intentions[name].use_now


@pytest.mark.parametrize(("name", "contains", "needs"), PROCESSES[1:])
def test_what_holds_an_intended_pair_is_not_kept(name: Intention, contains: str, needs: tuple[str, ...]) -> None:
    def kept(keeps: str, store: str = "") -> bool:
        made = recipe(mix(contains, keeps=keeps, store=store), needs=needs, intends=(name,))
        return ("intended-pair-kept", "error") in codes(made)

    assert kept("2 days")
    assert kept("", "In brown glass.")
    assert not kept("2 h")
    assert not kept("", "Not kept.")
    assert kept("3 h") == (name == "ammoniacal silver")


def test_a_declaration_covers_only_its_process() -> None:
    alcohol = recipe("potassium-dichromate + ethanol-96-percent", intends=("dichromated colloid",))
    assert ("dangerous-pair", "error") in codes(alcohol)
    assert ("intention-unneeded", "warning") in codes(alcohol)
    sugar = recipe("potassium-dichromate + sugar", intends=("dichromated colloid",))
    assert ("dangerous-pair", "error") in codes(sugar)


def test_a_declared_pair_that_is_heated_is_an_error_all_the_same() -> None:
    contains = "silver-nitrate + ferric-oxalate-hexahydrate"
    made = recipe(mix(contains, mixing=["Heat it."]), intends=("silver with ferric oxalate",))
    assert ("pair-warmed", "error") in codes(made)


def test_a_dye_with_lamp_black_is_the_same_process() -> None:
    made = recipe("potassium-dichromate + gum-arabic + carbon-black", intends=("dichromated colloid",))
    assert codes(made) == []


def test_a_mixture_of_another_recipe_brings_its_cautions_and_is_not_kept_either() -> None:
    coat = recipe(
        mix("potassium-dichromate + gum-arabic", "coat", slug="o"), slug="o", intends=("dichromated colloid",)
    )
    made = recipe(mix("o/coat 10 ml"))
    assert [p.code for p in said(made, coat)] == []
    assert [line.title for line in pair_lines(made, archive(made, coat))] == ["dichromated colloid"]
    assert ("intended-pair-kept", "error") in codes(recipe(mix("o/coat 10 ml", keeps="5 days")), coat)


def test_open_warnings_and_remarks_are_printed_after_answers() -> None:
    contains = f"{WEAK} + silver-nitrate + sodium-chloride + gelatine"
    made = recipe(contains, answers={"X34": "In the open."})
    lines = pair_lines(made, archive(made))
    assert [(line.kind, line.rule) for line in lines] == [
        ("answered", "X34"), ("warning", "X100"), ("remark", "X54"), ("remark", "X53"),
    ]  # fmt: skip
    assert lines[1].source == "general chemical knowledge, not read in a source"


def test_what_has_no_groups_is_said_to_be_unchecked() -> None:
    made = recipe(mix("nothing-known + sugar"), mix("nothing-known", "other"))
    (line,) = pair_lines(made, archive(made))
    assert (line.kind, line.title) == ("unchecked", "nothing known")
    assert "not the same as safe" in line.text


def test_the_text_of_a_step_does_not_answer() -> None:
    made = recipe(WEAK, stages=[stage("Mind the sulfur dioxide of [it](mixture:m).")])
    assert codes(made) == [("dangerous-pair", "warning")]
