"""The check of an archive's prose: every rule over every passage. What a rule asks is in its module.

Not here: spelling, style, and whether a recipe is any good.
"""

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Final

from sitegen.check.prose.amounts import amounts_agree
from sitegen.check.prose.links import links_lead_somewhere, nothing_is_lost
from sitegen.check.prose.names import mixtures_are_used, names_are_of_ingredients
from sitegen.check.prose.pairs import pairs_agree
from sitegen.check.prose.passages import Passage, passages, shared_troubles, trial_passages, welcome
from sitegen.check.prose.readings import (
    percents_have_a_basis,
    ratios_have_one_reading,
    units_have_one_reading,
)
from sitegen.check.prose.setting import Setting, Shared
from sitegen.model.archive import Archive
from sitegen.problems import Problems

PassageRule = Callable[[Passage, Setting], None]

RULES: Final[tuple[PassageRule, ...]] = (
    links_lead_somewhere,
    nothing_is_lost,
    pairs_agree,
    ratios_have_one_reading,
    units_have_one_reading,
)
IN_RECIPES: Final[tuple[PassageRule, ...]] = (
    percents_have_a_basis,
    amounts_agree,
    names_are_of_ingredients,
)

NO_TEXTS: Final[Mapping[str, str]] = MappingProxyType({})


def check_prose(archive: Archive, problems: Problems, *, texts: Mapping[str, str] = NO_TEXTS) -> None:
    """Add what the sentences of the recipes, the journal, shared troubles and the first page get wrong.

    `texts` are the files as read, by name: with them a problem stands under the very words; without
    them it stands where the text begins.
    """
    shared = Shared(archive=archive, problems=problems, texts=texts)
    front = Setting(shared=shared, recipe=None, read=(*welcome(archive.settings), *shared_troubles(archive)))
    for passage in front.read:
        for rule in RULES:
            rule(passage, front)
    for recipe in archive.recipes:
        setting = Setting(shared=shared, recipe=recipe, read=passages(recipe))
        for passage in setting.read:
            for rule in (*RULES, *IN_RECIPES):
                rule(passage, setting)
        mixtures_are_used(setting)
    for trial in archive.trials:
        # Its figures differ from the recipe's on purpose, so none is held against the mixtures.
        tried = archive.recipe_named[trial.recipe]
        setting = Setting(shared=shared, recipe=tried, read=trial_passages(trial))
        for passage in setting.read:
            for rule in RULES:
                rule(passage, setting)
