"""Timelines: when each stage of a recipe may begin and end, with its waits, for one print or several.

Everything is reckoned twice, with all times at their shortest and at their longest: between the two
lies the day. Minutes count from the midnight before (`compute.moments`). Not here: how long baths
keep (`compute.bath_life`) and how a day is drawn.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby, takewhile
from typing import Final, Literal

from sitegen.compute.daylight import asks_for_daylight
from sitegen.compute.moments import DAY, Hours
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Recipe, Stage, Step
from sitegen.problems import Refusal

Kind = Literal["work", "wait"]
End = Literal["low", "high"]
ALONE: Final = Fraction(8 * 60)
"""Minutes. A step that takes a working day at least goes on by itself; shorter ones are work. No source."""
MOST_PRINTS: Final = 20
SUMMER_TIME: Final = "times are of the local clock; a change to or from summer time is not counted"
LONG_DAY: Final = "may take longer than the bench is open in a day"
DRAWN_OUT: Final = "the wait after it is drawn out until the bench opens; see that it may be"
BRIGHT: Final = Hours(opens=Fraction(8 * 60), closes=Fraction(18 * 60))
"""When the sky is taken to be bright enough; it is for less in winter and further from the equator. No source."""
DARK: Final = (
    "daylight is asked for, and between 18:00 and 08:00 there may be none; the sky itself is not reckoned with"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """Minutes at their shortest (or earliest) and longest (or latest)."""

    low: Fraction
    high: Fraction

    def plus(self, other: "Reach") -> "Reach":
        """Both ends added."""
        return Reach(low=self.low + other.low, high=self.high + other.high)


NOTHING: Final = Reach(low=Fraction(0), high=Fraction(0))


@dataclass(frozen=True, slots=True, kw_only=True)
class TimedStep:
    """A step of a stage, counted from 1, and its minutes; None where no time is given."""

    number: int
    step: Step
    lasts: Reach | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """A stretch of one stage, counted from 1: steps in one go, a step that goes on by itself, or the wait."""

    stage: int
    title: str
    kind: Kind
    lasts: Reach
    steps: tuple[TimedStep, ...] = ()
    daylight: bool = False
    """Work that is done, exposed or judged by the light of the sky."""

    @property
    def untimed(self) -> int:
        """How many of its steps have no time."""
        return sum(1 for step in self.steps if step.lasts is None)

    def length(self, end: End) -> Fraction:
        """Its minutes at one end."""
        return self.lasts.low if end == "low" else self.lasts.high


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A piece on the clock, of one print (counted from 1). `held` is how much longer than its time it was
    drawn out, until the bench opens."""

    piece: Piece
    print: int
    start: Reach
    end: Reach
    held: Reach = NOTHING

    @property
    def overnight(self) -> Literal["no", "perhaps", "yes"]:
        """Whether midnight falls in it."""
        if _midnight_between(self.start.high, self.end.low):
            return "yes"
        return "perhaps" if _midnight_between(self.start.low, self.end.high) else "no"


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """Every piece of every print. `hands_on` and `waiting` are of one print, as the recipe gives them."""

    recipe: Recipe
    placed: tuple[Placed, ...]
    hands_on: Reach
    waiting: Reach
    start: Fraction
    finish: Reach
    last_start: Fraction | None
    """With a wished finish: the start after which not even the shortest times are enough; None with hours."""
    untimed: tuple[tuple[str, int], ...]
    """Stage and number of each step with no time given: the totals are then lower bounds."""
    warnings: tuple[str, ...]


def timeline_from(recipe: Recipe, start: Fraction, *, prints: int = 1, hours: Hours | None = None) -> Timeline:
    """The timeline from a start (minutes). The next print begins when the bench is free for all its work.

    The bench is free if no work of two prints meets, with all times at their shortest and at their
    longest. With `hours`, work that would not be done by closing is held until opening, after a wait.
    """
    return _timeline(recipe, _prints(pieces_of(recipe), start, _sensible(prints), hours), hours)


