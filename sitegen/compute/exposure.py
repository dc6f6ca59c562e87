"""Exposure: test strips, and what a stop, a lamp's distance, the light and an earlier layer do to a time.

Times are exact fractions of a second until they are shown in whole seconds. Part of a stop is no
fraction: `factor_of_stops` gives it to forty figures. Not here: what a print needs. That is found by
a strip, and again whenever paper, film, coat, damp or light change.
"""

from dataclasses import dataclass
from decimal import Context, Decimal
from fractions import Fraction
from math import isqrt
from typing import Final, Literal

from sitegen.compute.rounding import to_figures, to_step
from sitegen.model.quantity import Quantity, exact_text, parse_number, parse_quantity
from sitegen.model.units import per_unit
from sitegen.problems import Refusal

FIGURES: Final = 40
"""Significant figures of a power that is no fraction; the last may be off by one."""
_EXACTLY: Final = Context(prec=FIGURES)
MOST_STOPS: Final = 20
"""A millionfold: beyond it a number was mistyped."""
_FAR_ENOUGH: Final = Fraction(5)  # widths of the lamp

SMALL_SOURCE: Final = (
    "inverse square holds for a small lamp far off: not close to a wide bank of tubes or a panel, and not for the sun; "
    "make a strip after a lamp was moved"
)
MEASURED_IN_UV: Final = (
    "the density counts as the printing light sees it: the eye, or a visual densitometer, may be far off in ultraviolet"
)

Why = Literal["stops", "distance", "light", "layer"]
Source = Literal["small", "wide", "sun"]
"""What gives the light: one small lamp, a bank of tubes or a panel, or the sun."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One thing that changes a time: by which factor, in words, and what to mind."""

    why: Why
    factor: Fraction
    words: str
    warnings: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposed:
    """A time and what became of it, in seconds; a range stays a range."""

    was: Quantity
    changes: tuple[Change, ...]
    film_power: Fraction | None
    time: Quantity
    warnings: tuple[str, ...]

    @property
    def added(self) -> tuple[Fraction, Fraction]:
        """Seconds more than before, the least and the most; below nothing for a shorter time."""
        least, most = sorted((self.time.low - self.was.low, self.time.high - self.was.high))
        return least, most


def exposed(time: Quantity, changes: tuple[Change, ...], *, film_power: Fraction | None = None) -> Exposed:
    """The time after all changes; `film_power` lengthens a camera film's long exposure at the end."""
    was = time.in_unit("s")
    ends = [was.low, was.high]
    for change in changes:
        ends = [end * change.factor for end in ends]
    if film_power is not None:
        ends = [film_time(end, film_power) for end in ends]
    said = dict.fromkeys(w for change in changes for w in change.warnings)
    moved = [c for c in changes if c.why == "distance" and c.factor != 1]
    if moved and len(changes) > 1:
        said["several things change at once: if the print disappoints, nothing tells which of them did it"] = None
    return Exposed(
        was=was,
        changes=changes,
        film_power=film_power,
        time=Quantity(low=ends[0], high=ends[1], unit="s"),
        warnings=tuple(said),
    )


def parse_stops(text: str) -> Fraction:
    """Stops more or less: `1/3`, `+1 1/2`, `-1/2 stop`; `Refusal` for what is no number or over twenty.

    >>> parse_stops("+1/3 stop")
    Fraction(1, 3)
    """
    plain = text.strip().removesuffix("stops").removesuffix("stop").strip()
    stops = parse_number(plain.removeprefix("+"))
    if abs(stops) > MOST_STOPS:
        raise Refusal(
            "stops-out-of-reach", f"`{text}` is more than a millionfold", "write stops, such as `1/3` or `-1`"
        )
    return stops


def factor_of_stops(stops: Fraction) -> Fraction:
    """Two to the power of the stops: exact for whole stops, else to `FIGURES` figures.

    >>> factor_of_stops(Fraction(-2)), float(factor_of_stops(Fraction(1, 2)))
    (Fraction(1, 4), 1.4142135623730951)
    """
    whole, part = divmod(stops, 1)
    return Fraction(2) ** int(whole) * (_power(Fraction(2), part) if part else 1)


def middle_in_stops(low: Fraction, high: Fraction) -> Fraction:
    """The time as many stops above `low` as below `high`: exact where it is a fraction.

    >>> middle_in_stops(Fraction(180), Fraction(720))
    Fraction(360, 1)
    """
    square = low * high
    root = Fraction(isqrt(square.numerator), isqrt(square.denominator))
    return root if root**2 == square else _power(square, Fraction(1, 2))


def stops_of_factor(factor: Fraction) -> Fraction:
    """How many stops a factor is, to a hundredth, halves away from nothing; factor > 0.

    >>> stops_of_factor(Fraction(1, 4)), stops_of_factor(Fraction(3))
    (Fraction(-2, 1), Fraction(79, 50))
    """
    ratio = _EXACTLY.divide(_EXACTLY.ln(_decimal(factor)), _EXACTLY.ln(Decimal(2)))
    size = to_step(abs(Fraction(ratio)), Fraction(1, 100))
    return size if ratio > 0 else -size


def by_stops(stops: Fraction) -> Change:
    """So many stops more, or less below nothing."""
    way = "more" if stops > 0 else "less"
    return Change(why="stops", factor=factor_of_stops(stops), words=f"{_stops(abs(stops))} {way}")


