"""Ingredients: what the keys of `contains` name, in this recipe, in another, or on the shelf.

Works on the trees, before the rest of a recipe is judged: a recipe with other mistakes still hears
about its unknown ingredients. What has a problem of its own already is passed over in silence.
"""

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property

from sitegen.check.cards import Shelf
from sitegen.check.values import slug_of
from sitegen.model.substance import Form, Substance
from sitegen.problems import Problem, Problems, Span, did_you_mean
from sitegen.read.nodes import MapNode, TextNode, fields_at, text_at


@dataclass(frozen=True, slots=True, kw_only=True)
class Reference:
    """One line of a mixture and what it names: a form, a mixture, or neither when that is not known."""

    recipe: str
    owner: str
    """The mixture it stands in, `recipe/mixture`; of a layer's baths, that layer."""
    key: str
    at: Span
    form: str = ""
    mixture: str = ""


@dataclass(frozen=True, kw_only=True)
class Pantry:
    """All that an ingredient can name. `recipes` gives each recipe's tree, None for an unreadable one."""

    shelf: Shelf
    recipes: Mapping[str, MapNode | None]

    @cached_property
    def substances(self) -> Mapping[str, Substance]:
        """Sound cards by id."""
        return {s.id: s for s in self.shelf.substances}

    @cached_property
    def forms(self) -> Mapping[str, Form]:
        """Forms of sound cards by id."""
        return {f.id: f for s in self.shelf.substances for f in s.forms}

    @cached_property
    def mixtures(self) -> Mapping[str, tuple[str, ...] | None]:
        """Local ids of each recipe's mixtures; None where the tree does not tell."""
        return {slug: _mixture_ids(root) for slug, root in self.recipes.items()}

    @cached_property
    def words(self) -> Mapping[str, tuple[str, ...]]:
        """The form ids that each name may mean, by the name in small letters."""
        found: dict[str, list[str]] = {}
        for substance in self.shelf.substances:
            for form in substance.forms:
                exact = (form.id, form.name, *form.names, form.formula, form.cas)
                for word in (substance.id, substance.name, *substance.other_names, *exact):
                    ids = found.setdefault(word.casefold(), [])
                    if word and form.id not in ids:
                        ids.append(form.id)
        return {word: tuple(ids) for word, ids in found.items()}

    def may_be_broken(self, key: str) -> bool:
        """Whether the key may name a card that has problems of its own."""
        return any(key == id_ or key.startswith(f"{id_}-") for id_ in self.shelf.broken)


def _mixture_ids(root: MapNode | None) -> tuple[str, ...] | None:
    mixtures = fields_at(root, "mixtures")
    return tuple(key.text for key, _ in mixtures.entries) if mixtures else None


def references(slug: str, root: MapNode, pantry: Pantry, problems: Problems) -> tuple[Reference, ...]:
    """Every line of a recipe's mixtures, resolved; problems for what nothing is known of."""
    found = []
    mixtures = fields_at(root, "mixtures")
    for mixture, fields in mixtures.maps() if mixtures else ():
        contains = fields_at(fields, "contains")
        for key, value in contains.entries if contains else ():
            form = text_at(value, "form")
            where = Reference(recipe=slug, owner=f"{slug}/{mixture.text}", key=key.text, at=key.at)
            found.append(resolve(where, form, pantry, problems))
    return tuple(found)


def resolve(where: Reference, form: TextNode | None, pantry: Pantry, problems: Problems) -> Reference:
    """The reference with what its key names; a problem where that is nothing."""
    key = where.key
    own = pantry.mixtures.get(where.recipe) or ()
    if key in own:
        if key in pantry.forms or key in pantry.substances:
            problems.add(_clash(where))
            return where  # which of the two is meant is not known
        return _mixture(where, f"{where.recipe}/{key}", form, problems)
    if "/" in key:
        return _of_another(where, form, pantry, problems)
    if substance := pantry.substances.get(key):
        return _of_substance(where, substance, form, problems)
    if key in pantry.forms:
        if form and form.text not in (key, ""):
            _form_beside_form(where, form, problems)
        return _with_form(where, key)
    if not pantry.may_be_broken(key):
        problems.add(_unknown(where, own, pantry))
    return where


def _with_form(where: Reference, form: str) -> Reference:
    return Reference(recipe=where.recipe, owner=where.owner, key=where.key, at=where.at, form=form)


def _mixture(where: Reference, id_: str, form: TextNode | None, problems: Problems) -> Reference:
    if form:
        _form_beside_form(where, form, problems)
    return Reference(recipe=where.recipe, owner=where.owner, key=where.key, at=where.at, mixture=id_)


