"""Figures: quantities and sizes as they stand in a sentence, `40 g`, `2-3 ml`, `8x10 in`.

Only finds them. A number without a unit is none; words that name several units are `readings`.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.model.quantity import exact_text, parse_number
from sitegen.model.units import UNITS, Dimension, dimension_of, from_base, to_base
from sitegen.problems import Refusal

Ends = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A quantity at its place. One part is a figure or a range, several are the sides of a size."""

    text: str
    start: int
    end: int
    parts: tuple[Ends, ...]
    unit: str
    decimals: int

    @property
    def dimension(self) -> Dimension:
        """What it measures."""
        return dimension_of(self.unit)

    def base(self) -> tuple[Ends, ...]:
        """Its parts in the base unit of the dimension."""
        return tuple((to_base(low, self.unit), to_base(high, self.unit)) for low, high in self.parts)

    def converted(self, unit: str) -> tuple[Ends, ...]:
        """Its parts in another unit of the same dimension."""
        return tuple((from_base(low, unit), from_base(high, unit)) for low, high in self.base())


NUMBER: Final = r"(?:\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
BEFORE: Final = r"(?<![\w.,/:+\-–×])"  # else it is the end of a longer number, a ratio or a code

# Which units does a sentence give an amount, a size or a warmth in? Strengths and coverages are rates.
_MEASURES: Final[tuple[Dimension, ...]] = ("mass", "volume", "length", "temperature", "drops")
_SYMBOLS: Final = {word: unit.symbol for unit in UNITS if unit.dimension in _MEASURES for word in unit.words}
_UNIT: Final = "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in sorted(_SYMBOLS, key=lambda w: (-len(w), w)))
_FIGURE: Final = re.compile(
    rf"{BEFORE}(?P<first>{NUMBER})"
    rf"(?:\s*(?:-|–|\bto\b)\s*(?P<last>{NUMBER})|(?P<sides>(?:\s*[x×]\s*{NUMBER}){{1,2}}))?"
    rf"(?:\s*|-)(?P<unit>{_UNIT})(?![\w²³])"
)


def figures(text: str) -> tuple[Figure, ...]:
    """The figures of a text, in its order; what is no number for the format is passed over.

    >>> [(f.text, f.unit) for f in figures("Soak 8x10 in sheets in 2-3 l.")]
    [('8x10 in', 'in'), ('2-3 l', 'l')]
    """
    return tuple(_figures(text))


def _figures(text: str) -> Iterator[Figure]:
    for match in _FIGURE.finditer(text):
        numbers = [match["first"]]
        numbers += [match["last"]] if match["last"] else re.findall(NUMBER, match["sides"] or "")
        try:
            values = [parse_number(number) for number in numbers]
        except Refusal:  # a leading zero, or a division by zero: no quantity of the format
            continue
        yield Figure(
            text=match.group(),
            start=match.start(),
            end=match.end(),
            parts=((values[0], values[1]),) if match["last"] else tuple((v, v) for v in values),
            unit=_SYMBOLS[" ".join(match["unit"].split())],
            decimals=max(len(number.partition(".")[2]) for number in numbers),
        )


def shown(value: Fraction) -> str:
    """A figure to three places that count, as one would write it.

    >>> shown(Fraction(127)), shown(Fraction(2032, 100)), shown(Fraction(94635, 100))
    ('127', '20.3', '946')
    """
    size = len(str(int(abs(value)))) if abs(value) >= 1 else _zeros(value)
    step = Fraction(10) ** (size - 3) if size < 3 else Fraction(1)
    return exact_text((abs(value) / step + Fraction(1, 2)).__floor__() * step * (-1 if value < 0 else 1))


def _zeros(value: Fraction) -> int:
    """How many places after the point are noughts, below zero."""
    size, rest = 0, abs(value)
    while 0 < rest < Fraction(1, 10) and size > -9:
        size, rest = size - 1, rest * 10
    return size
