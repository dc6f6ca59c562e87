"""The register of disputes: every point on which the edition's sources disagree, with the recipes it concerns.

A dispute that recipes share stands once. Nothing here says who is right.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.model.dispute import Dispute
from sitegen.model.recipe import Recipe
from sitegen.render.frame import Frame
from sitegen.render.links import DISPUTES
from sitegen.render.page import Page
from sitegen.render.substance_page import filed


@dataclass(frozen=True, slots=True, kw_only=True)
class Registered:
    """A dispute with the recipes it concerns. `anchor` is its id on the page."""

    anchor: str
    dispute: Dispute
    recipes: tuple[Recipe, ...]


def dispute_page(frame: Frame) -> Iterator[Page]:
    """The register, by what is disputed; none where the edition holds no dispute."""
    found = sorted(_registered(frame), key=lambda one: (filed(one.dispute.about), one.anchor))
    if found:
        yield frame.page("dispute-register.html", DISPUTES, title="Where sources disagree", register=tuple(found))


def _registered(frame: Frame) -> Iterator[Registered]:
    held: dict[str, tuple[Dispute, list[Recipe]]] = {}
    for recipe in sorted(frame.computed.archive.recipes, key=lambda r: r.code):
        for dispute in recipe.disputes:
            anchor = dispute.id if dispute.shared else f"{recipe.slug}--{dispute.id}"
            held.setdefault(anchor, (dispute, []))[1].append(recipe)
    for anchor, (dispute, recipes) in held.items():
        yield Registered(anchor=anchor, dispute=dispute, recipes=tuple(recipes))
