"""Strengths: how much of each substance a litre (or 100 g) of every mixture holds, sub-mixtures resolved.

Grams per litre are exact where the volume is filled up to; where volumes were added up they are an
estimate and say so. Moles need a formula. Nothing here is guessed: no volume, no strength.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from sitegen.compute.batch import Batch, BatchLine
from sitegen.compute.molar import molar_mass
from sitegen.compute.rounding import to_figures
from sitegen.model.archive import Archive
from sitegen.model.quantity import exact_text
from sitegen.model.substance import Form, Substance

Pair = tuple[Fraction, Fraction]
WATER: Final = "water"
ROOM: Final = Fraction(20)  # °C at which a studio's bottles stand


@dataclass(frozen=True, slots=True, kw_only=True)
class Content:
    """How much of one form a batch holds: grams, and ml where it was measured by volume."""

    grams: Pair | None
    millilitres: Pair | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Strength:
    """One substance in one mixture; each figure is None where it cannot be known."""

    of: str
    name: str
    g_per_l: Pair | None
    percent_vv: Pair | None
    percent_ww: Pair | None
    mol_per_l: Pair | None
    estimate: bool
    shown: tuple[str, ...]


def contents(batch: Batch, archive: Archive, found: Mapping[str, Batch]) -> dict[str, Content]:
    """Every form in a batch, sub-mixtures resolved; water that only fills up is left out.

    What fills up and is not water comes to what the other lines leave: an estimate where that is a volume.
    """
    held: dict[str, Content] = {}
    for written in batch.lines:
        if written.kind not in ("mass", "volume") or (written.fill and written.line.form == WATER):
            continue
        line = filling(written, batch) if written.fill else written
        if line.line.mixture:
            sub = found[line.line.mixture]
            for form, content in contents(sub, archive, found).items():
                _hold(held, form, _times(content, taken(line, sub)))
        else:
            _hold(held, line.line.form, _weighed(line, archive.forms[line.line.form]))
    return held


def filling(line: BatchLine, batch: Batch) -> BatchLine:
    """The line that fills up, at what is left for it."""
    others = [b for b in batch.lines if b.kind == line.kind and not b.fill]
    low = line.low - sum((b.high for b in others), Fraction(0))
    high = line.high - sum((b.low for b in others), Fraction(0))
    return replace(line, low=max(low, Fraction(0)), high=max(high, Fraction(0)))


def taken(line: BatchLine, sub: Batch) -> Pair:
    """The share of a sub-mixture's batch that a line takes."""
    density = sub.mixture.density.base()[0] if sub.mixture.density else None
    ratio = Fraction(1)
    if line.kind != sub.size:
        assert density is not None, "targets are planned first, and refuse this without a density"
        ratio = density if line.kind == "volume" else 1 / density
    return line.low * ratio / sub.makes, line.high * ratio / sub.makes


def _weighed(line: BatchLine, form: Form) -> Content:
    amount = (line.low, line.high)
    if line.kind == "mass":
        return Content(grams=amount, millilitres=None)
    density = form.density.base()[0] if form.density else None
    grams = (amount[0] * density, amount[1] * density) if density else None
    return Content(grams=grams, millilitres=amount)


def _times(content: Content, share: Pair) -> Content:
    def scaled(pair: Pair | None) -> Pair | None:
        return (pair[0] * share[0], pair[1] * share[1]) if pair else None

    return Content(grams=scaled(content.grams), millilitres=scaled(content.millilitres))


def _hold(held: dict[str, Content], form: str, more: Content) -> None:
    """Add to what is held. A figure known for one part only is not known for the whole."""
    have = held.get(form)
    held[form] = (
        more
        if have is None
        else Content(grams=_add(have.grams, more.grams), millilitres=_add(have.millilitres, more.millilitres))
    )


def _add(a: Pair | None, b: Pair | None) -> Pair | None:
    return (a[0] + b[0], a[1] + b[1]) if a and b else None


def strengths(batch: Batch, archive: Archive, found: Mapping[str, Batch]) -> tuple[Strength, ...]:
    """The strength of each substance in a mixture, in mixing order. Water is not listed."""
    if batch.size == "base":
        return ()
    estimate = estimated(batch, found)
    return tuple(
        _strength(archive.forms[form], content, batch, estimate=estimate)
        for form, content in contents(batch, archive, found).items()
        if form != WATER
    )


