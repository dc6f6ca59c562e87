"""The time that a recipe takes, ready to show: a sentence, a strip to scale, and a row for each piece.

Pages and printed files take the same `TimelineView`; `asdict` of it is what `themes/*/print/strip.typ` reads.
Everything counts from the start of the work: a day and a clock come in only when a reader gives them
(`assets/timing.js`) or asks the command. Stages that an edition does not hold are not reckoned with.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.compute.timeline import ALONE, NOTHING, Kind, Piece, Reach, Timeline, timeline_from
from sitegen.model.recipe import Recipe
from sitegen.render.length import lasting, length
from sitegen.render.timeline_words import at_least, in_days, roughly

_WHOLE: Final = Fraction(100)
_BREAK: Final = Fraction(9)
_LEAST: Final[dict[Kind, Fraction]] = {"work": Fraction(4), "wait": Fraction(2)}
"""Percent of the strip: a break, and what is drawn at least, so that it can be seen and numbered."""
_MANY: Final = 10
"""Pieces of work from which a number needs more room."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceView:
    """One stretch of the work or one wait. `left` and `width` are percents of the strip."""

    number: int
    """Of its stage, as on the page and the sheet."""
    title: str
    kind: Literal["work", "wait"]
    alone: bool
    """Steps that go on by themselves, and not a wait between two stages."""
    begins: str
    """From the start: `0 h`, `+38 min to +2 h 12 min`."""
    lasts: str
    """`8–12 min`; `no time given` where none of its steps has one."""
    untimed: int
    left: float
    width: float
    broken: bool
    """Eight hours at least at its longest: drawn with a gap, not to scale."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimelineView:
    """A recipe's time for one print. Of a range of times the longest are drawn."""

    said: str
    work: str
    waiting: str
    """'' where there is none."""
    whole: str
    pieces: tuple[PieceView, ...]
    notes: tuple[str, ...]
    alt: str
    """The strip in words."""


def timeline_view(recipe: Recipe) -> TimelineView | None:
    """What to show, or None for a recipe without stages or without a single time."""
    if not recipe.stages:
        return None
    line = timeline_from(recipe, Fraction(0))
    if not line.finish.high:
        return None
    pieces = _pieces(line)
    least = at_least(line)
    waiting = lasting(line.waiting.low, line.waiting.high) if line.waiting.high else ""
    return TimelineView(
        said=f"{(least or 'about ').capitalize()}{roughly(line.hands_on)} of work{in_days(line.finish)}.",
        work=least + lasting(line.hands_on.low, line.hands_on.high),
        waiting=waiting,
        whole=least + lasting(line.finish.low, line.finish.high),
        pieces=pieces,
        notes=tuple(w for w in line.warnings if "no time given" in w),
        alt=_in_words(pieces),
    )


def _pieces(line: Timeline) -> tuple[PieceView, ...]:
    widths = _widths(tuple(placed.piece for placed in line.placed))
    shown, left = [], Fraction(0)
    for placed, width in zip(line.placed, widths, strict=True):
        piece = placed.piece
        shown.append(
            PieceView(
                number=piece.stage,
                title=piece.title,
                kind=piece.kind,
                alone=piece.kind == "wait" and bool(piece.steps),
                begins=_from_start(placed.start),
                lasts=lasting(piece.lasts.low, piece.lasts.high) if piece.lasts != NOTHING else "no time given",
                untimed=piece.untimed,
                left=float(round(left, 3)),
                width=float(round(width, 3)),
                broken=_broken(piece),
            )
        )
        left += width
    return tuple(shown)


def _from_start(start: Reach) -> str:
    low, high = (f"+{length(end)}" if end else "0 h" for end in (start.low, start.high))
    return low if low == high else f"{low} to {high}"


def _broken(piece: Piece) -> bool:
    return piece.kind == "wait" and piece.lasts.high >= ALONE


def _widths(pieces: tuple[Piece, ...]) -> list[Fraction]:
    """Percents that make a hundred: breaks all alike, the rest by their longest times, none too narrow to see."""
    works = sum(1 for piece in pieces if piece.kind == "work")
    least = [_LEAST[piece.kind] * (Fraction(3, 2) if works >= _MANY else 1) for piece in pieces]
    fixed = {n: _BREAK for n, piece in enumerate(pieces) if _broken(piece)}
    while True:
        free = _WHOLE - sum(fixed.values())
        rest = [n for n in range(len(pieces)) if n not in fixed]
        longest = sum((pieces[n].lasts.high for n in rest), Fraction(0))
        small = [n for n in rest if not longest or pieces[n].lasts.high * free < least[n] * longest]
        if not small:
            break
        fixed |= {n: least[n] for n in small}
    widths = [fixed[n] if n in fixed else piece.lasts.high * free / longest for n, piece in enumerate(pieces)]
    return [width * _WHOLE / sum(widths) for width in widths]


def _in_words(pieces: tuple[PieceView, ...]) -> str:
    said = [f"wait, {p.lasts}" if p.kind == "wait" and not p.alone else _named(p) for p in pieces]
    return "The work from left to right: " + "; ".join(said) + "."


def _named(piece: PieceView) -> str:
    left = ", left alone" if piece.alone else ""
    return f"{piece.number} {piece.title}{left}, {piece.lasts}"
