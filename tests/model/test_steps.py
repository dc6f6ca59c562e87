"""Steps by name: stages by title, steps by number, everything else refused with what there is."""

import pytest

from sitegen.model.steps import StepPlace, find_step
from sitegen.problems import Refusal

STAGES = [("Coat", 3), ("Wash, fix, wash", 2), ("Print 1/2", 1)]


@pytest.mark.parametrize(
    ("written", "place"),
    [
        ("Coat", StepPlace(stage=1)), ("coat / 3", StepPlace(stage=1, step=3)),
        ("WASH,  fix, wash/1", StepPlace(stage=2, step=1)), ("Print 1/2/1", StepPlace(stage=3, step=1)),
    ],
)  # fmt: skip
def test_a_step_is_found_by_title_and_number(written: str, place: StepPlace) -> None:
    assert find_step(written, STAGES) == place


@pytest.mark.parametrize(
    ("written", "says", "helps"),
    [
        ("Coat/4", "has 3 steps", "write `Coat/1`"),
        ("Coat/0", "has 3 steps", "write `Coat/1`"),
        ("Coats", "no stage `Coats`", "did you mean `Coat`?"),
        ("Dry", "no stage `Dry`", "write `Coat` or `Wash, fix, wash` or `Print 1/2`"),
    ],
)
def test_what_is_no_step_is_refused(written: str, says: str, helps: str) -> None:
    with pytest.raises(Refusal) as said:
        find_step(written, STAGES)
    assert says in said.value.message
    assert said.value.help.startswith(helps)


def test_without_stages_there_is_no_step() -> None:
    with pytest.raises(Refusal) as said:
        find_step("Coat", [])
    assert said.value.help == "delete `step`: there are no stages"
