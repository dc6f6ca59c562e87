"""Calendars: a timeline as iCalendar text (RFC 5545), one event a stage and one a wait.

Events stand at the longest times, so that nobody comes too early to a wet sheet; each says from when
it may begin. Times are floating: local wherever the calendar is opened. Work is busy time, a wait is
not. The same plan gives the same UIDs, so that a second import replaces the first; another start is
another plan. `assets/timing-calendar.js` is the browser's twin.
"""

from collections.abc import Iterator
from datetime import UTC, date, datetime
from typing import Final

from sitegen.compute.moments import moment
from sitegen.compute.timeline import Piece, Placed, Reach, Timeline
from sitegen.model.recipe import Recipe, Stage
from sitegen.render.dated import clock

OCTETS: Final = 75
"""Of one line, its end not counted."""
_CRLF: Final = "\r\n"


def calendar(timeline: Timeline, day: date, *, stamp: datetime) -> str:
    """The calendar of a timeline whose minutes count from that day's midnight; `stamp` is now, with its zone."""
    title = f"{timeline.recipe.code} {timeline.recipe.title}"
    lines = ["BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Trayside//Timeline//EN", "CALSCALE:GREGORIAN"]
    lines.append(f"NAME:{_escaped(title)}")
    numbers: dict[int, int] = {}
    for placed in timeline.placed:
        numbers[placed.print] = numbers.get(placed.print, 0) + 1
        lines += _event(placed, numbers[placed.print], timeline, day, stamp)
    lines.append("END:VCALENDAR")
    return "".join(folded(line) + _CRLF for line in lines)


def _event(placed: Placed, number: int, timeline: Timeline, day: date, stamp: datetime) -> Iterator[str]:
    start, end = moment(day, placed.start.high), moment(day, placed.end.high)
    begun = moment(day, timeline.start)
    yield "BEGIN:VEVENT"
    yield f"UID:{timeline.recipe.slug}-{_local(begun)}-{placed.print}-{number}@trayside"
    yield f"DTSTAMP:{stamp.astimezone(UTC):%Y%m%dT%H%M%SZ}"
    yield f"DTSTART:{_local(start)}"
    if end > start:  # without an end it takes no time; an end that is no later is not allowed
        yield f"DTEND:{_local(end)}"
    yield f"SUMMARY:{_escaped(_summary(placed, timeline))}"
    yield f"DESCRIPTION:{_escaped(_description(placed, timeline, day))}"
    yield f"TRANSP:{'OPAQUE' if placed.piece.kind == 'work' else 'TRANSPARENT'}"
    yield "END:VEVENT"


def summary_of(piece: Piece, recipe: Recipe) -> str:
    """What an event is called, but for the number of its print."""
    return f"{recipe.code} {piece.title}" + (": wait" if piece.kind == "wait" else "")


def remarks_on(piece: Piece, recipe: Recipe) -> Iterator[str]:
    """What an event says below its times."""
    stage = recipe.stages[piece.stage - 1]
    if piece.untimed:
        yield f"Steps with no time given: {piece.untimed}. It takes longer than this."
    if piece.kind == "work" and stage.light:
        yield f"Light: {stage.light}"
    if _ends_stage(piece, stage):
        yield from (f"Before going on: {check}" for check in stage.checks)
    yield f"{recipe.title}, {recipe.code}, revision {recipe.revision}"


def _summary(placed: Placed, timeline: Timeline) -> str:
    prints = f", print {placed.print}" if timeline.placed[-1].print > 1 else ""
    return summary_of(placed.piece, timeline.recipe) + prints


def _description(placed: Placed, timeline: Timeline, day: date) -> str:
    times = (f"Begins {_when(placed.start, day)}.", f"Ends {_when(placed.end, day)}.")
    return "\n".join((*times, *remarks_on(placed.piece, timeline.recipe)))


def _ends_stage(piece: Piece, stage: Stage) -> bool:
    if stage.then_wait is not None:
        return not piece.steps
    return piece.steps[-1].number == len(stage.steps)


def _when(reach: Reach, day: date) -> str:
    early, late = (clock(day, at) for at in (reach.low, reach.high))
    return early if early == late else f"between {early} and {late}"


def _local(at: datetime) -> str:
    return f"{at:%Y%m%dT%H%M%S}"


def _escaped(text: str) -> str:
    """A TEXT value: backslash, semicolon, comma and line ends escaped, other control characters left out."""
    for plain, written in (("\\", "\\\\"), (";", "\\;"), (",", "\\,"), ("\r\n", "\\n"), ("\r", "\\n"), ("\n", "\\n")):
        text = text.replace(plain, written)
    return "".join(c for c in text if c == "\t" or (c >= " " and c != "\x7f"))


def folded(line: str) -> str:
    """The line cut into pieces of at most 75 octets, no character cut in two, each but the first after a space."""
    pieces, size = [""], 0
    for character in line:
        octets = len(character.encode())
        if size + octets > OCTETS:
            pieces.append(" ")
            size = 1
        pieces[-1] += character
        size += octets
    return _CRLF.join(pieces)
