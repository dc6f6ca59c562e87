"""Cross-references: which recipes hold a substance, use another recipe or vary it; worked out once."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from sitegen.check.borrowed import borrowed_mixtures
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.render.incompatible import Sided, sided


@dataclass(frozen=True, slots=True, kw_only=True)
class CrossReferences:
    """Recipes by what they refer to, each in the order of titles; what nothing refers to is missing."""

    holding: Mapping[str, tuple[Recipe, ...]]
    """By substance id: the recipes that weigh it out themselves."""
    using: Mapping[str, tuple[Recipe, ...]]
    """By recipe slug: the recipes that take one of its mixtures."""
    varying: Mapping[str, tuple[Recipe, ...]]
    """By recipe slug: the recipes derived from it."""
    grouped: Mapping[str, tuple[Recipe, ...]]
    """By process id: its recipes."""
    sided: Sided
    """The substances that recipes weigh out, by the rules of pairs."""


def cross_references(archive: Archive) -> CrossReferences:
    """One pass over an archive's recipes."""
    recipes = by_title(archive.recipes)
    holding = _gathered((card, r) for r in recipes for card in _cards(r, archive))
    return CrossReferences(
        holding=holding,
        using=_gathered((slug, r) for r in recipes for slug in borrowed(r, archive)),
        varying=_gathered((r.derived_from.recipe, r) for r in recipes if r.derived_from),
        grouped=_gathered((r.process, r) for r in recipes),
        sided=sided(card for card in archive.substances if card.id in holding),
    )


def by_title(recipes: Iterable[Recipe]) -> tuple[Recipe, ...]:
    """Recipes from A to Z; the code settles equal titles."""
    return tuple(sorted(recipes, key=lambda r: (r.title.casefold(), r.code)))


def borrowed(recipe: Recipe, archive: Archive) -> tuple[str, ...]:
    """The slugs of the recipes whose mixtures go into this one's, or are worked with here, once each."""
    taken = (line.mixture for m in recipe.mixtures for line in m.lines if line.mixture)
    worked = (mixture.id for mixture in borrowed_mixtures(recipe, archive))
    owners = (id_.partition("/")[0] for id_ in (*taken, *worked))
    return tuple(dict.fromkeys(slug for slug in owners if slug != recipe.slug))


def _cards(recipe: Recipe, archive: Archive) -> tuple[str, ...]:
    forms = (line.form for m in recipe.mixtures for line in m.lines if line.form)
    return tuple(dict.fromkeys(archive.substance_of[form].id for form in forms))


def _gathered(pairs: Iterable[tuple[str, Recipe]]) -> dict[str, tuple[Recipe, ...]]:
    found: dict[str, list[Recipe]] = {}
    for key, recipe in pairs:
        found.setdefault(key, []).append(recipe)
    return {key: tuple(recipes) for key, recipes in found.items()}
