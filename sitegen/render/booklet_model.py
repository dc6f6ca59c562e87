"""What a tutorial booklet holds beside the words of its sheet: typed, ready to set. Filled by `booklet_data`."""

from dataclasses import dataclass

from sitegen.render.sheet_model import SheetData
from sitegen.render.sheet_text import Node


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A picture at its place: `source` below `images/`, its words, its shape in pixels; `caption` may be ''."""

    source: str
    alt: str
    wide: int
    high: int
    caption: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moving:
    """A moving picture, for a page that does not move: its still, its address, and what is seen when."""

    still: Figure
    title: str
    address: str
    marks: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BookletStep:
    """A step: what to do, its labelled figures and remarks, its picture, and two pictures to compare."""

    do: tuple[Node, ...]
    figures: tuple[tuple[str, str], ...]
    remarks: tuple[tuple[str, str], ...]
    picture: Figure | None
    pair: tuple[Figure, ...]
    moving: Moving | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BookletStage:
    """A stage; `card` is the number of the pre-flight card to go through before its exposure, 0 for none."""

    title: str
    layer: str
    card: int
    light: str
    steps: tuple[BookletStep, ...]
    then: str
    checks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BookletCause:
    """A cause with what helps; where it lies: a stage's number and a step's (0 for none), and both in words."""

    cause: str
    facts: tuple[tuple[str, str], ...]
    stage: int
    step: int
    place: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookletTrouble:
    """A symptom, in which part of the work it is seen, and its causes, likeliest first."""

    symptom: str
    seen: str
    causes: tuple[BookletCause, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BookletDispute:
    """A point on which sources disagree, and what was found here, or ''.

    Each claim has its words, its source, the address where it can be read, and that as it is printed; '' for none.
    """

    about: str
    claims: tuple[tuple[str, str, str, str], ...]
    here: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookletData:
    """A whole booklet: the sheet's words, of which `stages` and `disputes` take the place, and the rest."""

    sheet: SheetData
    edition: str
    takes: str
    about: tuple[Node, ...]
    opening: Figure | None
    stages: tuple[BookletStage, ...]
    disputes: tuple[BookletDispute, ...]
    troubles: tuple[BookletTrouble, ...]
