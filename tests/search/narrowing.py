"""A plain reader of the narrowing shards, which the browser's is held against."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from sitegen.search.shards import numbers, undigits


@dataclass(frozen=True, slots=True, kw_only=True)
class Narrowing:
    """What was ticked: choices by facet, and substances on the shelf."""

    ticked: Mapping[str, frozenset[str]]
    shelf: frozenset[str] = frozenset()


class Narrower:
    """A reader of the narrowing shards."""

    def __init__(self, shelf: Callable[[str], Any]) -> None:
        """`shelf` gives every shard by its name."""
        self._shelf = shelf

    def fits(self, narrowing: Narrowing) -> Callable[[int], bool]:
        """Whether a recipe passes every facet."""
        tests = [
            (column, _asked(column, narrowing.ticked[column["id"]]))
            for column in self._shelf("facets")["facets"]
            if narrowing.ticked.get(column["id"])
        ]

        def fit(recipe: int) -> bool:
            return all(bool(cell(column, recipe) & mask) != column["out"] for column, mask in tests)

        return fit

    def missing(self, narrowing: Narrowing) -> list[int]:
        """For each recipe how many substances are needed that are not on the shelf."""
        held = self._shelf("facets")
        left = [undigits(sign) for sign in held["many"]]
        for substance, _, shard in held["shelf"]:
            if substance in narrowing.shelf:
                lines = (line.split("\t") for line in self._shelf(f"s{shard}").split("\n"))
                for recipe, _ in numbers(dict(lines)[substance], weighed=False):
                    left[recipe] -= 1
        return left


def cell(column: Mapping[str, Any], recipe: int) -> int:
    """The choices of a recipe in a column, a bit each."""
    width = column["width"]
    return undigits(column["cells"][recipe * width : (recipe + 1) * width])


def _asked(column: Mapping[str, Any], ticked: frozenset[str]) -> int:
    """The choices that are ticked, a bit each."""
    return sum(1 << n for n, (choice, _) in enumerate(column["choices"]) if choice in ticked)
