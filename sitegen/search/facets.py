"""Narrowing: what a recipe asks of its reader, as columns of signs, one cell a recipe.

A column costs a sign or two a recipe and packs well, so that counts beside every choice come from one
shard. What is on a shelf is kept the other way round: for each substance the recipes that need it,
loaded as it is ticked; what is missing is then how many a recipe needs less those that are ticked.
`search-narrow.js` reads both.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from sitegen.search.shards import Shard, cut, digits, in_gaps

SHELF_SIZE: Final = 5_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Traits:
    """What one recipe can be narrowed by: choices by the name of their facet, and what must be at hand."""

    choices: Mapping[str, tuple[str, ...]]
    holds: tuple[str, ...] = ()
    """Ids of substances that cannot be left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Facet:
    """One way to narrow: its choices in the order they are shown, with what each is called.

    `leaves_out`: a tick takes recipes away instead of asking for them.
    """

    id: str
    said: str
    choices: tuple[tuple[str, str], ...]
    leaves_out: bool = False


def facet_shards(traits: Sequence[Traits], facets: Iterable[Facet], substances: Mapping[str, str]) -> Iterator[Shard]:
    """The shard `facets` and the shelf's shards; `substances` gives names by id."""
    columns = [_column(facet, traits) for facet in facets]
    needed: dict[str, list[int]] = {}
    for number, each in enumerate(traits):
        for substance in each.holds:
            needed.setdefault(substance, []).append(number)
    ordered = sorted(needed, key=lambda s: (substances[s].casefold(), s))
    lines = [f"{s}\t{in_gaps(needed[s])}" for s in ordered]
    shards = list(cut(lines, SHELF_SIZE))
    where = [n for n, shard in enumerate(shards) for _ in shard]
    shelf = [[s, substances[s], n] for s, n in zip(ordered, where, strict=True)]
    many = "".join(digits(min(63, len(each.holds)), 1) for each in traits)
    yield Shard(name="facets", data={"facets": columns, "shelf": shelf, "many": many})
    yield from (Shard(name=f"s{n}", data="\n".join(shard)) for n, shard in enumerate(shards))


def _column(facet: Facet, traits: Sequence[Traits]) -> dict[str, object]:
    used = {choice for each in traits for choice in each.choices.get(facet.id, ())}
    # What nothing has can be left out all the same: who looks for no skull sees that there is none.
    choices = [c for c in facet.choices if facet.leaves_out or c[0] in used]
    bit = {choice: 1 << n for n, (choice, _) in enumerate(choices)}
    width = max(1, -(-len(choices) // 6))
    masks = (sum(bit[c] for c in each.choices.get(facet.id, ())) for each in traits)
    return {
        "id": facet.id,
        "choices": choices,
        "out": facet.leaves_out,
        "width": width,
        "cells": "".join(digits(mask, width) for mask in masks),
    }
