"""Lineage of the work: times and temperatures that differ in stages of equal titles.

Steps meet by their numbers where a stage has as many in both recipes; else they are not compared, for one recipe's
step may be another's wait.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.compute.difference import of_quantities
from sitegen.compute.lineage import Fact
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Recipe, Stage


@dataclass(frozen=True, slots=True, kw_only=True)
class StageCompared:
    """A stage that both recipes have, with what differs in it; `note` says why steps are not compared one by one."""

    title: str
    facts: tuple[Fact, ...]
    note: str = ""


def work(recipe: Recipe, parent: Recipe) -> tuple[StageCompared, ...]:
    """Stages of equal titles that differ, in the recipe's order; of several of one title the first."""
    theirs: dict[str, Stage] = {}
    for stage in parent.stages:
        theirs.setdefault(_plain(stage.title), stage)
    met = ((theirs.pop(_plain(stage.title), None), stage) for stage in recipe.stages)
    found = (_stage(was, then) for was, then in met if was)
    return tuple(one for one in found if one.facts or one.note)


def _stage(was: Stage, then: Stage) -> StageCompared:
    alike = len(was.steps) == len(then.steps)
    facts = tuple(f for f in (*_steps(was, then), _wait(was, then)) if _differs(f)) if alike else ()
    note = (
        "" if alike else f"the parent has {_counted(was)} here, this recipe {_counted(then)}: not compared one by one"
    )
    return StageCompared(title=then.title, facts=facts, note=note)


def _counted(stage: Stage) -> str:
    return "one step" if len(stage.steps) == 1 else f"{len(stage.steps)} steps"


def _steps(was: Stage, then: Stage) -> Iterator[Fact]:
    only = len(then.steps) == 1
    for number, (one, other) in enumerate(zip(was.steps, then.steps, strict=True), start=1):
        at = "" if only else f"step {number}, "
        yield _fact(f"{at}time", one.lasts, other.lasts)
        yield _fact(f"{at}temperature", one.temperature, other.temperature)


def _wait(was: Stage, then: Stage) -> Fact:
    return _fact("wait after it", was.then_wait, then.then_wait)


def _fact(name: str, was: Quantity | None, then: Quantity | None) -> Fact:
    return Fact(name=name, was=was, then=then, difference=of_quantities(was, then))


def _differs(fact: Fact) -> bool:
    return fact.difference.verdict != "same"


def _plain(title: str) -> str:
    return " ".join(title.casefold().split())
