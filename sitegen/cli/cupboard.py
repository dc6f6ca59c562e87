"""The cupboard as plain text and as data, for `trayside proof --cupboard`."""

from collections.abc import Iterator
from dataclasses import asdict
from typing import Any, Final

from sitegen.compute.cupboard import Apart, Bottle, Cupboard

FOOT: Final = (
    "Derived from the cards of this archive, not a supplier's classification. Safety data sheets, local rules on\n"
    "storage and licensed practice come first. A bottle that was not checked is not a safe one."
)


def cupboard_text(cupboard: Cupboard) -> str:
    """Shelves with their bottles, then why they stand apart, then what was not checked."""
    blocks = [_block(shelf.title, map(_bottle, shelf.bottles)) for shelf in cupboard.shelves]
    if cupboard.apart:
        blocks.append(_block("Why they stand apart", map(_reason, cupboard.apart)))
    if cupboard.unchecked:
        blocks.append(_block("Not checked, for want of reactive groups", map(_bottle, cupboard.unchecked)))
    return "\n\n".join([*blocks, FOOT]) + "\n" if cupboard.shelves else "No bottle is implied.\n"


def _block(title: str, lines: Iterator[str]) -> str:
    return "\n".join([title, *(f"  {line}" for line in lines)])


def _bottle(bottle: Bottle) -> str:
    return f"{bottle.name} ({bottle.code})" if bottle.code else bottle.name


def _reason(apart: Apart) -> str:
    ours, theirs = (", ".join(names) for names in apart.bottles)
    return f"{apart.severity} {apart.rule}: {apart.first} | {apart.second}: {ours} + {theirs}: {apart.makes}"


def cupboard_data(cupboard: Cupboard) -> dict[str, Any]:
    """The same as data."""
    return {
        "shelves": [
            {"title": shelf.title, "bottles": [asdict(bottle) for bottle in shelf.bottles]}
            for shelf in cupboard.shelves
        ],
        "apart": [asdict(apart) for apart in cupboard.apart],
        "not checked": [bottle.id for bottle in cupboard.unchecked],
        "notice": " ".join(FOOT.split()),
    }
