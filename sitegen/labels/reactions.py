"""Reactions: pairs in a mixture that make something else, so that a sum over ingredients is not the whole truth.

The rules are those of dangerous pairs (`check.pairs`), remarks on results among them. A label cannot be derived
for what forms; it says so.
"""

from collections.abc import Callable
from functools import lru_cache
from typing import Final

from sitegen.check.pairs.kitchen import kitchen_of
from sitegen.check.pairs.one_mixture import in_one_mixture
from sitegen.check.pairs.present import draws_on
from sitegen.model.archive import Archive

CHANGES: Final = "Composition changes: the label is of what goes in, not of what forms."

Reactions = Callable[[str], tuple[str, ...]]


def reactions(archive: Archive) -> Reactions:
    """A look-up by mixture id: each pair with what it makes, here or in a mixture that goes in."""

    @lru_cache(maxsize=256)
    def of_recipe(slug: str) -> dict[str, tuple[str, ...]]:
        found: dict[str, list[str]] = {}
        for one in in_one_mixture(kitchen_of(archive.recipe_named[slug], archive)):
            found.setdefault(one.mixtures[0], []).append(f"{one.names[0]} with {one.names[1]}: {one.rule.makes}")
        return {id_: tuple(lines) for id_, lines in found.items()}

    def find(mixture: str) -> tuple[str, ...]:
        ids = (mixture, *sorted(draws_on(archive.mixtures[mixture], archive)))
        lines = (line for id_ in ids for line in of_recipe(id_.partition("/")[0]).get(id_, ()))
        return tuple(dict.fromkeys(lines))

    return find
