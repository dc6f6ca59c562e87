"""Between recipes: cycles, editions, codes, parents, and the names a recipe takes from the settings.

Works on trees and references, so that a recipe with other mistakes is still heard.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from sitegen.check.ingredients import Reference
from sitegen.check.patterns import ID
from sitegen.check.places import Places
from sitegen.check.settings import Known, unknown_edition, unknown_process
from sitegen.problems import Problem, Problems, did_you_mean
from sitegen.read.nodes import ListNode, MapNode, Node, TextNode, text_at


@dataclass(frozen=True, kw_only=True)
class Shelfmates:
    """All recipes side by side: their trees (None for unreadable ones) and resolved references."""

    roots: Mapping[str, MapNode | None]
    references: tuple[Reference, ...]
    known: Known
    pictures: frozenset[str]

    def readable(self) -> Iterator[tuple[str, MapNode]]:
        """Slug and tree of every recipe that could be read."""
        for slug, root in self.roots.items():
            if root is not None:
                yield slug, root

    @cached_property
    def editions(self) -> Mapping[str, str]:
        """The edition of each recipe that names a known one."""
        found = {}
        for slug, root in self.readable():
            node = text_at(root, "edition")
            name = node.text if node else self.known.default_edition
            if name and self.known.editions and name in self.known.editions:
                found[slug] = name
        return found

    @cached_property
    def rings(self) -> tuple[tuple[str, ...], ...]:
        """Mixtures made from themselves, each ring once, from its first id in the alphabet."""
        draws: dict[str, list[str]] = {}
        for reference in self.references:
            if reference.mixture:
                draws.setdefault(reference.owner, []).append(reference.mixture)
        found = {turned(ring) for start in sorted(draws) for ring in rings_from(start, draws)}
        return tuple(sorted(found))


def rings_from(start: str, draws: Mapping[str, list[str]]) -> Iterator[tuple[str, ...]]:
    """The ring that leads back to `start`, by the shortest way; walked without recursion."""
    came_from: dict[str, str] = {}
    waiting = [start]
    for here in waiting:
        for there in draws.get(here, ()):
            if there == start:
                ring = [here]
                while ring[-1] != start:
                    ring.append(came_from[ring[-1]])
                yield tuple(reversed(ring))
                return
            if there not in came_from:
                came_from[there] = here
                waiting.append(there)


def turned(ring: tuple[str, ...]) -> tuple[str, ...]:
    """The ring from its first id in the alphabet on."""
    first = ring.index(min(ring))
    return ring[first:] + ring[:first]


def _no_rings(all_: Shelfmates, problems: Problems) -> None:
    """Nothing can be mixed that needs itself."""
    lines = {(r.owner, r.mixture): r.at for r in all_.references if r.mixture}
    for ring in all_.rings:
        way = " → ".join(f"`{id_}`" for id_ in (*ring, ring[0]))
        following = ring[1] if len(ring) > 1 else ring[0]
        problems.add(
            Problem(
                code="mixture-cycle",
                at=lines[ring[0], following],
                message=f"`{ring[0]}` is made from itself",
                help="take one of them out of the ring",
                notes=(way,),
            )
        )


def _editions_known(all_: Shelfmates, problems: Problems) -> None:
    """A recipe's edition is declared in archive.yaml."""
    editions = all_.known.editions
    for _, root in all_.readable():
        node = text_at(root, "edition")
        if editions and node and re.fullmatch(ID, node.text) and node.text not in editions:
            problems.add(unknown_edition(node.text, editions, Places(root=root), "edition"))


def _editions_suffice(all_: Shelfmates, problems: Problems) -> None:
    """What a recipe draws on is published wherever the recipe is."""
    order = list(all_.known.editions or ())
    for reference in all_.references:
        slug = reference.mixture.partition("/")[0]
        here, there = all_.editions.get(reference.recipe), all_.editions.get(slug)
        if here and there and order.index(here) < order.index(there):
            problems.add(
                Problem(
                    code="edition-too-low",
                    at=reference.at,
                    message=f"`{reference.key}` is in the edition `{there}`, this recipe in `{here}`",
                    help=f"write `edition: {there}` here, or `edition: {here}` in recipes/{slug}.yaml",
                    notes=(f"readers of `{here}` would be told to mix what they cannot see",),
                )
            )


def _processes_known(all_: Shelfmates, problems: Problems) -> None:
    """A recipe's process is declared in archive.yaml."""
    known = all_.known.processes
    for _, root in all_.readable():
        node = text_at(root, "process")
        if known is not None and node and re.fullmatch(ID, node.text) and node.text not in known:
            problems.add(unknown_process(node.text, known, node.at))


def _codes_unique(all_: Shelfmates, problems: Problems) -> None:
    """A code pencilled on the back of a print finds one recipe."""
    seen: dict[str, TextNode] = {}
    for _, root in all_.readable():
        node = text_at(root, "code")
        if node and (first := seen.setdefault(node.text, node)) is not node:
            problems.add(
                Problem(
                    code="duplicate-code",
                    at=node.at,
                    message=f"the code `{node.text}` is taken",
                    help="give this recipe another number",
                    notes=(f"{first.at.file} has it",),
                )
            )


def _parents_known(all_: Shelfmates, problems: Problems) -> None:
    """`derived from` names a recipe, and another one."""
    for slug, root in all_.readable():
        node = text_at(root.get("derived from"), "recipe")
        if node and (node.text not in all_.roots or node.text == slug):
            others = [name for name in all_.roots if name != slug]
            problems.add(
                Problem(
                    code="unknown-recipe",
                    at=node.at,
                    message=f"there is no recipe `{node.text}`"
                    if node.text != slug
                    else "a recipe cannot be derived from itself",
                    help=did_you_mean(node.text, others) or "write the recipe's file name without `.yaml`",
                )
            )


def _pictures_there(all_: Shelfmates, problems: Problems) -> None:
    """Every picture that is named lies in images/."""
    for _, root in all_.readable():
        pictures_there(root, all_.pictures, problems)


def pictures_there(root: MapNode, pictures: frozenset[str], problems: Problems) -> None:
    """Every picture that one file names is among `pictures`."""
    for node in _image_files(root):
        if node.text in pictures:
            continue
        same = next((name for name in sorted(pictures) if name.casefold() == node.text.casefold()), "")
        near = f"write `{same}`: capitals count on most machines" if same else ""
        problems.add(
            Problem(
                code="picture-missing",
                at=node.at,
                message=f"there is no picture `images/{node.text}`",
                help=near or did_you_mean(node.text, pictures) or "put the file into images/, or correct its name",
            )
        )


_PICTURES: Final = ("image", "before", "after", "poster")


def _image_files(root: MapNode) -> Iterator[TextNode]:
    """Every `file` of a picture, wherever it stands. The depth of a tree is bounded."""
    waiting: list[Node] = [root]
    while waiting:
        node = waiting.pop()
        if isinstance(node, ListNode):
            waiting.extend(node.items)
        elif isinstance(node, MapNode):
            waiting.extend(value for _, value in node.entries)
            yield from (file for name in _PICTURES if (file := text_at(node.get(name), "file")))


RULES: Final[tuple[Callable[[Shelfmates, Problems], None], ...]] = (
    _no_rings,
    _editions_known,
    _editions_suffice,
    _processes_known,
    _codes_unique,
    _parents_known,
    _pictures_there,
)
