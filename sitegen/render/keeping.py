"""Keeping: pages of the last rebuild that a preview need not make again, because nothing they are made from changed.

A page is kept by the values it is made from, which are compared, and never by a file's time. What a recipe's pages
are made from is its family: the recipe, all recipes that it names (and those that they name), and those that name
it. Recipes are found wherever their names stand, in whatever field; too many only make a rebuild slower. What
shows all recipes together (lists, the index) is never kept. A compile keeps nothing.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import Any, Final, Protocol, TypeVar

from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.model.substance import Substance
from sitegen.read.theme import Theme
from sitegen.render.cross import cross_references
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.shown import pictures_of

Make = Callable[[], Iterable[Page]]
Value = TypeVar("Value")

MOST_BYTES: Final = 300_000_000
"""Of all pages that are kept; what is beyond is made at every save."""
_NAME: Final = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*")


class Keeping(Protocol):
    """Whether pages are made or were kept. `make` gives them; it is pure."""

    def of_recipe(self, kind: str, recipe: Recipe, make: Make) -> Iterable[Page]:
        """A recipe's pages of one kind."""

    def of_card(self, card: Substance, make: Make) -> Iterable[Page]:
        """A substance's page."""


class _Anew:
    """Nothing is kept."""

    def of_recipe(self, kind: str, recipe: Recipe, make: Make) -> Iterable[Page]:
        return make()

    def of_card(self, card: Substance, make: Make) -> Iterable[Page]:
        return make()


ANEW: Final = _Anew()


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What an edition's pages are made from beside its archive."""

    edition: str
    theme: Theme
    pictures: Pictures


@dataclass(slots=True)
class Kept:
    """What one preview keeps from a rebuild to the next, and no longer: what the next has no use for is gone."""

    values: dict[tuple[str, str], Any] = field(default_factory=dict)
    pages: dict[tuple[str, str], tuple[tuple[object, ...], tuple[Page, ...]]] = field(default_factory=dict)
    named: dict[str, tuple[Recipe, frozenset[str]]] = field(default_factory=dict)

    def settled(self, archive: Archive) -> Archive:
        """An equal archive, whose parts are the very same objects as last time where they are equal."""
        settled = replace(
            archive,
            settings=self._same("settings", "", archive.settings),
            recipes=tuple(self._same("recipe", r.slug, r) for r in archive.recipes),
            substances=tuple(self._same("card", s.id, s) for s in archive.substances),
            trials=tuple(self._same("trial", t.slug, t) for t in archive.trials),
        )
        held = {("settings", "")}
        held |= {("recipe", r.slug) for r in archive.recipes} | {("card", s.id) for s in archive.substances}
        held |= {("trial", t.slug) for t in archive.trials}
        self.values = {key: value for key, value in self.values.items() if key in held}
        self.named = {slug: found for slug, found in self.named.items() if ("recipe", slug) in held}
        return settled

    def names(self, recipe: Recipe) -> frozenset[str]:
        """Every word of a recipe that could be a recipe's name."""
        known = self.named.get(recipe.slug)
        if known is None or known[0] is not recipe:
            known = self.named[recipe.slug] = recipe, words_of(recipe)
        return known[1]

    def _same(self, kind: str, name: str, value: Value) -> Value:
        last: Value = self.values.get((kind, name), value)
        if last is not value and last == value:
            return last
        self.values[kind, name] = value
        return value


class Rebuild:
    """One rebuild of a preview: pages are made where what they are made from is not what it was."""

    def __init__(self, kept: Kept, archive: Archive, look: Look) -> None:
        self._last, self._kept = kept.pages, kept
        kept.pages = {}
        self._bytes = 0
        self._archive, self._look = archive, look
        self._families = families(archive, kept.names)
        self._holding = cross_references(archive).holding
        weighed = tuple(card.id in self._holding for card in archive.substances)
        self._every = archive.settings, archive.teased, look.edition, look.theme, archive.substances, weighed

    def of_recipe(self, kind: str, recipe: Recipe, make: Make) -> Iterable[Page]:
        """The pages of last time, where its family, its trials and its pictures are the same."""
        slugs = self._families[recipe.slug]
        family = tuple(self._archive.recipe_named[slug] for slug in slugs)
        trials = tuple(trial for slug in slugs for trial in self._archive.trials_of.get(slug, ()))
        files = [picture.file for one in family for picture in pictures_of(one)]
        files += [trial.image.file for trial in trials if trial.image]
        pictures = tuple(self._look.pictures.get(file) for file in files)
        return self._found((kind, recipe.slug), (recipe, family, trials, pictures), make)

    def of_card(self, card: Substance, make: Make) -> Iterable[Page]:
        """The page of last time, where no card is another and the recipes that weigh it out are the same."""
        return self._found(("card", card.id), (card, self._holding.get(card.id, ())), make)

    def _found(self, key: tuple[str, str], basis: tuple[object, ...], make: Make) -> tuple[Page, ...]:
        whole = (*self._every, *basis)
        last = self._last.get(key)
        made = last[1] if last and last[0] == whole else tuple(make())
        self._bytes += sum(len(page.content) for page in made)
        if self._bytes <= MOST_BYTES:
            self._kept.pages[key] = whole, made
        return made


def families(archive: Archive, names: Callable[[Recipe], frozenset[str]]) -> Mapping[str, tuple[str, ...]]:
    """By slug: the slugs whose recipes a recipe's pages are made from, itself among them, in the archive's order."""
    held = archive.recipe_named
    named = {slug: (names(recipe) & held.keys()) | {slug} for slug, recipe in held.items()}
    reached = {slug: _reached(slug, named) for slug in held}
    naming: dict[str, set[str]] = {slug: set() for slug in held}
    for slug, others in named.items():
        for other in others:
            naming[other].add(slug)
    place = {slug: number for number, slug in enumerate(held)}
    return {slug: tuple(sorted(reached[slug] | naming[slug], key=place.__getitem__)) for slug in held}


def words_of(recipe: Recipe) -> frozenset[str]:
    """Every word that stands in a recipe, in any of its fields, as a file's name would be written."""
    return frozenset(_NAME.findall(repr(recipe)))


def _reached(slug: str, named: Mapping[str, Iterable[str]]) -> frozenset[str]:
    waiting, found = [slug], {slug}
    while waiting:
        more = set(named[waiting.pop()]) - found
        found |= more
        waiting += more
    return frozenset(found)
