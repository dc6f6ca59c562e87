"""Acid and what a print meets: no acid is worked out where the rules of dangerous pairs would warn.

A print brings along its coat and all it has met before, washed or not, and goes on into the next bath unless a step
with water of its own lies between. The strength of the acid is left open, so that the worst of each rule is taken.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from sitegen.check.pairs.finding import groups_of
from sitegen.check.pairs.judge import Meeting, Verdict, verdicts
from sitegen.check.pairs.kitchen import Kitchen
from sitegen.check.pairs.present import Present
from sitegen.check.pairs.table import table
from sitegen.compute.water_table import water_table
from sitegen.model.archive import Archive


@dataclass(frozen=True, slots=True, kw_only=True)
class AcidHere:
    """Whether an acid may be worked out at a place: why not, or what to heed if so; '' for nothing."""

    refused: str = ""
    heed: str = ""


NOTHING: Final = AcidHere()


def acid_at(acid: str, number: int, kitchen: Kitchen, carried: str) -> AcidHere:
    """An acid (a form) in the water of a recipe's step, by the step's number from 0 through all stages."""
    archive = kitchen.archive
    if not {acid, carried or acid} <= archive.substance_of.keys():
        return AcidHere(
            refused="No acid is worked out here: this archive's cards do not name the substances of the rule."
        )
    sheet = [one for id_ in _before(number, kitchen) for one in kitchen.held[id_]]
    sheet += [_jar(carried, archive)] if carried else []
    baths = [one for id_ in _beside(number, kitchen) for one in kitchen.held[id_]]
    for one in (*sheet, *baths):
        if one.groups & set(water_table().no_acid_with):
            return AcidHere(
                refused=f"No acid is worked out here: the print meets {one.name}, which acid must not reach."
            )
    jar, warm = _jar(acid, archive), _is_warm(number, kitchen)
    found = [*_found(jar, sheet, carried=True, warmed=warm), *_found(jar, baths, carried=False, warmed=warm)]
    for one, verdict in found:
        if verdict.severity != "note":
            rule = f"pair rule {verdict.id}: {verdict.rule.makes}"
            return AcidHere(refused=f"No acid is worked out here, because of {one.name} ({rule}).")
    return AcidHere(heed=" ".join(_heeded(found)))


def _heeded(found: Sequence[tuple[Present, Verdict]]) -> Iterator[str]:
    """What to heed, once a rule, with everything that brings it up."""
    rules = {verdict.id: verdict.rule for _, verdict in found}
    for id_, rule in rules.items():
        names = ", ".join(dict.fromkeys(one.name for one, verdict in found if verdict.id == id_))
        when = f"; {rule.when}" if rule.when else ""
        yield f"Acid and {names}: {rule.makes}{when} (pair rule {id_})."


def _jar(form: str, archive: Archive) -> Present:
    card = archive.substance_of[form]
    return Present(substance=card.id, name=card.name.casefold(), groups=frozenset(card.hazards.groups))


def _found(acid: Present, met: list[Present], *, carried: bool, warmed: bool) -> Iterator[tuple[Present, Verdict]]:
    meeting = Meeting(company=groups_of(acid, *met), carried=carried, warmed=warmed)
    for one in met:
        for verdict in verdicts(acid, one, meeting):
            yield one, verdict


def _is_warm(number: int, kitchen: Kitchen) -> bool:
    limit, at = table().conditions["warmed"].over, kitchen.steps[number][0].temperature
    return bool(limit and at and at.base()[1] > limit.base()[1])


def _before(number: int, kitchen: Kitchen) -> Iterator[str]:
    """Mixtures that the sheet brings along: its coats, and every bath before."""
    yield from (mixture.id for mixture in kitchen.recipe.mixtures if mixture.coverage)
    for _, found in kitchen.steps[:number]:
        yield from (bath.mixture for bath in found)


def _beside(number: int, kitchen: Kitchen) -> Iterator[str]:
    """The step's own bath, and the next one unless a step with water of its own lies between."""
    yield from (bath.mixture for bath in kitchen.steps[number][1])
    for step, found in kitchen.steps[number + 1 :]:
        if step.water is not None:
            return
        if found:
            yield from (bath.mixture for bath in found)
            return
