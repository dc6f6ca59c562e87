"""The strip of a timeline as an inline drawing for pages: percents of the page's width, and no style.

Work is solid with its stage's number, a wait is an outline, and what takes eight hours or more is broken.
Drawn in the colours of the text, so that it shows in the dark and in print; nothing is told by colour.
"""

from typing import Final

from markupsafe import Markup

from sitegen.render.timeline_view import PieceView, TimelineView

_HIGH: Final = 36
_LETTER: Final = 4.0
"""Percent of the strip that a digit needs on a phone."""
_BREAK: Final = Markup(
    '<svg class="gap" x="{}%" y="0" width="{}%" height="{}" viewBox="0 0 24 {}" preserveAspectRatio="xMidYMid meet">'
    '<path class="ground" d="M4 {}L12 0H24L16 {}z"/><path d="M4 {}L12 0M16 {}L24 0"/></svg>'
)


def strip_drawing(view: TimelineView) -> Markup:
    """The strip as SVG, with its words as the alternative."""
    parts = Markup("").join(_piece(piece) for piece in view.pieces)
    return Markup('<svg class="strip" width="100%" height="{}" role="img" aria-label="{}">{}</svg>').format(
        _HIGH, view.alt, parts
    )


def _piece(piece: PieceView) -> Markup:
    box = Markup('<rect class="{}" x="{}%" y="1" width="{}%" height="{}"/>').format(
        piece.kind, piece.left, piece.width, _HIGH - 2
    )
    if piece.broken:
        return box + _BREAK.format(piece.left, piece.width, _HIGH, *(_HIGH for _ in range(5)))
    if piece.kind == "work" and piece.width >= _LETTER * len(str(piece.number)):
        middle = round(piece.left + piece.width / 2, 3)
        return box + Markup('<text x="{}%" y="{}" text-anchor="middle">{}</text>').format(
            middle, _HIGH * 2 // 3, piece.number
        )
    return box
