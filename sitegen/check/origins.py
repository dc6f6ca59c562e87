"""Origins: what a document says of a recipe's parent and its revisions, as the domain's own values."""

from sitegen.check.origin_documents import ChangeDoc, ParentDoc
from sitegen.check.places import Places
from sitegen.model.origin import AmountBefore, Change, Met, Parent, TimeBefore


def parent_of(doc: ParentDoc | None, places: Places) -> Parent | None:
    """The parent, with the mixtures that are said to meet."""
    if doc is None:
        return None
    here = ("derived from", "compare")
    return Parent(
        recipe=doc.recipe,
        changes=doc.changes,
        compare=tuple(
            Met(own=own, parent=parent, own_at=places.key(*here, own), parent_at=places.value(*here, own))
            for own, parent in doc.compare.items()
        ),
    )


def change_of(doc: ChangeDoc, places: Places, number: int) -> Change:
    """One entry of `changes`; the number is its place in the list."""
    before = ("changes", number, "before")
    return Change(
        revision=doc.revision,
        what=doc.what,
        corrects=doc.corrects or "",
        amounts=tuple(
            AmountBefore(
                target=target,
                was=was,
                named_at=places.key(*before, "amounts", target),
                at=places.value(*before, "amounts", target),
            )
            for target, was in doc.before.amounts.items()
        ),
        times=tuple(
            TimeBefore(
                target=target,
                was=was,
                named_at=places.key(*before, "times", target),
                at=places.value(*before, "times", target),
            )
            for target, was in doc.before.times.items()
        ),
        at=places.value("changes", number, "revision"),
    )
