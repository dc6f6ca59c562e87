"""Prose for print: Markdown as a tree of nodes, so that nothing an author types is run as Typst markup.

The tree is what the sheet's template walks. What a link means is the caller's to say; web pages have
their own renderer.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.tree import SyntaxTreeNode

Follow = Callable[[str], str]
"""What to print in parentheses behind a link's words, given its address; '' for nothing."""

_MARKDOWN: Final = MarkdownIt("commonmark", {"html": False}).disable("image")

# Which kind of node does each piece of Markdown become? A heading in a sentence's place is a paragraph:
# the sheet has its own headings. Breaks that only wrap the author's lines become spaces.
_KINDS: Final = {
    "paragraph": "paragraph", "heading": "paragraph", "blockquote": "quote", "inline": "span",
    "bullet_list": "list", "ordered_list": "numbered", "list_item": "item",
    "text": "text", "strong": "strong", "em": "emph", "code_inline": "code", "code_block": "code-block",
    "fence": "code-block", "softbreak": "text", "hardbreak": "break", "link": "link", "hr": "rule",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Node:
    """One node: `text` of a leaf, or what stands behind a link's words; `nodes` inside it."""

    kind: str
    text: str = ""
    nodes: tuple["Node", ...] = ()


def prose(markdown: str, follow: Follow) -> tuple[Node, ...]:
    """The blocks of a Markdown text."""
    return tuple(_node(child, follow) for child in SyntaxTreeNode(_MARKDOWN.parse(markdown)).children)


def said(nodes: tuple[Node, ...]) -> str:
    """The nodes as plain text, blocks apart by a blank."""
    return " ".join(_said(node) for node in nodes).strip()


def _said(node: Node) -> str:
    if node.kind in ("text", "code", "code-block"):
        return node.text
    if node.kind == "break":
        return " "
    apart = " " if node.kind in ("list", "numbered", "quote", "item") else ""
    behind = f" ({node.text})" if node.kind == "link" and node.text else ""
    return apart.join(_said(inner) for inner in node.nodes) + behind


def _node(found: SyntaxTreeNode, follow: Follow) -> Node:
    kind = _KINDS[found.type]
    if found.type == "link":
        text = follow(unquote(str(found.attrs.get("href", ""))))
    elif found.type == "softbreak":
        text = " "
    elif kind in ("text", "code", "code-block"):
        text = found.content.rstrip("\n")
    else:
        text = ""
    return Node(kind=kind, text=text, nodes=tuple(_node(child, follow) for child in found.children))