def by_distance(was: Fraction, now: Fraction, *, width: Fraction | None = None) -> Change:
    """The lamp moved from `was` to `now` (mm): as the squares of the distances, for a small source.

    `width` (mm) is the widest measure of its shining face. Nearer than that, `Refusal`; nearer than five
    times that, a warning with the error: the light on the axis of an even disk falls as distance squared
    plus radius squared, so that at five widths the square law is one percent off.
    """
    words = f"lamp from {exact_text(was / 10)} to {exact_text(now / 10)} cm"
    factor, near = (now / was) ** 2, min(was, now)
    if width is None:
        return Change(why="distance", factor=factor, words=words, warnings=(SMALL_SOURCE,))
    if near < width:
        raise Refusal(
            "lamp-too-wide",
            f"the lamp is {exact_text(width / 10)} cm wide and {exact_text(near / 10)} cm off: so near, its light does "
            "not fall with the square of the distance",
            "make a test strip at the new distance",
        )
    if near >= _FAR_ENOUGH * width:
        return Change(why="distance", factor=factor, words=words)
    radius = width / 2
    disk = (now**2 + radius**2) / (was**2 + radius**2)
    off = to_step(abs(factor / disk - 1) * 100, Fraction(1, 10))
    side = "long" if factor > disk else "short"
    warning = (
        f"nearer than five times the lamp's width, inverse square is too {side}: by {exact_text(off)} % for an even "
        "disk of that width; make a strip"
    )
    return Change(why="distance", factor=factor, words=words, warnings=(warning,))


def by_lamp(source: Source, was: Fraction, now: Fraction, *, width: Fraction | None = None) -> Change:
    """The lamp moved from `was` to `now` (mm), told what it is; `Refusal` where no distance gives the time.

    The sun is as far off everywhere, and a wide lamp needs its `width` (mm) before its light can be judged.
    """
    if source == "sun":
        raise Refusal(
            "sun-has-no-distance",
            "the sun is as far off wherever the frame stands",
            "make a test strip in the light there is",
        )
    if source == "wide" and width is None:
        raise Refusal(
            "lamp-width-missing",
            "how far tubes or a panel can be trusted depends on their width",
            "measure across the whole shining face",
        )
    return by_distance(was, now, width=width)


def by_light(was: Fraction, now: Fraction) -> Change:
    """The same meter read `was` and now reads `now`, in a unit that doubles when the light doubles."""
    if was <= 0 or now <= 0:
        raise Refusal(
            "quantity-not-positive", "a meter that reads nothing says nothing", "write two readings above zero"
        )
    words = f"light from {exact_text(was)} to {exact_text(now)}"
    return Change(why="light", factor=was / now, words=words)


def through_layer(text: str) -> Change:
    """What an earlier layer holds back: `1/2 stop`, `density 0.3`, or the times of two strips, `4 min to 6 min`.

    The two times gave the same tone on bare paper and through the layer. A density is a power of ten, so
    a stop is a density of 0.301. `Refusal` for a bare number, which could be either.
    """
    plain = " ".join(text.split())
    if plain.startswith("density "):
        density = parse_number(plain.removeprefix("density "))
        if not 0 <= density <= 5:
            raise Refusal("density-out-of-reach", f"`{text}` is no layer's density", "write one of 0 to 5")
        return _layer(_power(Fraction(10), density), plain, MEASURED_IN_UV)
    if plain.endswith(("stop", "stops")):
        return _layer(factor_of_stops(parse_stops(plain)), plain)
    bare, to, through = plain.partition(" to ")
    if not to:
        raise Refusal(
            "layer-not-read",
            f"`{text}` does not say what the layer holds back",
            "write `1/2 stop`, `density 0.15`, or two strips' times for one tone: `4 min to 6 min`",
        )
    was, now = (parse_quantity(part, "time", single=True).base()[0] for part in (bare, through))
    return _layer(now / was, f"{exact_text(stops_of_factor(now / was))} stops, {plain}")


def _layer(factor: Fraction, words: str, *warnings: str) -> Change:
    if factor < 1:
        raise Refusal(
            "layer-adds-light",
            f"{words}: a layer holds light back",
            "write what it takes more than bare paper, the bare paper first",
        )
    return Change(why="layer", factor=factor, words=f"through a layer of {words}", warnings=warnings)


def film_time(seconds: Fraction, power: Fraction) -> Fraction:
    """A camera film's time from the metered one, `power` from its maker's sheet; unchanged to one second."""
    if not 1 <= power <= 2:
        raise Refusal(
            "power-out-of-reach",
            f"`{exact_text(power)}` is no film's power",
            "write the maker's figure, such as `1.31`",
        )
    return seconds if seconds <= 1 else _power(seconds, power)


def shown_seconds(seconds: Fraction) -> Fraction:
    """Whole seconds, halves up; two figures below one second, so that a time never becomes none."""
    return to_figures(seconds, 2) if 0 < seconds < 1 else to_step(seconds, Fraction(1))


def clock(seconds: Fraction) -> str:
    """Seconds as a darkroom clock is read.

    >>> clock(Fraction(45)), clock(Fraction(762)), clock(Fraction(3605))
    ('45 s', "12'42", "1 h 00'05")
    """
    shown = shown_seconds(seconds)
    if shown < 60:
        return f"{exact_text(shown)} s"
    minutes, rest = divmod(int(shown), 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours} h {minutes:02d}'{rest:02d}" if hours else f"{minutes}'{rest:02d}"


def seconds_of(time: Quantity) -> Fraction:
    """A single time in seconds."""
    return time.base()[1] / per_unit("s")


def _stops(count: Fraction) -> str:
    whole, part = divmod(count, 1)
    text = " ".join(str(piece) for piece in (whole, part) if piece) or "0"
    return f"{text} stop{'s' if count > 1 else ''}"


def _decimal(value: Fraction) -> Decimal:
    return _EXACTLY.divide(Decimal(value.numerator), Decimal(value.denominator))


def _power(base: Fraction, exponent: Fraction) -> Fraction:
    return Fraction(_EXACTLY.power(_decimal(base), _decimal(exponent)))
