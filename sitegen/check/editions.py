"""Editions: who may see a recipe and its parts, and from which day. Rules on trees, as in `between`."""

import re
from collections.abc import Iterator, Mapping
from datetime import date
from typing import Final

from sitegen.check.between import Shelfmates
from sitegen.check.patterns import DATE, ID
from sitegen.check.places import Places
from sitegen.check.settings import unknown_edition
from sitegen.problems import Problem, Problems, Span
from sitegen.read.nodes import ListNode, MapNode, Node, TextNode, text_at

# Which fields hold parts that may be for fewer readers than the recipe is? Lists and groups in them are gone through.
_PARTS: Final = ("image", "mixtures", "stages", "troubles", "disputes")


def check_editions(all_: Shelfmates, problems: Problems) -> None:
    """Every rule about editions that concerns more than the settings."""
    for slug, root in all_.readable():
        _parts(slug, root, all_, problems)
        _sealed_title(root, problems)
        _publication(slug, root, all_, problems)
    _drawn_upon_in_time(all_, problems)


def _parts(slug: str, root: MapNode, all_: Shelfmates, problems: Problems) -> None:
    """The edition of a part is declared, and holds the recipe at all."""
    order, own = all_.known.editions, all_.editions.get(slug)
    if not order:
        return
    for node, loc in _editions_inside(root):
        if not re.fullmatch(ID, node.text):
            continue  # said by the schema
        if node.text not in order:
            problems.add(unknown_edition(node.text, order, Places(root=root), *loc))
        elif own and order.index(node.text) < order.index(own):
            problems.add(
                Problem(
                    code="edition-without-recipe",
                    at=node.at,
                    message=f"this part is for `{node.text}`, which does not hold the recipe: it is for `{own}`",
                    help=f"delete this line, or write `edition: {node.text}` for the recipe",
                    notes=("a part goes where its recipe goes; it can only be kept back from some",),
                )
            )


def _editions_inside(root: MapNode) -> Iterator[tuple[TextNode, tuple[str | int, ...]]]:
    """Every `edition` below the fields that have parts, with its path. The depth of a tree is bounded."""
    found = ((root.get(name), name) for name in _PARTS)
    waiting: list[tuple[Node, tuple[str | int, ...]]] = [(part, (name,)) for part, name in found if part]
    while waiting:
        node, loc = waiting.pop()
        if isinstance(node, ListNode):
            waiting.extend((item, (*loc, n)) for n, item in enumerate(node.items))
        elif isinstance(node, MapNode):
            waiting.extend((value, (*loc, key.text)) for key, value in node.entries)
            if edition := text_at(node, "edition"):
                yield edition, (*loc, "edition")


def _sealed_title(root: MapNode, problems: Problems) -> None:
    """A teaser stands beside a title, so both may be shown or neither."""
    teaser, sealed = text_at(root, "teaser"), text_at(root, "sealed title")
    if teaser and sealed and sealed.text.casefold() in ("yes", "true"):
        problems.add(
            Problem(
                code="teaser-on-sealed-title",
                at=teaser.at,
                message="this recipe has a teaser, but its title is sealed",
                help="delete the teaser, or `sealed title`: a teaser is shown beside the title",
            )
        )


def _publication(slug: str, root: MapNode, all_: Shelfmates, problems: Problems) -> None:
    """The day of publication lies after the revision, and there is somebody to open the recipe to."""
    day, order = text_at(root, "publish from"), all_.known.editions
    opens, revised = _date_at(root, "publish from"), _date_at(root, "revised")
    if day is None or opens is None:
        return
    if order and all_.editions.get(slug) == order[0]:
        problems.add(
            Problem(
                code="publish-from-open",
                at=day.at,
                message=f"this recipe is in `{order[0]}` already",
                help="delete `publish from`, or name the edition that holds the recipe until then",
            )
        )
    elif revised and opens <= revised:
        problems.add(
            Problem(
                code="publish-from-past",
                at=day.at,
                message=f"`{day.text}` was past when the recipe was revised, on {revised.isoformat()}",
                help="write a later day, or delete `publish from` and name the widest edition",
            )
        )


def _drawn_upon_in_time(all_: Shelfmates, problems: Problems) -> None:
    """What a recipe draws on is open by the day the recipe is."""
    lowest = all_.known.editions[0] if all_.known.editions else None
    days = {slug: _date_at(root, "publish from") for slug, root in all_.readable()}
    told: set[tuple[str, str]] = set()
    for reference in all_.references:
        here, there = reference.recipe, reference.mixture.partition("/")[0]
        opens = days.get(here)
        if not there or opens is None or there not in all_.editions or all_.editions[there] == lowest:
            continue
        if there != here and _later(days.get(there), opens) and (here, there) not in told:
            told.add((here, there))
            problems.add(_too_early(here, there, opens, lowest or "", _place(all_.roots, here)))


def _later(day: date | None, than: date) -> bool:
    return day is None or day > than


def _too_early(here: str, there: str, opens: date, lowest: str, at: Span) -> Problem:
    return Problem(
        code="publish-from-too-early",
        at=at,
        message=f"`{here}` opens on {opens.isoformat()}, but `{there}`, which it draws on, is not open by then",
        help=f"write `publish from: {opens.isoformat()}` in recipes/{there}.yaml, too, or a later day here",
        notes=(f"readers of `{lowest}` would be told to mix what they cannot see",),
    )


def _place(roots: Mapping[str, MapNode | None], slug: str) -> Span:
    root = roots[slug]
    assert root, "it was read: it has a date"
    return Places(root=root).value("publish from")


def _date_at(root: MapNode, name: str) -> date | None:
    node = text_at(root, name)
    if node is None or not re.fullmatch(DATE, node.text.strip()):
        return None
    try:
        return date.fromisoformat(node.text.strip())
    except ValueError:
        return None  # said by the schema
