"""Substances and a condition that the recipe's texts tell of: rags, flames, a closed bottle, strong heat."""

from collections.abc import Iterator

from sitegen.check.pairs.finding import Finding
from sitegen.check.pairs.kitchen import Kitchen
from sitegen.check.pairs.present import Present
from sitegen.check.pairs.table import Condition, Rule, sides, table
from sitegen.check.pairs.texts import block_texts, named, tells
from sitegen.model.recipe import Mixture


def under_conditions(kitchen: Kitchen) -> Iterator[Finding]:
    """Every rule with a condition, at the first mixture where it holds."""
    said: set[str] = set()
    for mixture in kitchen.recipe.mixtures:
        for one in kitchen.held[mixture.id]:
            for id_, rule in _rules(one):
                word = _word(kitchen, mixture, table().conditions[rule.said or ""])
                if not word or id_ in said:
                    continue
                said.add(id_)
                yield Finding(
                    id=id_,
                    rule=rule,
                    where="text",
                    names=(one.name, word),
                    groups=one.groups,
                    mixtures=(mixture.id,),
                    severity=rule.severity,
                    at=mixture.at,
                )


def _rules(one: Present) -> Iterator[tuple[str, Rule]]:
    first, _ = sides(one.substance, one.groups)
    for id_, rule in table().rules.items():
        if id_ in first and rule.said:
            yield id_, rule


def _word(kitchen: Kitchen, mixture: Mixture, condition: Condition) -> str:
    """What tells of the condition; '' when nothing does, or when the hazard block answers it."""
    recipe = kitchen.recipe
    if condition.unless_said and named(block_texts(recipe.hazards), condition.unless_said):
        return ""
    if condition.with_another and len({one.substance for one in kitchen.held[mixture.id]}) == 1:
        return ""
    if not condition.everywhere:
        return kitchen.tells(mixture, condition)
    steps = (step.do.text for step, _ in kitchen.steps)
    mixing = (prose.text for each in recipe.mixtures for prose in each.mixing)
    return tells(condition, (*steps, *mixing, *recipe.needs))