def timeline_until(recipe: Recipe, finish: Fraction, *, prints: int = 1, hours: Hours | None = None) -> Timeline:
    """The timeline that is done by a wished finish even with the longest times.

    It starts as late as it may; with `hours` and several prints perhaps earlier, never later.
    """
    pieces, count = pieces_of(recipe), _sensible(prints)
    start = _start_for(pieces, finish, count, hours, "high")
    last = None if hours else _start_for(pieces, finish, count, None, "low")
    return _timeline(recipe, _prints(pieces, start, count, hours), hours, last_start=last)


def pieces_of(recipe: Recipe) -> tuple[Piece, ...]:
    """The recipe's stages as pieces in order. `Refusal` when it has no stages."""
    if not recipe.stages:
        raise Refusal("no-stages", f"`{recipe.slug}` has no stages to put in time", "write its `stages`")
    return tuple(piece for n, stage in enumerate(recipe.stages, 1) for piece in _stage(n, stage, recipe))


def _stage(number: int, stage: Stage, recipe: Recipe) -> Iterator[Piece]:
    daylight = asks_for_daylight(recipe, stage)
    timed = [TimedStep(number=n, step=s, lasts=_reach(s.lasts)) for n, s in enumerate(stage.steps, 1)]
    for alone, group in groupby(timed, lambda t: t.lasts is not None and t.lasts.low >= ALONE):
        steps = tuple(group)
        lasts = NOTHING
        for step in steps:
            lasts = lasts.plus(step.lasts or NOTHING)
        yield Piece(
            stage=number,
            title=stage.title,
            kind="wait" if alone else "work",
            lasts=lasts,
            steps=steps,
            daylight=daylight and not alone,
        )
    if wait := _reach(stage.then_wait):
        yield Piece(stage=number, title=stage.title, kind="wait", lasts=wait)


def _reach(time: Quantity | None) -> Reach | None:
    if time is None:
        return None
    low, high = time.base()
    return Reach(low=low, high=high)


def _sensible(prints: int) -> int:
    if not 1 <= prints <= MOST_PRINTS:
        raise Refusal("count-not-whole", f"{prints} prints are not planned", f"ask for 1 to {MOST_PRINTS} prints")
    return prints


def _timeline(
    recipe: Recipe, placed: tuple[Placed, ...], hours: Hours | None, *, last_start: Fraction | None = None
) -> Timeline:
    pieces = tuple(p.piece for p in placed if p.print == 1)
    sums = dict.fromkeys(("work", "wait"), NOTHING)
    for piece in pieces:
        sums[piece.kind] = sums[piece.kind].plus(piece.lasts)
    return Timeline(
        recipe=recipe,
        placed=placed,
        hands_on=sums["work"],
        waiting=sums["wait"],
        start=placed[0].start.low,
        finish=Reach(low=max(p.end.low for p in placed), high=max(p.end.high for p in placed)),
        last_start=last_start,
        untimed=tuple((p.title, s.number) for p in pieces for s in p.steps if s.lasts is None),
        warnings=tuple(_warnings(pieces, placed, hours)),
    )


def _prints(pieces: tuple[Piece, ...], start: Fraction, prints: int, hours: Hours | None) -> tuple[Placed, ...]:
    """Each print in turn, begun as soon as none of its work meets that of those before it."""
    done: tuple[Placed, ...] = ()
    for number in range(1, prints + 1):
        one = _one(pieces, start, number, hours)
        while gap := _meeting(done, one):
            start += gap
            one = _one(pieces, start, number, hours)
        done += one
    return done


def _one(pieces: tuple[Piece, ...], start: Fraction, number: int, hours: Hours | None) -> tuple[Placed, ...]:
    low, high = _forward(pieces, start, hours, "low"), _forward(pieces, start, hours, "high")
    return tuple(
        Placed(
            piece=piece,
            print=number,
            start=Reach(low=a[0], high=b[0]),
            end=Reach(low=a[1], high=b[1]),
            held=Reach(low=a[1] - a[0] - piece.lasts.low, high=b[1] - b[0] - piece.lasts.high),
        )
        for piece, a, b in zip(pieces, low, high, strict=True)
    )


