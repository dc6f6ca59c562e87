"""Places: where in the file the value stands that a schema library's path names."""

from collections.abc import Sequence
from dataclasses import dataclass

from sitegen.problems import Span
from sitegen.read.nodes import ListNode, MapNode, Node, TextNode

Loc = Sequence[str | int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Spans of a file's values by path, such as `("stages", 2, "title")`."""

    root: MapNode

    def value(self, *loc: str | int) -> Span:
        """Where the value is written; its nearest ancestor where it is missing."""
        return self.found(loc)[1].at

    def key(self, *loc: str | int) -> Span:
        """Where the name of a field is written; of an entry of a list, where the entry starts."""
        key, node = self.found(loc)
        return key.at if key else _start(node)

    def found(self, loc: Loc) -> tuple[TextNode | None, Node]:
        """The innermost key and value that exist along the path."""
        key: TextNode | None = None
        node: Node = self.root
        for part in loc:
            if isinstance(node, MapNode):
                pair = node.entry(str(part))
                # The library also names branches of unions: no step in the file.
                key, node = pair or (key, node)
            elif isinstance(node, ListNode) and isinstance(part, int) and part < len(node.items):
                key, node = None, node.items[part]
        return key, node


def _start(node: Node) -> Span:
    return node.entries[0][0].at if isinstance(node, MapNode) and node.entries else node.at
