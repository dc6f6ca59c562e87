"""The check of hazard blocks: every field that the ingredients' cards ask for has something in it.

The ingredients of a recipe are those of all its mixtures, and of the mixtures of other recipes that go
into them. Strength is not weighed: powders are weighed before they are dilute. A help for the author,
never a substitute for the supplier's safety data sheet; dangerous pairs and labels are elsewhere.
"""

from collections.abc import Callable
from typing import Final

from sitegen.check.hazards.asks import BLOCK, Ask, BlockField, Ingredient, asks_of, ingredients
from sitegen.check.hazards.wording import lines_to_paste
from sitegen.model.archive import Archive
from sitegen.model.recipe import Hazards, Recipe
from sitegen.problems import Problem, Problems

MANY: Final = 3
"""Ingredients named in the message; all are named in the notes when there are more."""

# How does a block say in its own words that little is known?
_ADMITS: Final = (
    "not enough data", "no data", "lack of data", "lacks data", "little is known", "not tested", "untested",
    "not been tested",
)  # fmt: skip
_SAYS_ENOUGH: Final[tuple[BlockField, ...]] = ("wear", "first aid", "disposal")


def check_hazards(archive: Archive, problems: Problems) -> None:
    """Add an error for each missing field of each block, and a warning where data is missing."""
    for recipe in archive.recipes:
        held = ingredients(recipe, archive)
        for rule in RULES:
            rule(recipe, held, problems)


def filled(block: Hazards, field: BlockField) -> bool:
    """Whether the field holds a text with something in it."""
    texts = {
        "wear": block.wear,
        "air": block.air,
        "never": block.never,
        "first aid": block.first_aid,
        "disposal": block.disposal,
    }
    return any(text.strip() for text in texts[field])


def fields_are_filled(recipe: Recipe, held: tuple[Ingredient, ...], problems: Problems) -> None:
    """One error for each field that an ingredient asks for and the block leaves out."""
    for field in BLOCK:
        asking = [(i, asks) for i in held if (asks := tuple(a for a in asks_of(i) if a.field == field))]
        if not asking or filled(recipe.hazards, field):
            continue
        told = [_told(ingredient, asks) for ingredient, asks in asking]
        more = f" and {len(told) - MANY} more" if len(told) > MANY else ""
        problems.add(
            Problem(
                code="hazards-uncovered",
                at=recipe.hazards.at,
                message=f"`{field}` is missing, and {_listed(told[:MANY])}{more} ask for it"
                if len(told) > 1
                else f"`{field}` is missing, and {told[0]} asks for it",
                help=f"word it for this recipe, for example:\n{lines_to_paste(field, asking)}",
                notes=(*(told[MANY:] if more else ()), "the supplier's safety data sheet comes first"),
            )
        )


def _told(ingredient: Ingredient, asks: tuple[Ask, ...]) -> str:
    """The ingredient and why it asks, each reason once."""
    return f"{ingredient.form.name} ({', '.join(dict.fromkeys(ask.why for ask in asks))})"


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def gaps_are_admitted(recipe: Recipe, held: tuple[Ingredient, ...], problems: Problems) -> None:
    """Ingredients without data: the block says so in `note`, or guards against them all the same."""
    unknown = list(dict.fromkeys(i.card.name for i in held if i.card.hazards.basis == "no data"))
    block = recipe.hazards
    if not unknown or all(filled(block, field) for field in _SAYS_ENOUGH) or _admits(block, unknown):
        return
    names = _listed(unknown)
    does, it = ("they do", "them") if len(unknown) > 1 else ("it does", "it")
    problems.add(
        Problem(
            code="hazards-no-data",
            at=block.at,
            message=f"there is not enough data on {names} to tell what {does}",
            help="fill `wear`, `first aid` and `disposal`, or say so in the block:\n"
            f"  note: There is not enough data on {names}. Treat {it} as harmful.",
            notes=("not enough data is not the same as harmless",),
            level="warning",
        )
    )


def _admits(block: Hazards, unknown: list[str]) -> bool:
    note = " ".join(block.note).casefold()
    return any(words in note for words in _ADMITS) or all(name.casefold() in note for name in unknown)


Rule = Callable[[Recipe, tuple[Ingredient, ...], Problems], None]
RULES: Final[tuple[Rule, ...]] = (fields_are_filled, gaps_are_admitted)
