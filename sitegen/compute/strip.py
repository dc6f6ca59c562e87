"""Test strips: bands of rising exposure, when the card moves, and the time a chosen band stands for.

Bands rise by equal seconds or by equal parts of a stop. The card is moved at whole seconds of one
running clock, so that rounding never adds up along the strip.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Final, Literal

from sitegen.compute.exposure import factor_of_stops, middle_in_stops, shown_seconds
from sitegen.model.quantity import Quantity, exact_text, parse_number
from sitegen.problems import Refusal

MOST_BANDS: Final = 30
SURE_HAND: Final = 10
"""Seconds below which a slip of one is more than a tenth, as a balance is trusted from ten steps on."""

Doing = Literal["cover", "uncover", "lamp off"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rise:
    """How bands follow each other: by `seconds` more each, or by `stops` more each."""

    seconds: Fraction = Fraction(0)
    stops: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """One band: its exact seconds, the whole seconds it gets, and its stops over the first (None in equal steps)."""

    number: int
    exact: Fraction
    seconds: int
    stops: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """What to do with the card when the clock, started with the lamp, shows `at` seconds."""

    at: int
    do: Doing
    band: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """A strip's bands, shortest first, and the two ways of moving a card over it."""

    first: Fraction
    rise: Rise
    bands: tuple[Band, ...]
    covering: tuple[Move, ...]
    """All bare at first; the card moves on over the shortest band first."""
    uncovering: tuple[Move, ...]
    """Only the longest band bare at first; the card is drawn back band by band."""
    warnings: tuple[str, ...]

    @property
    def stretches(self) -> tuple[int, ...]:
        """Seconds from one move of the covering card to the next: what a lamp's timer is set to each time."""
        return _stretches(self.bands)

    def seconds_at(self, place: Fraction) -> Fraction:
        """The exact time of a band, 1 the first; between two bands by the strip's own steps."""
        return _seconds(self.first, self.rise, place - 1)


def strip_from(first: Fraction, rise: Rise, count: int) -> Strip:
    """A strip whose shortest band gets `first` seconds. `Refusal` when it cannot be timed."""
    _sensible(rise, count)
    bands = []
    for step in range(count):
        exact = _seconds(first, rise, Fraction(step))
        over = None if rise.seconds else rise.stops * step
        bands.append(Band(number=step + 1, exact=exact, seconds=int(shown_seconds(exact)), stops=over))
    shortest = min(_stretches(bands))
    if shortest < 1:
        raise Refusal(
            "strip-too-fine",
            "two bands of the strip are less than a second apart",
            "take larger steps, or dim the light and lengthen all times",
        )
    return Strip(
        first=first,
        rise=rise,
        bands=tuple(bands),
        covering=_covering(bands),
        uncovering=_uncovering(bands),
        warnings=_slips(shortest),
    )


def strip_around(middle: Fraction, rise: Rise, count: int) -> Strip:
    """A strip whose middle band gets `middle` seconds; `count` is odd."""
    _sensible(rise, count)
    if count % 2 == 0:
        raise Refusal(
            "strip-without-middle",
            f"{count} bands have no middle one",
            f"ask for {count - 1} or {count + 1} bands",
        )
    first = _seconds(middle, rise, Fraction(-(count // 2)))
    if first <= 0:
        raise Refusal(
            "strip-below-nothing",
            f"{count // 2} steps of {exact_text(rise.seconds)} s below {exact_text(middle)} s are less than nothing",
            "take smaller or fewer steps, or steps of a stop",
        )
    return strip_from(first, rise, count)


def strip_about(time: Quantity, rise: Rise, count: int) -> Strip:
    """A strip around a time, or around the middle of a range: in stops where the bands rise by stops."""
    _sensible(rise, count)
    low, high = (time.in_unit("s").low, time.in_unit("s").high)
    return strip_around((low + high) / 2 if rise.seconds else middle_in_stops(low, high), rise, count)


USUAL_RISE: Final = Rise(stops=Fraction(1, 2))
_FEWEST, _MOST_USUAL = 5, 9


def usual_strip(time: Quantity) -> Strip | None:
    """The strip a recipe's own time asks for: half stops, and as many bands, five to nine, as reach both ends.

    None for a time that a hand cannot cut so fine.
    """
    seconds = time.in_unit("s")
    try:
        strip = strip_about(time, USUAL_RISE, _FEWEST)
        while len(strip.bands) < _MOST_USUAL and not _reaches(strip, seconds):
            strip = strip_about(time, USUAL_RISE, len(strip.bands) + 2)
    except Refusal:
        return None
    return strip


def _reaches(strip: Strip, seconds: Quantity) -> bool:
    return strip.bands[0].exact <= seconds.low and strip.bands[-1].exact >= seconds.high


def parse_place(text: str, count: int) -> Fraction:
    """The band that is right, `4`, or `4-5` for between those two; `Refusal` outside the strip."""
    match = re.fullmatch(r"\s*(\d+)(?:\s*[-–]\s*(\d+))?\s*", text, re.ASCII)
    first = parse_number(match[1]) if match else Fraction(0)
    last = parse_number(match[2]) if match and match[2] else first
    if not 1 <= first <= last <= count or last - first > 1:
        raise Refusal(
            "band-not-read",
            f"`{text}` is no band of {count}",
            "write a band, such as `4`, or `4-5` for between the two",
        )
    return (first + last) / 2


def _seconds(first: Fraction, rise: Rise, steps: Fraction) -> Fraction:
    return first + rise.seconds * steps if rise.seconds else first * factor_of_stops(rise.stops * steps)


def _sensible(rise: Rise, count: int) -> None:
    if (rise.seconds > 0) == (rise.stops > 0):
        raise Refusal(
            "ask-one-way",
            "a strip rises by equal times or by equal parts of a stop",
            "give one of the two, above zero",
        )
    if not 2 <= count <= MOST_BANDS:
        raise Refusal("strip-length", f"a strip of {count} bands is not cut", f"ask for 2 to {MOST_BANDS} bands")
    if rise.stops * count > 20:
        raise Refusal("stops-out-of-reach", "the strip runs over a millionfold", "take fewer bands or a smaller step")


def _stretches(bands: Sequence[Band]) -> tuple[int, ...]:
    return bands[0].seconds, *(after.seconds - before.seconds for before, after in pairwise(bands))


def _covering(bands: list[Band]) -> tuple[Move, ...]:
    moves = [Move(at=band.seconds, do="cover", band=band.number) for band in bands[:-1]]
    return (*moves, Move(at=bands[-1].seconds, do="lamp off", band=bands[-1].number))


def _uncovering(bands: list[Band]) -> tuple[Move, ...]:
    whole = bands[-1].seconds
    moves = [Move(at=whole - band.seconds, do="uncover", band=band.number) for band in reversed(bands)]
    return (*moves, Move(at=whole, do="lamp off", band=bands[0].number))


def _slips(shortest: int) -> tuple[str, ...]:
    if shortest >= SURE_HAND:
        return ()
    percent = (200 + shortest) // (2 * shortest)  # of one second, halves up
    return (f"the shortest stretch is {shortest} s: a slip of one second is {percent} % of it",)
