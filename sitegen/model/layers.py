"""Layers: the films of a print that is printed more than once, which way they lie, and what is done to each.

A film is seen here as it lies on the sheet, from the side of the light, its top edge up. Lengths are
exact mm. What has two readings is refused: which side is down, and which of two figures is the width.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.model.quantity import Quantity, exact_text, parse_number, parse_quantity
from sitegen.problems import Refusal

Polarity = Literal["negative", "positive"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Facing:
    """Which way the side with the ink or the emulsion lies: `down` is to the coating, else to the light."""

    written: str
    down: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A picture's width (along its top edge) and height, in mm."""

    width: Fraction
    height: Fraction
    written: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shrink:
    """How much smaller the paper has become, as shares (0.0033 for 0.33 %): along its top edge, and down from it."""

    across: Fraction
    along: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Negative:
    """The film of one layer and which way it lies; what is not written down is empty or None."""

    label: str
    polarity: Polarity | None = None
    faces: Facing | None = None
    top_edge: str = ""
    size: Size | None = None
    marks: tuple[str, ...] = ()
    mirrored: bool | None = None
    """Whether the picture was turned left to right before it was printed on the film."""

    @property
    def reads_right(self) -> bool | None:
        """Whether the print reads as the picture does. A film with its ink down shows its back: then the
        picture must have been mirrored; with its ink up, it must not. None where one of them is not told.
        """
        if self.faces is None or self.mirrored is None:
            return None
        return self.faces.down == self.mirrored


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """Light source, time and distance of one layer."""

    to: str
    lasts: Quantity | None = None
    distance: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bath:
    """A mixture that a layer goes into (`recipe/mixture`), for how long, until what is seen."""

    mixture: str
    lasts: Quantity | None = None
    look_for: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One printed layer. `shrink` is what the paper has lost since the first film was laid on it."""

    name: str
    record: str = ""
    """Which colour record it prints: what of the picture is on this film."""
    coat: str = ""
    """The mixture it is coated with, `recipe/mixture`."""
    negative: Negative | None = None
    expose: Exposure | None = None
    bleach: Bath | None = None
    tone: Bath | None = None
    shrink: Shrink | None = None


_DOWN: Final = ("down", "to the coating", "to coating", "to the paper", "against the coating")
_UP: Final = ("up", "to the light", "away from the coating", "to the glass")
_FACING: Final = re.compile(r"(?:ink|emulsion)(?: side)? (?P<way>[a-z ]+)")


def parse_facing(text: str) -> Facing:
    """Which side lies down: `ink down`, `emulsion side to the coating`, `ink side up`.

    >>> parse_facing("Emulsion down").down, parse_facing("ink side to the light").down
    (True, False)
    """
    found = _FACING.fullmatch(" ".join(text.casefold().split()))
    way = found["way"] if found else ""
    if way not in (*_DOWN, *_UP):
        raise Refusal(
            "bad-facing",
            f"`{text}` does not say which side lies on the coating",
            "write `ink side to the coating` or `ink side to the light`; `emulsion down` is read, too",
        )
    return Facing(written=text, down=way in _DOWN)


_SIZE: Final = re.compile(r"(?P<width>\S+)\s*[x×]\s*(?P<height>\S+)\s+(?P<unit>[a-z]+)")


def parse_size(text: str) -> Size:
    """Width and height of a picture: `180 x 240 mm`.

    >>> parse_size("18 × 24 cm").width
    Fraction(180, 1)
    """
    found = _SIZE.fullmatch(text)
    if not found:
        raise Refusal(
            "bad-size",
            f"`{text}` is not a width and a height",
            "write the width along the top edge first, then the height: `180 x 240 mm`",
        )
    width, height = (
        parse_quantity(f"{found[side]} {found['unit']}", "length", single=True).base()[0]
        for side in ("width", "height")
    )
    return Size(width=width, height=height, written=text)


MOST_SHRINK: Final = Fraction(1, 10)


def parse_shrink(text: str) -> Fraction:
    """A measured shrink, one percent from 0 to 10, as a share: 0.0033 for `0.33 %`."""
    number, sign, rest = text.partition("%")
    if not sign or rest.strip():
        raise Refusal("percent-not-read", f"`{text}` is not a percent", "write a number and a percent sign: `0.33 %`")
    share = parse_number(number) / 100
    if not 0 <= share <= MOST_SHRINK:
        raise Refusal(
            "percent-not-read",
            f"no paper shrinks by {exact_text(share * 100)} %",
            "measure two marks before and after: (before − after) ÷ before × 100",
        )
    return share
