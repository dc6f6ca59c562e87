"""Composition: what a litre, a kilogram, 100 g of base or 100 parts of a mixture hold, sub-mixtures resolved.

Of water a litre is not told: it makes up the rest. Strengths for reading are `strength`; this is for comparing.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.compute.batch import Batch, BatchLine
from sitegen.compute.rounding import Kind
from sitegen.compute.strength import WATER, estimated, filling, taken
from sitegen.model.amount import Parts, Unscaled

Basis = Literal["litre", "kilogram", "base", "parts"]
Pair = tuple[Fraction, Fraction]
_WHOLE: Final[dict[Basis, Fraction]] = {
    "litre": Fraction(1000), "kilogram": Fraction(1000), "base": Fraction(100), "parts": Fraction(100),
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """So much of one form, in g, ml, drops or pieces (or parts); `words` where it is not scaled."""

    form: str
    kind: Kind | Literal["words", "parts"]
    low: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Composition:
    """What a mixture holds by its basis; `base` names what is weighed when mixing, for mixtures made by it."""

    basis: Basis
    base: str
    entries: tuple[Entry, ...]
    estimate: bool
    """The volume is not known exactly, so no figure is."""


def bases(batch: Batch) -> tuple[Basis, ...]:
    """By what a mixture's composition can be told, the plainest first."""
    if batch.size == "base":
        return ("base",)
    density = batch.mixture.density is not None
    own: Basis = "litre" if batch.size == "volume" else "kilogram"
    other: Basis = "kilogram" if own == "litre" else "litre"
    parts: tuple[Basis, ...] = ("parts",) if _in_plain_parts(batch) else ()
    return (*parts, own, *((other,) if density else ()))


def _in_plain_parts(batch: Batch) -> bool:
    """All of it parts of substances: their proportions hold whatever the volume comes to."""
    lines = [b.line for b in batch.lines]
    return all(isinstance(a.amount, Parts | Unscaled) and not a.mixture for a in lines) and any(
        isinstance(a.amount, Parts) for a in lines
    )


def composition(batch: Batch, basis: Basis, found: Mapping[str, Batch]) -> Composition:
    """What the mixture holds by one of its `bases`, in mixing order, each form and measure once."""
    times = _WHOLE[basis] / _made(batch, basis)
    entries: dict[tuple[str, str, str], Entry] = {}
    for entry in _held(batch, found):
        if entry.form == WATER and basis in ("litre", "kilogram"):
            continue
        key = (entry.form, entry.kind, entry.words)
        have = entries.get(key)
        kind = "parts" if basis == "parts" and entry.kind in ("mass", "volume") else entry.kind
        entries[key] = Entry(
            form=entry.form,
            kind=kind,
            low=entry.low * times + (have.low if have else 0),
            high=entry.high * times + (have.high if have else 0),
            words=entry.words,
        )
    rough = basis not in ("base", "parts") and estimated(batch, found)
    return Composition(basis=basis, base=batch.base, entries=tuple(entries.values()), estimate=rough)


def _made(batch: Batch, basis: Basis) -> Fraction:
    """The batch's size in the unit of its basis."""
    size = {"litre": "volume", "kilogram": "mass"}.get(basis, batch.size)
    if size == batch.size:
        return batch.makes
    density = batch.mixture.density
    assert density is not None, "`bases` tells by what a batch can be told"
    grams_per_ml = density.base()[0]
    return batch.makes / grams_per_ml if size == "volume" else batch.makes * grams_per_ml


def _held(batch: Batch, found: Mapping[str, Batch]) -> Iterator[Entry]:
    for written in batch.lines:
        if written.fill and written.line.form == WATER:
            continue
        line = filling(written, batch) if written.fill else written
        if not line.line.mixture:
            yield _entry(line)
            continue
        if line.kind == "words":
            continue  # as much of a mixture as is needed holds nothing that could be told
        sub = found[line.line.mixture]
        low, high = taken(line, sub)
        for entry in _held(sub, found):
            yield Entry(
                form=entry.form, kind=entry.kind, low=entry.low * low, high=entry.high * high, words=entry.words
            )


def _entry(line: BatchLine) -> Entry:
    words = line.line.written if line.kind == "words" else ""
    return Entry(form=line.line.form, kind=line.kind, low=line.low, high=line.high, words=words)
