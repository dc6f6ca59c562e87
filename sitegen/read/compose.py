"""Composing: YAML text to a tree of nodes, or problems.

Built on the parser's events rather than on its constructors, with a stack of our own: no value is ever
resolved, deep nesting cannot overflow, aliases are counted as they expand. What the parser itself
refuses is worded in `syntax`.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any, Final

import yaml

from sitegen.problems import Problem, Problems, Span, did_you_mean
from sitegen.read.nodes import ListNode, MapNode, Node, TextNode
from sitegen.read.syntax import DEEP, MAX_DEPTH, syntax_problem

MAX_NODES: Final = 50_000
"""Values in one file, aliases expanded; a long recipe holds some five hundred."""

# Which characters never stand in a recipe? Control characters, and what YAML 1.1 alone takes for a line
# break (an editor's line numbers would then differ from ours), and a byte order mark inside the text.
_REFUSED: Final = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u2028\u2029\ufeff\ufffe\uffff\ud800-\udfff]")
_LOADER: Final[Any] = getattr(yaml, "CSafeLoader", yaml.SafeLoader)  # the C parser where it was built
_NEWLINE: Final = re.compile(r"\r\n|\r|\n")
# `Bottle #2` ends before its `#` for YAML: a number sign is told from a remark by what touches it.
_NUMBER_SIGN: Final = re.compile(r"[ \t]+(#\w[^ \t]*)")


def compose(text: str, file: str, problems: Problems) -> MapNode | None:
    """The file's tree, or None when a problem has been added."""
    if bad := _REFUSED.search(text):
        problems.add(_control_character(text, bad.start(), file))
        return None
    if text.lstrip().startswith("---") and text.strip("- \t\r\n.") == "":
        text = ""
    lines = _NEWLINE.split(text) if _NUMBER_SIGN.search(text) else []
    builder = _Builder(file=file, problems=problems, lines=lines)
    try:
        for event in _events(text):
            if not builder.take(event):
                return None
    except yaml.MarkedYAMLError as error:
        problems.add(syntax_problem(error, text, file, builder.quoted))
        return None
    except yaml.YAMLError:
        # No mark: the reader failed on a character that `_REFUSED` lets through.
        problems.add(Problem(code="yaml-not-read", at=Span(file=file), message="this file is not YAML"))
        return None
    return builder.result()


def _events(text: str) -> Iterator[yaml.Event]:
    yield from yaml.parse(text, Loader=_LOADER)


def _control_character(text: str, position: int, file: str) -> Problem:
    before = _NEWLINE.split(text[:position])
    column = len(before[-1])
    at = Span(file=file, line=len(before) - 1, column=column, end=column + 1)
    return Problem(
        code="control-character",
        at=at,
        message=f"the invisible character U+{ord(text[position]):04X} stands here",
        help="delete it, or type the line again",
    )


@dataclass(slots=True)
class _Open:
    """A list or mapping whose end has not been reached. Lists use `items` alone."""

    at: Span
    anchor: str | None
    is_map: bool
    items: list[Node] = field(default_factory=list)
    keys: dict[str, TextNode] = field(default_factory=dict)
    key: TextNode | None = None


