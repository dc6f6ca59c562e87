"""Steps by name: the stage, and the step of it, that the cause of a trouble points at."""

import difflib
from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.problems import Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class StepPlace:
    """A stage by its number from 1, and a step of it likewise, or None for the whole stage."""

    stage: int
    step: int | None = None


def find_step(written: str, stages: Sequence[tuple[str, int]]) -> StepPlace:
    """The place that `Coat` or `Coat/2` names, given each stage's title and how many steps it has.

    `Refusal` with `unknown-step` when there is none.

    >>> find_step("wash/2", [("Coat", 3), ("Wash", 2)])
    StepPlace(stage=2, step=2)
    """
    title, slash, number = written.rpartition("/")
    if not slash or not number.strip().isdecimal():
        title, number = written, ""
    for at, (name, steps) in enumerate(stages, start=1):
        if _plain(name) != _plain(title):
            continue
        if not number:
            return StepPlace(stage=at)
        if 1 <= int(number) <= steps:
            return StepPlace(stage=at, step=int(number))
        has = "one step" if steps == 1 else f"{steps} steps"
        raise Refusal("unknown-step", f"the stage `{name}` has {has}", f"write `{name}/1`, or `{name}` for all of it")
    raise Refusal("unknown-step", f"there is no stage `{title.strip()}`", _instead(title, [name for name, _ in stages]))


def find_one_step(written: str, stages: Sequence[tuple[str, int]]) -> tuple[int, int]:
    """The numbers from 1 of the stage and the step that `Expose/1` names. `Refusal` for none, and for a whole stage.

    >>> find_one_step("wash/2", [("Coat", 3), ("Wash", 2)])
    (2, 2)
    """
    place = find_step(written, stages)
    if place.step is None:
        title = stages[place.stage - 1][0]
        raise Refusal("unknown-step", f"`{title}` is a whole stage; a time belongs to a step", f"write `{title}/1`")
    return place.stage, place.step


def _instead(title: str, titles: Sequence[str]) -> str:
    if not titles:
        return "delete `step`: there are no stages"
    by_plain = {_plain(name): name for name in titles}
    near = difflib.get_close_matches(_plain(title), by_plain, n=3, cutoff=0.7)
    named = " or ".join(f"`{name}`" for name in ([by_plain[n] for n in near] or titles))
    return f"did you mean {named}?" if near else f"write {named}"


def _plain(title: str) -> str:
    return " ".join(title.casefold().split())
