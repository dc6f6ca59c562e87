"""Descent: no recipe is its own ancestor, mixtures that are said to meet are there, and what was before can have been.

The first works on trees, as in `between`; the others need the archive.
"""

from sitegen.check.between import Shelfmates, rings_from, turned
from sitegen.model.amount import Absolute, Amount, FillUp, format_amount
from sitegen.model.archive import Archive
from sitegen.model.before import AmountTurn, TimeTurn, amount_named, stages_of, turns
from sitegen.model.quantity import Quantity, format_quantity
from sitegen.model.recipe import Recipe
from sitegen.model.steps import find_one_step
from sitegen.problems import Problem, Problems, Refusal, Span, did_you_mean
from sitegen.read.nodes import text_at


def check_rings(all_: Shelfmates, problems: Problems) -> None:
    """Following `derived from` comes to an end."""
    nodes = {slug: node for slug, root in all_.readable() if (node := text_at(root.get("derived from"), "recipe"))}
    parents = {slug: [node.text] for slug, node in nodes.items() if node.text != slug}
    for ring in sorted({turned(ring) for slug in sorted(parents) for ring in rings_from(slug, parents)}):
        problems.add(
            Problem(
                code="derived-in-a-ring",
                at=nodes[ring[0]].at,
                message=f"`{ring[0]}` is derived from itself, by way of others",
                help="take `derived from` out of the oldest of them",
                notes=(" → ".join(f"`{slug}`" for slug in (*ring, ring[0])),),
            )
        )


def check_descent(archive: Archive, problems: Problems) -> None:
    """What `derived from` and `changes` say of mixtures, amounts and times."""
    for recipe in archive.recipes:
        _compared(recipe, archive, problems)
        if all([_amounts_named(recipe, archive, problems), _times_named(recipe, problems)]):
            _something_changed(recipe, archive, problems)


def _compared(recipe: Recipe, archive: Archive, problems: Problems) -> None:
    """`compare` names a mixture of this recipe, and one of the parent's."""
    parent = recipe.derived_from and archive.recipe_named.get(recipe.derived_from.recipe)
    if not recipe.derived_from or not parent:
        return
    for pair in recipe.derived_from.compare:
        for owner, name, at in ((recipe, pair.own, pair.own_at), (parent, pair.parent, pair.parent_at)):
            known = [m.local for m in owner.mixtures]
            if name not in known:
                problems.add(
                    Problem(
                        code="compare-unknown-mixture",
                        at=at,
                        message=f"there is no mixture `{name}` in `{owner.slug}`",
                        help=did_you_mean(name, known) or "write one of " + ", ".join(f"`{k}`" for k in known),
                        notes=("first a mixture of this recipe, then the parent's that it stands for",),
                    )
                )


def _amounts_named(recipe: Recipe, archive: Archive, problems: Problems) -> bool:
    sound = True
    for before in (b for change in recipe.changes for b in change.amounts):
        try:
            amount_named(before.target, recipe, archive)
        except Refusal as refusal:
            said, remedy = (text.replace("`amount:", "`") for text in (refusal.message, refusal.help))
            _refuse(Refusal("unknown-amount", said, remedy, refusal.notes), before.named_at, problems)
            sound = False
    return sound


def _times_named(recipe: Recipe, problems: Problems) -> bool:
    sound = True
    for before in (b for change in recipe.changes for b in change.times):
        try:
            find_one_step(before.target, stages_of(recipe))
        except Refusal as refusal:
            _refuse(refusal, before.named_at, problems)
            sound = False
    return sound


def _refuse(refusal: Refusal, at: Span, problems: Problems) -> None:
    note = "`before` names what the recipe has today; say in `what` which things it has no longer"
    problems.refuse(Refusal(refusal.code, refusal.message, refusal.help, (*refusal.notes, note)), at)


def _something_changed(recipe: Recipe, archive: Archive, problems: Problems) -> None:
    """What was before a revision is not what was after it."""
    for turn in turns(recipe, archive):
        rows: tuple[AmountTurn | TimeTurn, ...] = (*turn.amounts, *turn.times)
        for row in rows:
            if not _same(row.was, row.then):
                continue
            words = "`none`" if row.was is None else f"`{_words(row.was)}`"
            problems.add(
                Problem(
                    code="before-unchanged",
                    at=row.at,
                    message=f"{words} is what it was after revision {turn.change.revision}, too",
                    help="delete the line, or write what it was before that revision",
                    notes=("what comes after is the `before` of the next revision that names it, else today's figure",),
                )
            )


def _same(one: Amount | Quantity | None, other: Amount | Quantity | None) -> bool:
    if isinstance(one, Absolute | FillUp) and isinstance(other, Absolute | FillUp) and type(one) is type(other):
        return _same(one.quantity, other.quantity)
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        return one.dimension == other.dimension and one.base() == other.base()
    return one == other


def _words(figure: Amount | Quantity) -> str:
    return format_quantity(figure) if isinstance(figure, Quantity) else format_amount(figure)