@dataclass(slots=True)
class _Builder:
    """Takes events; says no after the first problem that makes the rest unreadable."""

    file: str
    problems: Problems
    lines: list[str]  # of the file, where one may be cut off at a number sign
    stack: list[_Open] = field(default_factory=list)
    anchors: dict[str, tuple[Node, int]] = field(default_factory=dict)
    root: Node | None = None
    count: int = 0
    counts: list[int] = field(default_factory=list)
    documents: int = 0
    failed: bool = False
    quoted: tuple[yaml.Mark, yaml.Mark] | None = None  # where the last text in quotes begins and ends

    def take(self, event: yaml.Event) -> bool:
        """Whether to go on."""
        if isinstance(event, yaml.ScalarEvent):  # first: two events of three
            at = self._span(event)
            return self._untagged(event, at) and self._scalar(event, at)
        if isinstance(event, yaml.CollectionEndEvent):
            return self._close()
        at = self._span(event)
        match event:
            case yaml.CollectionStartEvent():
                return self._untagged(event, at) and self._open(event, at)
            case yaml.AliasEvent():
                return self._alias(event.anchor or "", at)
            case yaml.DocumentStartEvent():
                self.documents += 1
                if self.documents > 1:
                    remedy = "keep one document in a file; delete the line `---`"
                    return self._stop("several-documents", at, "a second document starts here", remedy)
        return True

    def result(self) -> MapNode | None:
        """The tree, once all events are taken."""
        if self.failed:
            return None
        at = Span(file=self.file)
        if self.root is None or (isinstance(self.root, TextNode) and self.root.empty):
            self._stop(
                "file-empty", at, "this file is empty", "write its fields, a line each: `name: value`; or delete it"
            )
        elif not isinstance(self.root, MapNode):
            self._stop(
                "file-without-fields",
                self.root.at,
                "this file holds no fields",
                "write fields such as `title: My print`",
            )
        else:
            return self.root
        return None

    def _span(self, event: yaml.Event) -> Span:
        start, end = event.start_mark, event.end_mark
        assert start is not None, "both parsers mark every event"
        assert end is not None, "both parsers mark every event"
        first, last = start.column, end.column
        if end.line != start.line or last <= first or isinstance(event, yaml.CollectionStartEvent):
            last = first + 1
        return Span(file=self.file, line=start.line, column=first, end=last)

    def _stop(self, code: str, at: Span, message: str, remedy: str, *notes: str) -> bool:
        self.failed = True
        self.problems.add(Problem(code=code, at=at, message=message, help=remedy, notes=notes))
        return False

    def _untagged(self, event: Any, at: Span) -> bool:
        if event.tag is None:
            return True
        remedy = "delete it; put the text in quotes if it is meant to start with `!`"
        return self._stop("tag-refused", at, "a tag (`!`) stands before this value", remedy)

    def _scalar(self, event: Any, at: Span) -> bool:
        if bad := _REFUSED.search(event.value):
            message = f"this text holds the invisible character U+{ord(bad.group()):04X}"
            return self._stop("control-character", at, message, "write the text without it")
        if self.lines and not event.style and not self._uncut(event):
            return False
        if event.style in ("'", '"'):
            self.quoted = (event.start_mark, event.end_mark)
        empty = event.value == "" and not event.style  # plain: the two parsers say it differently
        return self._place(TextNode(text=event.value, at=at, empty=empty), event.anchor, 1)

    def _uncut(self, event: Any) -> bool:
        """Whether no number sign ends this plain text early: what stands behind it would be lost unseen."""
        end = event.end_mark
        cut = _NUMBER_SIGN.match(self.lines[end.line], end.column) if end.line < len(self.lines) else None
        if cut is None:
            return True
        return self._stop(
            "yaml-number-sign",
            Span(file=self.file, line=end.line, column=cut.start(1), end=cut.end(1)),
            f"the text ends before `{cut[1]}`: what follows a `#` is a remark",
            "put the whole text in quotes; write `# ` with a blank where a remark is meant",
        )

    def _open(self, event: Any, at: Span) -> bool:
        if len(self.stack) >= MAX_DEPTH:
            return self._stop(DEEP.code, at, DEEP.message, DEEP.help)
        is_map = isinstance(event, yaml.MappingStartEvent)
        self.stack.append(_Open(at=at, anchor=event.anchor, is_map=is_map))
        self.counts.append(self.count)
        return True

    def _close(self) -> bool:
        done = self.stack.pop()
        size = self.count - self.counts.pop() + 1
        node: Node
        if done.is_map:
            node = MapNode(entries=tuple(zip(done.keys.values(), done.items, strict=True)), at=done.at)
        else:
            node = ListNode(items=tuple(done.items), at=done.at)
        return self._place(node, done.anchor, 1, size)

    def _alias(self, name: str, at: Span) -> bool:
        if any(open_.anchor == name for open_ in self.stack):
            remedy = "write the values out instead of referring to them"
            return self._stop("alias-inside-itself", at, f"`*{name}` refers to what it stands in", remedy)
        if name not in self.anchors:
            remedy = did_you_mean(name, self.anchors) or "put the text in quotes if it is meant to start with `*`"
            return self._stop("alias-unknown", at, f"`*{name}` refers to `&{name}`, which is not above", remedy)
        node, size = self.anchors[name]
        return self._place(node, None, size)

    def _place(self, node: Node, anchor: str | None, adds: int, size: int = 1) -> bool:
        self.count += adds
        if self.count > MAX_NODES:
            remedy = "split the file, or write fewer references (`*name`)"
            return self._stop("too-many-values", node.at, f"this file holds more than {MAX_NODES} values", remedy)
        if anchor:
            self.anchors[anchor] = (node, size)
        if not self.stack:
            self.root = node
            return True
        parent = self.stack[-1]
        if parent.is_map and parent.key is None:
            return self._key(parent, node)
        if not parent.is_map or (parent.key and parent.key.text not in parent.keys):
            parent.items.append(node)
            if parent.key:
                parent.keys[parent.key.text] = parent.key
        parent.key = None
        return True

    def _key(self, parent: _Open, node: Node) -> bool:
        if not isinstance(node, TextNode) or node.empty:
            remedy = "write `name: value`; put a text with brackets in quotes"
            return self._stop("key-not-text", node.at, "the name of a field is missing here", remedy)
        if node.text == "<<":
            remedy = "write the fields out; merging with `<<` is not read"
            return self._stop("merge-key", node.at, "`<<` would merge fields from elsewhere", remedy)
        if first := parent.keys.get(node.text):
            # The value is still read, for its own mistakes, and then left out.
            self.failed = True
            self.problems.add(
                Problem(
                    code="duplicate-key",
                    at=node.at,
                    message=f"`{node.text}` stands here twice",
                    help="keep one of the two, or give one another name",
                    notes=(f"the first is in line {first.at.line + 1}",),
                )
            )
        parent.key = node
        return True
