"""What a recipe sheet holds: typed words and figures, ready to set. Filled by `sheet_data`."""

from dataclasses import dataclass

from sitegen.render.sheet_text import Node
from sitegen.render.timeline_view import TimelineView


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line to measure: the number split at its decimal point, or `words` where none is measured."""

    whole: str = ""
    fraction: str = ""
    unit: str = ""
    words: str = ""
    name: str
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchLabel:
    """A derived label in short: pictograms by code, signal word, codes of the statements, and what is not known."""

    signs: tuple[str, ...]
    signal: str
    codes: str
    answer: str
    unknown: str
    changes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """One mixture to mix; `of` names the recipe it is from where it is not the sheet's own, with its code.

    `facts` are pairs of a label and a text.
    """

    name: str
    of: str
    makes: str
    rows: tuple[Row, ...]
    facts: tuple[tuple[str, str], ...]
    mixing: tuple[tuple[Node, ...], ...]
    note: tuple[Node, ...]
    label: BatchLabel


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """The hazard block of one recipe; `of` names it where it is not the sheet's own."""

    of: str
    lines: tuple[tuple[str, tuple[str, ...]], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStep:
    """A step: what to do, its figures, and labelled remarks."""

    do: tuple[Node, ...]
    figures: tuple[str, ...]
    remarks: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetStage:
    """A stage of the work; `then` is the wait that ends it."""

    title: str
    light: str
    steps: tuple[SheetStep, ...]
    then: str
    checks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPreflight:
    """What to go through before a layer's exposure; `drawings` are SVGs, their words and widths.

    `strip` is the times of a test strip in half stops around the layer's own, '' where it tells none. `stage` is
    the one that exposes it, from 1, where the recipe tells; 0 where it does not.
    """

    name: str
    stage: int
    size: str
    strip: str
    drawings: tuple[tuple[str, str, int], ...]
    checks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetData:
    """A whole sheet. `revised` is the revision's date; `dated` the same in seconds since 1970, UTC."""

    language: str
    code: str
    title: str
    summary: str
    revision: str
    revised: str
    dated: int
    status: str
    studio: str
    address: str
    lookup: str
    """Where it is told whether this sheet is current."""
    asked: tuple[str, ...]
    standing: str
    cautions: tuple[Caution, ...]
    warnings: tuple[str, ...]
    needs: tuple[str, ...]
    batches: tuple[Batch, ...]
    as_written: bool
    """Each batch has its author's size; else the size that was asked for."""
    stocks: tuple[Row, ...]
    """Of what was asked for: the batches that go into others, with how much each takes; none as written."""
    things: tuple[Row, ...]
    """Of what was asked for: every ingredient to have at hand, all in all; none as written."""
    layers: tuple[tuple[str, ...], ...]
    preflights: tuple[SheetPreflight, ...]
    timeline: TimelineView | None
    stages: tuple[SheetStage, ...]
    disputes: tuple[str, ...]
    """On what sources disagree; the claims stand on the page."""
    credits: tuple[str, ...]
    licence: str
    signs: tuple[tuple[str, str, str], ...]
    """Each pictogram of the sheet: code, text alternative, drawing."""
    notice: str
    """What a derived label is and is not."""