def _form_beside_form(where: Reference, form: TextNode, problems: Problems) -> None:
    message = f"`{where.key}` says already what it is; `{form.text}` cannot be its form"
    problems.add(Problem(code="form-not-here", at=form.at, message=message, help="delete the field `form`"))


def _clash(where: Reference) -> Problem:
    return Problem(
        code="name-clash",
        at=where.at,
        message=f"`{where.key}` names a mixture of this recipe and a substance",
        help="give the mixture another short name",
    )


def _of_another(where: Reference, form: TextNode | None, pantry: Pantry, problems: Problems) -> Reference:
    slug, _, local = where.key.partition("/")
    if slug not in pantry.recipes:
        remedy = (
            did_you_mean(slug, pantry.recipes) or "write the recipe's file name without `.yaml`, a slash, the mixture"
        )
        problems.add(Problem(code="unknown-recipe", at=where.at, message=f"there is no recipe `{slug}`", help=remedy))
        return where
    known = pantry.mixtures[slug]
    if known is None:
        return where
    if local not in known:
        listed = ", ".join(f"`{slug}/{name}`" for name in known)
        near = did_you_mean(f"{slug}/{local}", (f"{slug}/{name}" for name in known))
        problems.add(
            Problem(
                code="unknown-mixture",
                at=where.at,
                message=f"the recipe `{slug}` has no mixture `{local}`",
                help=near or f"write one of its mixtures: {listed}",
            )
        )
        return where
    return _mixture(where, where.key, form, problems)


def _of_substance(where: Reference, substance: Substance, form: TextNode | None, problems: Problems) -> Reference:
    ids = [f.id for f in substance.forms]
    if form:
        wanted = form.text if form.text in ids else f"{substance.id}-{form.text}"
        if wanted in ids:
            return _with_form(where, wanted)
        keys = [id_.removeprefix(f"{substance.id}-") for id_ in ids]
        listed = " or ".join(f"`{key}`" for key in keys) if ids != [substance.id] else ""
        problems.add(
            Problem(
                code="unknown-form",
                at=form.at,
                message=f"there is no form `{form.text}` of {substance.name}",
                help=did_you_mean(form.text, keys)
                or (f"write {listed}" if listed else "delete the field `form`: this substance has no forms"),
            )
        )
        return where
    if ids == [substance.id]:
        return _with_form(where, substance.id)
    problems.add(
        Problem(
            code="form-missing",
            at=where.at,
            message=f"`{where.key}` does not say which form of {substance.name}",
            help="write " + " or ".join(f"`{id_}`" for id_ in ids),
            notes=("the forms differ in strength; read the label of the jar",),
        )
    )
    return where


def _unknown(where: Reference, own: Iterable[str], pantry: Pantry) -> Problem:
    spoken = where.key.replace("-", " ").casefold()
    for word in (where.key.casefold(), spoken):
        if ids := pantry.words.get(word):
            return Problem(
                code="unknown-ingredient",
                at=where.at,
                message=f"`{where.key}` is a name, not the id of a form",
                help="write " + " or ".join(f"`{id_}`" for id_ in ids),
                notes=tuple(f"`{id_}` is {pantry.forms[id_].name}" for id_ in ids),
            )
    return Problem(
        code="unknown-ingredient",
        at=where.at,
        message=f"there is no substance or mixture `{where.key}`",
        help=_near(where.key, spoken, own, pantry) or _card_to_add(spoken),
    )


def _card_to_add(spoken: str) -> str:
    """A card ready to paste. Its hazards are said to be unknown: nothing else is known of it here."""
    slug = slug_of(spoken) or "its-name"
    here = "" if slug == spoken else f"write `{slug}` here, and "
    return (
        f"{here}save this as `substances/{slug}.yaml`, filled in from the safety data sheet:\n"
        f"name: {spoken}\n"
        "state: solid\n"
        "hazards:\n"
        "  basis: no data\n"
        "  source: no safety data sheet read yet"
    )


def _near(key: str, spoken: str, own: Iterable[str], pantry: Pantry) -> str:
    ids = {*own, *pantry.forms}
    if near := did_you_mean(key, ids):
        return near
    words = difflib.get_close_matches(spoken, sorted(pantry.words), n=2, cutoff=0.8)
    meant = sorted({id_ for word in words for id_ in pantry.words[word]})
    return "did you mean " + " or ".join(f"`{id_}`" for id_ in meant[:3]) + "?" if meant else ""


def unknown_mixture(name: str, known: Mapping[str, object], at: Span) -> Problem:
    """The problem of a mixture that its recipe does not have."""
    listed = ", ".join(f"`{local}`" for local in known)
    return Problem(
        code="unknown-mixture",
        at=at,
        message=f"there is no mixture `{name}`",
        help=did_you_mean(name, known) or f"write one of {listed}",
    )
