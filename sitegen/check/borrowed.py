"""Borrowed: the mixtures of other recipes that a recipe's layers and steps work with.

What goes into the recipe's own mixtures is not meant here; see `held`.
"""

from collections.abc import Iterator

from sitegen.check.pairs.kitchen import kitchen_of
from sitegen.model.archive import Archive
from sitegen.model.once import once
from sitegen.model.recipe import Mixture, Recipe


@once
def order_of_use(recipe: Recipe, archive: Archive) -> tuple[str, ...]:
    """Ids of the mixtures that steps link to, in the order of the work, then of those that only layers name."""
    return tuple(dict.fromkeys((*_of_steps(recipe, archive), *_of_layers(recipe))))


@once
def borrowed_mixtures(recipe: Recipe, archive: Archive) -> tuple[Mixture, ...]:
    """Each once, in the order of use.

    A mixture that the archive (or this edition of it) does not hold is left out.
    """
    ids = order_of_use(recipe, archive)
    found = (archive.mixtures.get(id_) for id_ in ids if not id_.startswith(f"{recipe.slug}/"))
    return tuple(mixture for mixture in found if mixture)


def _of_layers(recipe: Recipe) -> Iterator[str]:
    for layer in recipe.layers:
        yield layer.coat
        for bath in (layer.bleach, layer.tone):
            if bath:
                yield bath.mixture


def _of_steps(recipe: Recipe, archive: Archive) -> Iterator[str]:
    for _, found in kitchen_of(recipe, archive).steps:
        yield from (bath.mixture for bath in found)
