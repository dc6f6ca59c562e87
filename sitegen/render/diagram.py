"""Diagrams: how a film is held, as small SVG drawings with their words, for pages and for sheets.

Drawn in the colour of the text, so that they show in the dark and in print; nothing is told by colour.
"""

from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from sitegen.model.layers import Facing, Negative

_WIDE: Final = 150
_WITH_WORDS: Final = 250
_LETTERS: Final = 17
"""Ten points on a sheet, at the scale of its template."""
_LONGEST_LABEL: Final = 9  # letters that fit
_R: Final = "M0 36V0H13Q24 0 24 10T13 20L26 36M13 20H0"
"""An R: no letter shows more plainly that it is mirrored."""
_SLABS: Final = {"film base": 26, "ink": 12, "coating": 12, "paper": 26}
"""How thick each is drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """An SVG and what it shows, in words."""

    svg: Markup
    alt: str
    width: int
    """In the units of the drawing, so that several are shown at one scale."""


def stack(faces: Facing) -> Drawing:
    """The frame in section, from the light down to the paper."""
    film = ("film base", "ink") if faces.down else ("ink", "film base")
    order = (*film, "coating", "paper")
    parts, top = [_light()], 48
    for name in order:
        parts.append(_slab(name, top))
        top += _SLABS[name] + (8 if name == film[1] else 0)  # film and coating apart, to be told from each other
    alt = "From the light down: " + ", then ".join(order) + "."
    return _drawing(parts, _WITH_WORDS, top + 4, alt)


def _light() -> Markup:
    arrows = (Markup("M{} 6V34M{} 26L{} 36L{} 26").format(x, x - 6, x, x + 6) for x in range(22, _WIDE, 36))
    return _line(Markup("").join(arrows)) + _word("light", 26)


def _slab(name: str, top: int) -> Markup:
    high = _SLABS[name]
    if name == "ink":
        inside = Markup("").join(
            Markup('<rect x="{}" y="{}" width="22" height="{}" fill="currentColor"/>').format(x, top, high)
            for x in range(12, _WIDE - 24, 35)
        )
    else:
        inside = _line(Markup("M4 {}h{}v{}h-{}z").format(top, _WIDE - 8, high, _WIDE - 8))
    if name == "coating":
        hatching = (Markup("M{} {}l8 -{}").format(x, top + high, high) for x in range(6, _WIDE - 12, 10))
        inside += _line(Markup("").join(hatching), 1)
    return inside + _word(name, top + high // 2 + 6)


def lying(film: Negative) -> Drawing:
    """The film as it lies on the sheet, seen from the light: its top edge up, its label, which way it reads."""
    edge = f"the top edge ({film.top_edge}) is away from you" if film.top_edge else "the top edge is up"
    words = ["Seen from the light", edge]
    parts = [_line("M20 34h110v130h-110z"), _line("M75 8V28M69 16L75 8L81 16"), _text("top", 86, 23)]
    if film.marks:
        crosses = (Markup("M{} {}h12M{} {}v12").format(x - 6, y, x, y - 6) for x in (34, 116) for y in (48, 150))
        parts.append(_line(Markup("").join(crosses)))
        words.append("its marks in view")
    if film.reads_right is not None:
        placed = "translate(62 74)" if film.reads_right else "translate(88 74) scale(-1 1)"
        parts.append(Markup('<g transform="{}">{}</g>').format(placed, _line(_R, 4)))
        words.append(f"writing reads {'the right way round' if film.reads_right else 'backwards'}")
    if film.label:
        short = film.label if len(film.label) <= _LONGEST_LABEL else f"{film.label[: _LONGEST_LABEL - 1]}…"
        parts.append(_text(short, 75, 136, "middle"))
        words.append(f"the label is {film.label}")
    return _drawing(parts, _WIDE, 170, ", ".join(words) + ".")


def _line(path: str, width: float = 2) -> Markup:
    return Markup('<path d="{}" fill="none" stroke="currentColor" stroke-width="{}"/>').format(path, width)


def _word(text: str, down: int) -> Markup:
    return _text(text, _WIDE + 6, down)


def _text(text: str, across: int, down: int, anchor: str = "start") -> Markup:
    return Markup('<text x="{}" y="{}" fill="currentColor" font-size="{}" text-anchor="{}">{}</text>').format(
        across, down, _LETTERS, anchor, text
    )


def _drawing(parts: list[Markup], width: int, height: int, alt: str) -> Drawing:
    svg = Markup(
        '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {} {}" width="{}" height="{}" role="img" '
        'aria-label="{}" font-family="Libertinus Serif, serif">{}</svg>'
    ).format(width, height, width, height, alt, Markup("").join(parts))
    return Drawing(svg=svg, alt=alt, width=width)
