"""References: what the links in an author's Markdown point at.

`amount:`, `mixture:`, `recipe:`, `substance:` and `trouble:` links are resolved here, once, for the
check that reports them and for the pages that follow them. Reading Markdown is not done here.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final, Literal, get_args

from sitegen.model.archive import Archive
from sitegen.model.recipe import Line, Mixture, Recipe
from sitegen.problems import Refusal, did_you_mean

LinkKind = Literal["mixture", "recipe", "substance", "trouble"]
SCHEMES: Final = ("amount", *get_args(LinkKind))
"""Every scheme of ours; other links are addresses on the web."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AmountRef:
    """An amount a sentence names: a line of a mixture by its key, or (None) how much is made of it."""

    mixture: str
    line: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkRef:
    """A place a sentence names. `id` is a recipe's slug, a substance's id, or `recipe/name` of a part."""

    kind: LinkKind
    id: str


def split_scheme(address: str) -> tuple[str, str]:
    """The scheme and the rest of a link; the scheme is '' where there is none.

    >>> split_scheme("amount:part-a/water"), split_scheme("part-a")
    (('amount', 'part-a/water'), ('', 'part-a'))
    """
    scheme, colon, rest = address.partition(":")
    return (scheme, rest) if colon else ("", address)


def resolve_amount(recipe: Recipe, archive: Archive, target: str) -> AmountRef:
    """The amount an `amount:` link names in this recipe.

    `Refusal` with `unknown-link-target`, or `ambiguous-link-target` where several lines answer to it.
    """
    found = [
        (mixture, line)
        for mixture in recipe.mixtures
        for line in mixture.lines
        if target in _called(mixture, line, recipe, archive)
    ]
    if len(found) == 1:
        mixture, line = found[0]
        return AmountRef(mixture=mixture.id, line=line.key)
    if found:
        fuller = [f"`amount:{mixture.local}/{line.key}`" for mixture, line in found]
        raise Refusal(
            "ambiguous-link-target",
            f"`amount:{target}` is the name of {len(found)} amounts here",
            "write " + " or ".join(fuller),
        )
    if made := recipe.mixture(target):
        return AmountRef(mixture=made.id)
    raise _unknown(
        "amount",
        target,
        _amount_names(recipe, archive),
        "name an ingredient or a mixture of this recipe, such as `amount:part-a/water`",
    )


def _called(mixture: Mixture, line: Line, recipe: Recipe, archive: Archive) -> set[str]:
    """Every target that names this line, plain and with its mixture in front."""
    plain = {line.key, line.form or line.mixture}
    if line.form:
        plain.add(archive.substance_of[line.form].id)
    elif line.mixture.startswith(f"{recipe.slug}/"):
        plain.add(line.mixture.partition("/")[2])
    return plain | {f"{mixture.local}/{name}" for name in plain}


def _amount_names(recipe: Recipe, archive: Archive) -> Iterator[str]:
    for mixture in recipe.mixtures:
        yield mixture.local
        for line in mixture.lines:
            yield from _called(mixture, line, recipe, archive)


def find_link(recipe: Recipe | None, archive: Archive, kind: LinkKind, target: str) -> LinkRef | None:
    """The place a link of the other schemes names; None where nothing in this archive, or edition, has that name.

    `recipe` is None outside recipes (the home page). A mixture or a trouble of this recipe goes by its own name, one
    of another as `recipe/name`.
    """
    found = _FIND[kind](recipe, archive, target)
    return LinkRef(kind=kind, id=found) if found else None


def resolve_link(recipe: Recipe | None, archive: Archive, kind: LinkKind, target: str) -> LinkRef:
    """The place a link names, as `find_link`. `Refusal` with `unknown-link-target`, which tells of names like it."""
    if found := find_link(recipe, archive, kind, target):
        return found
    raise _unknown(kind, target, _known(recipe, archive, kind), f"name a {kind} of this archive{_WHERE[kind]}")


_WHERE: Final[dict[LinkKind, str]] = {
    "mixture": ", such as `mixture:part-a` or `mixture:other-recipe/part-a`",
    "recipe": " by its file's name, without `.yaml`",
    "substance": " by its card's name",
    "trouble": ": its symptom in small letters with hyphens, such as `trouble:blues-wash-away`",
}


def _mixture(recipe: Recipe | None, archive: Archive, target: str) -> str:
    if recipe and recipe.mixture(target):
        return f"{recipe.slug}/{target}"
    return target if target in archive.mixtures else ""


def _recipe(_: Recipe | None, archive: Archive, target: str) -> str:
    return target if target in archive.recipe_named else ""


def _substance(_: Recipe | None, archive: Archive, target: str) -> str:
    card = archive.substance_of.get(target)
    return card.id if card else ""


def _trouble(recipe: Recipe | None, archive: Archive, target: str) -> str:
    if recipe and target in (t.id for t in recipe.troubles):
        return f"{recipe.slug}/{target}"
    owner, _, symptom = target.partition("/")
    other = archive.recipe_named.get(owner)
    return target if other and symptom in (t.id for t in other.troubles) else ""


_FIND: Final = {"mixture": _mixture, "recipe": _recipe, "substance": _substance, "trouble": _trouble}


def _known(recipe: Recipe | None, archive: Archive, kind: LinkKind) -> Iterator[str]:
    """Everything that could have been meant."""
    match kind:
        case "mixture":
            yield from (m.local for m in recipe.mixtures) if recipe else ()
            yield from archive.mixtures
        case "recipe":
            yield from archive.recipe_named
        case "substance":
            yield from archive.substance_of
        case "trouble":
            yield from (t.id for t in recipe.troubles) if recipe else ()
            yield from (f"{r.slug}/{t.id}" for r in archive.recipes for t in r.troubles)


def _unknown(scheme: str, target: str, known: Iterator[str], otherwise: str) -> Refusal:
    return Refusal(
        "unknown-link-target",
        f"`{scheme}:{target}` names nothing here",
        did_you_mean(target, known) or otherwise,
    )
