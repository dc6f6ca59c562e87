"""Edits: changes to a YAML text at the places of its values. Comments, order and quoting of all the rest are kept.

Each function takes the whole text and gives the whole text; a path is names of fields and numbers of entries from 0.
What an edit cannot be made to is refused (`edit-not-possible`) and never rewritten in another shape.
"""

import json
import re
from collections.abc import Sequence
from typing import Final

import yaml

from sitegen.problems import Refusal

Path = Sequence[str | int]
_PLAIN: Final = re.compile(r"[A-Za-z0-9](?:[\w .+%/()°²×–-]*[\w.+%/)°²×–])?")


def quoted(text: str) -> str:
    """The text as a YAML value that reads back to it, in quotes where it needs any."""
    return text if _PLAIN.fullmatch(text) else json.dumps(text, ensure_ascii=False)


def replaced(text: str, path: Path, value: str) -> str:
    """The text with another scalar at the path, in the quotes that stand there."""
    node = _at(text, path)
    if not isinstance(node, yaml.ScalarNode) or node.style in ("|", ">"):
        raise _not_possible(path)
    if node.style == "'":
        written = "'" + value.replace("'", "''") + "'"
    else:
        written = json.dumps(value, ensure_ascii=False) if node.style == '"' else quoted(value)
    return text[: node.start_mark.index] + written + text[node.end_mark.index :]


def replaced_by_fields(text: str, path: Path, fields: Sequence[tuple[str, str]]) -> str:
    """The text with a group of fields in one line where a scalar stood."""
    node = _at(text, path)
    if not isinstance(node, yaml.ScalarNode) or node.style in ("|", ">"):
        raise _not_possible(path)
    return text[: node.start_mark.index] + _in_line(fields) + text[node.end_mark.index :]


def with_field(text: str, path: Path, name: str, value: str, *, after: str = "") -> str:
    """The text with one more field in the group at the path: after that one, else at its end."""
    node = _at(text, path)
    if not isinstance(node, yaml.MappingNode) or not node.value:
        raise _not_possible(path)
    ends = {key.value: value_node for key, value_node in node.value}
    last = ends.get(after, node.value[-1][1])
    field = f"{quoted(name)}: {quoted(value)}"
    if node.flow_style:
        return _inserted(text, _end(text, last), f", {field}")
    return _lines_after(text, last, node.start_mark.column, [field])


def with_entry(text: str, name: str, lines: Sequence[str], *, after: str = "") -> str:
    """The text with one more entry, given as lines of block YAML, in the list `name` at the top of the file.

    The list is begun after the field `after` where there is none yet. A list in brackets is not possible.
    """
    root = _at(text, ())
    if not isinstance(root, yaml.MappingNode) or root.flow_style:
        raise _not_possible(())
    found = {key.value: value for key, value in root.value}
    entry = [("- " if n == 0 else "  ") + line for n, line in enumerate(lines)]
    node = found.get(name)
    if node is None:
        before = found.get(after, root.value[-1][1])
        return _lines_after(text, before, root.start_mark.column, [f"{name}:", *(f"  {line}" for line in entry)])
    if not isinstance(node, yaml.SequenceNode) or node.flow_style or not node.value:
        raise _not_possible((name,))
    return _lines_after(text, node.value[-1], node.start_mark.column, entry)


def is_scalar(text: str, path: Path) -> bool:
    """Whether one value, and no group of fields, stands at the path."""
    return isinstance(_at(text, path), yaml.ScalarNode)


def _at(text: str, path: Path) -> yaml.Node:
    node = yaml.compose(text, Loader=yaml.SafeLoader)
    for part in path:
        inside: yaml.Node | None = None
        if isinstance(node, yaml.MappingNode):
            inside = next((value for key, value in node.value if key.value == part), None)
        elif isinstance(node, yaml.SequenceNode) and isinstance(part, int) and part < len(node.value):
            inside = node.value[part]
        # What an anchor names stands in several places: an edit would reach all of them.
        if inside is None or text[inside.start_mark.index] == "&":
            raise _not_possible(path)
        node = inside
    if node is None:
        raise _not_possible(path)
    return node


def _not_possible(path: Path) -> Refusal:
    where = " → ".join(str(part) for part in path) or "the file"
    return Refusal(
        "edit-not-possible", f"`{where}` is not written in a way that can be edited here", "make the change by hand"
    )


def _end(text: str, node: yaml.Node) -> int:
    """The position after the last character of a value; a block's own mark lies after the comments below it."""
    if isinstance(node, yaml.CollectionNode) and not node.flow_style and node.value:
        last = node.value[-1]
        return _end(text, last[1] if isinstance(last, tuple) else last)
    return len(text[: node.end_mark.index].rstrip())


def _lines_after(text: str, node: yaml.Node, column: int, lines: Sequence[str]) -> str:
    newline = "\r\n" if "\r\n" in text else "\n"
    end = _end(text, node)
    stop = text.find("\n", end)
    stop = len(text) if stop < 0 else stop - text[:stop].endswith("\r")
    return _inserted(text, stop, "".join(f"{newline}{' ' * column}{line}" for line in lines))


def _inserted(text: str, at: int, piece: str) -> str:
    return text[:at] + piece + text[at:]


def _in_line(fields: Sequence[tuple[str, str]]) -> str:
    return "{" + ", ".join(f"{name}: {quoted(value)}" for name, value in fields) + "}"
