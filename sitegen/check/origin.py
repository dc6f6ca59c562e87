"""Origin: a recipe says whose it is, and on what ground it repeats what is not its author's own.

What is in a published formula is fact, and facts are free: the line `licence: facts in our own words` is enough.
Whether such a line is true is not for a program to say; that it was thought of is.
"""

from typing import Final

from sitegen.check.recipes import Draft
from sitegen.check.rules import Rule
from sitegen.problems import Level, Problem, Problems

_LINE: Final = (
    "add `licence: facts in our own words`, `licence: public domain`, or the permission or licence that you have, "
    "in words"
)


def _comes_from_somewhere(draft: Draft, problems: Problems) -> None:
    """A recipe is its author's own, or somebody's, or varies another recipe, whose credits then hold."""
    if not draft.doc.credits and not draft.doc.derived_from:
        problems.add(
            Problem(
                code="credits-missing",
                at=draft.places.key("title"),
                message="this recipe does not say whose it is",
                help="write `credits: own`, or name each work it follows:\n"
                "credits:\n"
                "  - {work: 'Author, title, year', relation: after, licence: facts in our own words}",
                notes=("`derived from` is enough where the recipe varies one of this archive",),
            )
        )


def _used_by_right(draft: Draft, problems: Problems) -> None:
    """What is not one's own is used on some ground. What only gave the idea may go without, with a warning."""
    for n, credit in enumerate(draft.doc.credits):
        if credit.relation == "own" or credit.licence:
            continue
        level: Level = "warning" if credit.relation == "inspired by" else "error"
        problems.add(
            Problem(
                code="licence-missing",
                at=draft.places.value("credits", n, "relation"),
                message=f"a credit of the kind `{credit.relation}` needs its `licence`: what allows its use",
                help=_LINE,
                notes=("amounts and times are facts and free; sentences and pictures belong to somebody",),
                level=level,
            )
        )


RULES: Final[tuple[Rule, ...]] = (_comes_from_somewhere, _used_by_right)
