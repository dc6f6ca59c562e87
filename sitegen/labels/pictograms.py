"""Pictograms: the nine drawings as SVG text, from `data/hazards/pictograms.yaml`, whose text is given.

One source for pages and printed sheets: both place the same SVG. The drawing carries its own text alternative,
so that it is read out where it is placed by itself; decorative copies beside the words are the caller's.
"""

from dataclasses import dataclass
from html import escape
from typing import Final

from sitegen.labels.statements import PICTOGRAMS
from sitegen.problems import Problem, Problems
from sitegen.read.compose import compose
from sitegen.read.nodes import ListNode, MapNode, Node, TextNode, text_at

RED: Final = "#d5001c"
_FRAME: Final = "M50 1 L99 50 L50 99 L1 50 Z"
_GROUND: Final = "M50 8.5 L91.5 50 L50 91.5 L8.5 50 Z"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One path: filled, or a line of that width; black, or white to cut out of black."""

    d: str
    ink: str = "black"
    line: str = ""
    turn: tuple[str, ...] = ()

    def svg(self) -> str:
        """The path element."""
        colour = "#fff" if self.ink == "white" else "#000"
        paint = (
            f'fill="none" stroke="{colour}" stroke-width="{self.line}" stroke-linecap="round" stroke-linejoin="round"'
            if self.line
            else f'fill="{colour}" fill-rule="evenodd"'
        )
        turned = f' transform="rotate({" ".join(self.turn)})"' if self.turn else ""
        return f'<path d="{escape(self.d)}" {paint}{turned}/>'


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A pictogram: what it is called, what it says, its shapes."""

    code: str
    name: str
    alt: str
    scale: str
    """Of the symbol about the middle of the diamond."""
    shapes: tuple[Shape, ...]

    def svg(self) -> str:
        """A complete SVG document with its text alternative; sized by whoever places it."""
        title = escape(self.alt, quote=True)
        return (
            '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 100 100" role="img" '
            f'aria-label="{title}"><title>{title}</title>{self._drawn()}</svg>'
        )

    def symbol(self) -> str:
        """The drawing once in a page, as an SVG symbol of its code's name; each place of use brings the words."""
        return f'<symbol id="{self.code}" viewBox="0 0 100 100">{self._drawn()}</symbol>'

    def _drawn(self) -> str:
        symbol = "".join(shape.svg() for shape in self.shapes)
        middle = f"translate(50 50) scale({self.scale}) translate(-50 -50)"
        return f'<path d="{_FRAME}" fill="{RED}"/><path d="{_GROUND}" fill="#fff"/><g transform="{middle}">{symbol}</g>'


def read_pictograms(text: str, file: str, problems: Problems) -> dict[str, Drawing] | None:
    """The drawings by code, or None when a problem was added."""
    root = compose(text, file, problems)
    if root is None:
        return None
    before = len(problems.found)
    found = {key.text: _drawing(key, fields, problems) for key, fields in root.maps()}
    for code in PICTOGRAMS:
        if code not in found:
            message = f"the pictogram {code} is missing"
            problems.add(Problem(code="pictogram-missing", at=root.at, message=message, help=f"draw `{code}:`"))
    return found if len(problems.found) == before else None


def _drawing(key: TextNode, fields: MapNode, problems: Problems) -> Drawing:
    name, alt = text_at(fields, "name"), text_at(fields, "alt")
    shapes = tuple(_shape(item) for item in _items(fields.get("draw")) if isinstance(item, MapNode))
    if not (name and alt and shapes and all(s.d for s in shapes)):
        message = f"the pictogram {key.text} has no name, no text alternative or no shapes"
        problems.add(Problem(code="pictogram-missing", at=key.at, message=message, help="write name, alt, draw"))
    scale = text_at(fields, "scale")
    return Drawing(
        code=key.text,
        name=name.text if name else "",
        alt=alt.text if alt else "",
        scale=scale.text if scale else "1",
        shapes=shapes,
    )


def _shape(fields: MapNode) -> Shape:
    def of(name: str) -> str:
        node = text_at(fields, name)
        return node.text if node else ""

    turn = tuple(item.text for item in _items(fields.get("turn")) if isinstance(item, TextNode))
    return Shape(d=of("d"), ink=of("ink") or "black", line=of("line"), turn=turn)


def _items(node: Node | None) -> tuple[Node, ...]:
    return node.items if isinstance(node, ListNode) else ()