def estimated(batch: Batch, found: Mapping[str, Batch]) -> bool:
    """Whether volumes were added up, or what fills up was reckoned, in the batch or in what it is mixed from."""
    filled = any(b.fill and b.kind == "volume" and b.line.form != WATER for b in batch.lines)
    return (
        batch.estimate or filled or any(estimated(found[b.line.mixture], found) for b in batch.lines if b.line.mixture)
    )


def _strength(form: Form, content: Content, batch: Batch, *, estimate: bool) -> Strength:
    litres, kilos = _finished(batch)
    g_per_l = _over(content.grams, litres)
    pure = form.assay.low / 100 if form.assay and form.assay.basis == "w/w" else None if form.assay else Fraction(1)
    mol = None
    if form.formula and g_per_l and pure is not None:
        mass = molar_mass(form.formula)
        mol = (g_per_l[0] * pure / mass, g_per_l[1] * pure / mass)
    vv = _over(content.millilitres, litres * 10 if litres else None)
    ww = _over(content.grams, kilos * 10 if kilos else None)
    return Strength(
        of=form.id,
        name=form.name,
        g_per_l=g_per_l,
        percent_vv=vv,
        percent_ww=ww,
        mol_per_l=mol,
        estimate=estimate,
        shown=_shown(g_per_l, vv, ww, mol),
    )


def _finished(batch: Batch) -> tuple[Fraction | None, Fraction | None]:
    """Litres and kilograms of the finished batch; each None where only a density could tell."""
    density = batch.mixture.density.base()[0] if batch.mixture.density else None
    if batch.size == "volume":
        return batch.makes / 1000, batch.makes * density / 1000 if density else None
    return batch.makes / density / 1000 if density else None, batch.makes / 1000


def _over(pair: Pair | None, whole: Fraction | None) -> Pair | None:
    return (pair[0] / whole, pair[1] / whole) if pair and whole else None


def _shown(g_per_l: Pair | None, vv: Pair | None, ww: Pair | None, mol: Pair | None) -> tuple[str, ...]:
    shown = []
    if g_per_l:
        shown += [f"{figures(g_per_l)} g/l", f"{figures((g_per_l[0] / 10, g_per_l[1] / 10))} % w/v"]
    for pair, unit in ((vv, "% v/v"), (ww, "% w/w"), (mol, "mol/l")):
        if pair:
            shown.append(f"{figures(pair)} {unit}")
    return tuple(shown)


def figures(pair: Pair) -> str:
    """A figure or a range, to three significant figures."""
    low, high = three_figures(pair[0]), three_figures(pair[1])
    return low if low == high else f"{low}–{high}"


def three_figures(value: Fraction) -> str:
    """Three significant figures, halves up: enough for a strength; value >= 0.

    >>> three_figures(Fraction(10745, 100)), three_figures(Fraction(1, 3))
    ('107', '0.333')
    """
    return exact_text(to_figures(value, 3)) if value else "0"


def over_solubility(form: Form, g_per_l: Pair, card: Substance, archive: Archive) -> str:
    """A warning when more is asked than dissolves, or ''.

    Tables give g per 100 ml of water; a solution is larger than its water, so being over that figure
    per 100 ml of solution is certainly over. Hydrates are compared as the table's own form.
    """
    if form.state == "liquid" or not card.solubility:
        return ""  # what is sold dissolved is in solution already
    limit = min(card.solubility, key=lambda row: abs(row.at.base()[0] - ROOM))
    base, ratio = archive.forms[limit.form], Fraction(1)
    if base.id != form.id:
        if not (base.formula and form.formula):
            return ""
        ratio = molar_mass(base.formula) / molar_mass(form.formula)
    as_base, most = g_per_l[1] * ratio / 10, limit.limit.base()[1]
    if as_base <= most:
        return ""
    return (
        f"{form.name}: {three_figures(as_base)} g per 100 ml (as {base.name}) is over the "
        f"{three_figures(most)} g that dissolve at {exact_text(limit.at.base()[0])} °C"
    )
