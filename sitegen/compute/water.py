"""What a recipe asks of its water: where it uses water, which rules speak there, and what they say to one water.

The rules are data (`water_table`). A figure that is not known never counts as harmless: the rule is then told with
what is missing. `assets/water.js` is the browser's twin of `state` and `figure`; it is handed the same plain numbers.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from typing import Final, Literal

from sitegen.check.pairs.kitchen import Kitchen, kitchen_of
from sitegen.check.pairs.present import WATER, present
from sitegen.check.pairs.texts import named
from sitegen.compute.water_pairs import NOTHING, AcidHere, acid_at
from sitegen.compute.water_table import RuleDoc, acid_per_mmol, lost_per_mg, water_table
from sitegen.model.archive import Archive
from sitegen.model.once import once
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Recipe, Stage, Step
from sitegen.model.water import Measure, Reading, Role, Water, parse_reading

State = Literal["always", "holds", "at times", "unknown", "below"]
UNNAMED: Final = Water(id="", name="a water that is not known", readings={})
"""Where an archive names no water."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sum:
    """A figure that is `per` times a measure's reading: so much `unit` of `of`; `of` is as it is printed."""

    measure: Measure
    per: Fraction
    unit: str
    of: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """A rule at a place. `over` is in the measure's base; `acid` and `lost` are the figures it gives, if any."""

    rule: str
    title: str
    says: str
    brief: str
    source: str
    measure: Measure | None = None
    over: Reading | None = None
    acid: Sum | None = None
    lost: Sum | None = None
    refused: str = ""
    """Why no acid is worked out, by the rules of pairs."""
    heed: str = ""
    longest: Quantity | None = None
    too_long: bool = False
    """Whether the step as written may take longer than that."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WaterPlace:
    """A step (numbers from 1) or a mixture that uses water, and the rules that speak there."""

    role: Role
    name: str
    stage: int = 0
    step: int = 0
    mixture: str = ""
    advice: tuple[Advice, ...] = ()

    @property
    def id(self) -> str:
        """Unique in its recipe: `mixing-part-a`, `stage-1-step-2`."""
        return f"mixing-{self.mixture.partition('/')[2]}" if self.mixture else f"stage-{self.stage}-step-{self.step}"


@once
def water_places(recipe: Recipe, archive: Archive) -> tuple[WaterPlace, ...]:
    """Every place of a recipe where the water matters, mixtures first; without rules only those that say so."""
    kitchen = kitchen_of(recipe, archive)
    return (*_mixtures(kitchen), *_steps(kitchen))


def state(advice: Advice, water: Water) -> State:
    """Whether a rule holds for a water: always, for all of its range, for a part of it, or not; or nobody knows."""
    if advice.measure is None or advice.over is None:
        return "always"
    reading = water.readings.get(advice.measure)
    if reading is None:
        return "unknown"
    if reading.high <= advice.over.high:
        return "below"
    return "holds" if reading.low > advice.over.high else "at times"


def figure(found: Sum, water: Water) -> tuple[str, str] | None:
    """A sum for a water, rounded at both ends; None where its measure is not known."""
    reading = water.readings.get(found.measure)
    return None if reading is None else (rounded(reading.low * found.per), rounded(reading.high * found.per))


def rounded(value: Fraction) -> str:
    """To hundredths below one, to tenths below ten, to ones above; half up.

    >>> rounded(Fraction(5, 1000)), rounded(Fraction("0.126")), rounded(Fraction("9.96")), rounded(Fraction(12))
    ('0.01', '0.13', '10', '12')
    """
    places = 2 if value < 1 else 1 if value < 10 else 0
    scaled = (2 * value * 10**places + 1) // 2
    digits = f"{scaled:0{places + 1}d}"
    return f"{digits[:-places]}.{digits[-places:]}".rstrip("0").rstrip(".") if places else digits


def _mixtures(kitchen: Kitchen) -> Iterator[WaterPlace]:
    archive = kitchen.archive
    for mixture in kitchen.recipe.mixtures:
        if not any(line.form and archive.substance_of[line.form].id == WATER for line in mixture.lines):
            continue
        held = frozenset(group for one in present(mixture, archive) for group in one.groups)
        names = frozenset(one.substance for one in present(mixture, archive))
        rules = [(id_, rule) for id_, rule in water_table().rules.items() if "mixing" in rule.uses]
        advice = tuple(_advice(id_, rule) for id_, rule in rules if _concerns(rule, held, names))
        if advice:
            yield WaterPlace(role="mixing", name=mixture.name, mixture=mixture.id, advice=advice)


def _steps(kitchen: Kitchen) -> Iterator[WaterPlace]:
    number = 0
    for at, stage in enumerate(kitchen.recipe.stages, start=1):
        for n, step in enumerate(stage.steps, start=1):
            if step.water:
                yield _place(step, stage, (at, n, number), kitchen)
            number += 1


def _place(step: Step, stage: Stage, where: tuple[int, int, int], kitchen: Kitchen) -> WaterPlace:
    assert step.water
    at, n, number = where
    held, names = _in_recipe(kitchen)
    found = []
    for id_, rule in water_table().rules.items():
        by_word = bool(rule.words) and named(_told_by(kitchen.recipe), rule.words)
        if step.water not in rule.uses or not (by_word or _concerns(rule, held, names)):
            continue
        here = acid_at(rule.acid, number, kitchen, rule.carried or "") if rule.acid else NOTHING
        found.append(_advice(id_, rule, here, step.lasts))
    # One bath takes one dose: what is told of every water has it, and what is told of some need not say it again.
    if any(one.acid and one.measure is None for one in found):
        found = [one if one.measure is None else replace(one, acid=None, heed="") for one in found]
    name = f"{stage.title}, step {n}"
    return WaterPlace(role=step.water, name=name, stage=at, step=n, advice=tuple(found))


def _in_recipe(kitchen: Kitchen) -> tuple[frozenset[str], frozenset[str]]:
    """Reactive groups and substances of everything that is met in a recipe."""
    held = [one for found in kitchen.held.values() for one in found]
    return frozenset(group for one in held for group in one.groups), frozenset(one.substance for one in held)


def _told_by(recipe: Recipe) -> tuple[str, ...]:
    return (recipe.title, recipe.summary, *recipe.keywords, *recipe.needs)


def _concerns(rule: RuleDoc, groups: frozenset[str], substances: frozenset[str]) -> bool:
    return bool(groups & set(rule.groups) or substances & set(rule.substances))


def _advice(id_: str, rule: RuleDoc, here: AcidHere = NOTHING, lasts: Quantity | None = None) -> Advice:
    acid = acid_sum(rule.acid) if rule.acid and not here.refused else None
    takes = rule.takes
    lost = (
        Sum(measure=rule.measured, per=lost_per_mg(takes), unit="mg", of=takes.name)
        if takes and rule.measured
        else None
    )
    return Advice(
        rule=id_,
        title=rule.title,
        says=rule.says,
        brief=rule.brief,
        source=rule.source,
        measure=rule.measure,
        over=limit(rule),
        acid=acid,
        lost=lost,
        refused=here.refused,
        heed=here.heed if acid else "",
        longest=rule.longest,
        too_long=bool(rule.longest and lasts and lasts.base()[1] > rule.longest.base()[1]),
    )


def limit(rule: RuleDoc) -> Reading | None:
    """The figure above which a rule speaks, in its measure's base."""
    return parse_reading(rule.measure, rule.over) if rule.measure and rule.over else None


@cache
def acid_sum(acid: str) -> Sum:
    """How much of an acid of the table a litre takes, by its alkalinity."""
    doc = water_table().acids[acid]
    return Sum(measure="alkalinity", per=acid_per_mmol(acid), unit=doc.unit, of=doc.name)
