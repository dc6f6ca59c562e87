"""Change rules: a recipe's `changes` must tell the age of a printed sheet, so each revision has one place in them.

Not every revision need be there. What a sheet's age means is `compute/sheet_age`.
"""

from itertools import pairwise
from typing import Final

from sitegen.check.recipes import Draft
from sitegen.problems import Problem, Problems


def _made(draft: Draft, problems: Problems) -> None:
    """A change belongs to this revision or an earlier one."""
    for n, change in enumerate(draft.doc.changes):
        if change.revision > draft.doc.revision:
            problems.add(
                Problem(
                    code="change-to-come",
                    at=draft.places.value("changes", n, "revision"),
                    message=f"revision {change.revision} is not made yet",
                    help=f"raise `revision` to {change.revision}, or name an earlier one here",
                    notes=(f"the recipe is at revision {draft.doc.revision}",),
                )
            )


def _in_order(draft: Draft, problems: Problems) -> None:
    """Each revision once, the earliest first."""
    for n, (before, change) in enumerate(pairwise(draft.doc.changes), start=1):
        if change.revision > before.revision:
            continue
        twice = change.revision == before.revision
        problems.add(
            Problem(
                code="change-twice" if twice else "changes-out-of-order",
                at=draft.places.value("changes", n, "revision"),
                message=f"revision {change.revision} stands here twice"
                if twice
                else f"revision {change.revision} comes after revision {before.revision}",
                help="say in one entry what it changed" if twice else "put the entries in the order of the revisions",
            )
        )


def _something_to_correct(draft: Draft, problems: Problems) -> None:
    """The first revision has no sheets before it."""
    for n, change in enumerate(draft.doc.changes):
        if change.revision == 1 and change.corrects:
            problems.add(
                Problem(
                    code="nothing-to-correct",
                    at=draft.places.value("changes", n, "corrects"),
                    message="there is no sheet before revision 1 that could hold a mistake",
                    help="name the revision that put it right, or delete `corrects`",
                )
            )


RULES: Final = (_made, _in_order, _something_to_correct)
