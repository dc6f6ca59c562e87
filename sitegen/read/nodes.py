"""Nodes: a YAML file as its author wrote it, every value a text with its place.

Nothing is resolved: `1:10`, `no`, `1e3`, `010`, `~` are texts, and the schema decides what they mean.
How a tree is made from text is `compose`; walking a tree by a schema library's path is `check.places`.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.problems import Span

Data = str | None | list["Data"] | dict[str, "Data"]


@dataclass(frozen=True, slots=True, kw_only=True)
class TextNode:
    """A scalar. `empty` when nothing at all was written, not even quotes."""

    text: str
    at: Span
    empty: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class ListNode:
    """A list."""

    items: tuple["Node", ...]
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class MapNode:
    """Fields in the order of the file; no name stands twice."""

    entries: tuple[tuple[TextNode, "Node"], ...]
    at: Span

    def entry(self, name: str) -> "tuple[TextNode, Node] | None":
        """The key and value of that name."""
        return next((pair for pair in self.entries if pair[0].text == name), None)

    def get(self, name: str) -> "Node | None":
        """The value of that name."""
        pair = self.entry(name)
        return pair[1] if pair else None

    def maps(self) -> "Iterator[tuple[TextNode, MapNode]]":
        """The entries whose values have fields of their own."""
        for key, value in self.entries:
            if isinstance(value, MapNode):
                yield key, value


Node = TextNode | ListNode | MapNode


def to_data(node: Node) -> Data:
    """Plain dictionaries, lists and texts; None where nothing was written.

    Depth and number of nodes are bounded by `compose`.
    """
    match node:
        case TextNode(text=text, empty=empty):
            return None if empty else text
        case ListNode(items=items):
            return [to_data(item) for item in items]
        case MapNode(entries=entries):
            return {key.text: to_data(value) for key, value in entries}


def fields_at(node: Node | None, name: str) -> MapNode | None:
    """The mapping under `name`, if both are there."""
    value = node.get(name) if isinstance(node, MapNode) else None
    return value if isinstance(value, MapNode) else None


def text_at(node: Node | None, name: str) -> TextNode | None:
    """The text under `name`, if it is there and not empty."""
    value = node.get(name) if isinstance(node, MapNode) else None
    return value if isinstance(value, TextNode) and not value.empty else None