def _forward(pieces: tuple[Piece, ...], at: Fraction, hours: Hours | None, end: End) -> list[tuple[Fraction, Fraction]]:
    """Start and end of each piece at one end of all times; a wait is held on until its work fits the hours."""
    spans: list[tuple[Fraction, Fraction]] = []
    for n, piece in enumerate(pieces):
        if hours and piece.kind == "work" and (not n or pieces[n - 1].kind == "wait"):
            at = hours.next_start(at, _sitting(pieces[n:]))
            if spans:
                spans[-1] = (spans[-1][0], at)
        spans.append((at, at + piece.length(end)))
        at = spans[-1][1]
    return spans


def _sitting(pieces: tuple[Piece, ...]) -> Fraction:
    """Minutes the work from here to the next wait may take: it is not begun if it might be broken off."""
    return sum((p.lasts.high for p in takewhile(lambda p: p.kind == "work", pieces)), Fraction(0))


def _meeting(earlier: tuple[Placed, ...], one: tuple[Placed, ...]) -> Fraction | None:
    """How long the print must be put off so that one meeting of its work with earlier work is past."""
    for mine in one:
        for other in earlier:
            if mine.piece.kind == other.piece.kind == "work":
                if mine.start.low < other.end.low and other.start.low < mine.end.low:
                    return other.end.low - mine.start.low
                if mine.start.high < other.end.high and other.start.high < mine.end.high:
                    return other.end.high - mine.start.high
    return None


def _start_for(pieces: tuple[Piece, ...], finish: Fraction, prints: int, hours: Hours | None, end: End) -> Fraction:
    """A start from which the last print is done by `finish` at that end of all times."""
    start = _backward(pieces, finish, hours, end)
    while True:
        placed = _prints(pieces, start, prints, hours)
        over = max(p.end.low if end == "low" else p.end.high for p in placed) - finish
        if over <= 0:
            return placed[0].start.low
        start -= over


def _backward(pieces: tuple[Piece, ...], at: Fraction, hours: Hours | None, end: End) -> Fraction:
    for kind, group in groupby(reversed(pieces), lambda p: p.kind):
        lasting = sum((p.length(end) for p in group), Fraction(0))
        at = hours.last_start(at, lasting) if hours and kind == "work" else at - lasting
    return at


def _warnings(pieces: tuple[Piece, ...], placed: tuple[Placed, ...], hours: Hours | None) -> Iterator[str]:
    untimed = sum(p.untimed for p in pieces)
    if untimed:
        steps = "1 step has" if untimed == 1 else f"{untimed} steps have"
        yield f"{steps} no time given: everything takes at least this long"
    for piece in pieces:
        if piece.kind == "wait" and piece.steps:
            yield f"{piece.title}: step {piece.steps[0].number} takes so long that it is reckoned as going on by itself"
    if hours:
        for n, piece in enumerate(pieces):
            first = piece.kind == "work" and (not n or pieces[n - 1].kind == "wait")
            if first and _sitting(pieces[n:]) > hours.closes - hours.opens:
                yield f"{piece.title}: {LONG_DAY}"
        for title in dict.fromkeys(p.piece.title for p in placed if p.held.high > 0 or p.held.low > 0):
            yield f"{title}: {DRAWN_OUT}"
    if dark := dict.fromkeys(p.piece.title for p in placed if p.piece.daylight and not _bright(p)):
        yield f"{', '.join(dark)}: {DARK}"
    if placed[-1].end.high // DAY != placed[0].start.low // DAY:
        yield SUMMER_TIME


def _bright(placed: Placed) -> bool:
    return BRIGHT.hold(placed.start.low, placed.end.low) and BRIGHT.hold(placed.start.high, placed.end.high)


def _midnight_between(start: Fraction, end: Fraction) -> bool:
    return (start // DAY + 1) * DAY < end
