"""Weights: percent by weight of each form in a mixture, from its batch, sub-mixtures resolved.

By the masses of everything that goes in where all are known, else from grams per litre and a density
(`percent`). What is added by eye, and a volume of a liquid without a density, has no share that is known.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final, Literal

from sitegen.compute.batch import Batch, BatchLine
from sitegen.compute.strength import WATER, Content, contents
from sitegen.labels.density import DensityTable
from sitegen.labels.entries import pure
from sitegen.labels.ingredient import Share
from sitegen.labels.percent import Dissolved, Shares, shares
from sitegen.model.archive import Archive
from sitegen.model.substance import Form

Pair = tuple[Fraction, Fraction]
DROPS_PER_ML: Final = Fraction(20)
"""Where the archive does not say: the usual figure for water."""
BY_MASS: Final = "percent by weight from the masses of everything that goes in"
NO_BATH: Final = "percent by weight are not known: how much liquid it goes into is not said"
TOO_MUCH: Final = "percent by weight are not known: the amounts do not fit into the volume that is stated"
NOTHING: Final = "nothing but water goes in"
BY_EYE: Final = "percent by weight are not known: it is added by eye or by the piece"


@dataclass(frozen=True, slots=True, kw_only=True)
class ByWeight:
    """Percent by weight of the pure substance of each form but water; None where it is not known."""

    percent: Mapping[str, Share | None]
    basis: str
    """How the percents are known, in a sentence."""
    estimate: bool
    density: Fraction | None
    """g/ml of the whole, where it is known or estimated."""
    state: Literal["liquid", "solid"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """Everything that weighing needs: the archive, its batches with drops turned into grams, densities."""

    archive: Archive
    batches: Mapping[str, Batch]
    densities: DensityTable


def stock(archive: Archive, batches: Mapping[str, Batch], densities: DensityTable) -> Stock:
    """The archive ready for weighing."""
    per_ml = archive.settings.measuring.drops_per_ml or DROPS_PER_ML
    weighed = {
        id_: replace(batch, lines=tuple(_undropped(line, archive, per_ml) for line in batch.lines))
        for id_, batch in batches.items()
    }
    return Stock(archive=archive, batches=weighed, densities=densities)


def _undropped(line: BatchLine, archive: Archive, per_ml: Fraction) -> BatchLine:
    """Drops as grams; a liquid without a density is taken at 1 g/ml, which is near enough for drops."""
    if line.kind != "drops":
        return line
    form = archive.forms.get(line.line.form)
    density = form.density.base()[0] if form and form.density else Fraction(1)
    low, high = line.low / per_ml * density, line.high / per_ml * density
    return replace(line, kind="mass" if form else "volume", low=low, high=high)


def by_weight(mixture: str, of: Stock) -> ByWeight:
    """The percents of one mixture."""
    batch = of.batches[mixture]
    held = contents(batch, of.archive, of.batches)
    state: Literal["liquid", "solid"] = "liquid" if _wet(batch, of) else "solid"
    unmeasured = dict.fromkeys(_unmeasured(batch, of))
    named = {form: content for form, content in held.items() if form != WATER and form not in unmeasured}
    found = _of_parts(batch, named, of, state)
    percent: dict[str, Share | None] = {form: found.percent[form] for form in named}
    basis = BY_EYE if unmeasured and not named else found.basis
    return replace(found, percent=percent | unmeasured, basis=basis)


def _of_parts(batch: Batch, named: Mapping[str, Content], of: Stock, state: Literal["liquid", "solid"]) -> ByWeight:
    unknown = dict.fromkeys(named)
    if not named:
        return ByWeight(percent={}, basis=NOTHING, estimate=False, density=None, state=state)
    if batch.size == "base" and state == "solid":
        return ByWeight(percent=unknown, basis=NO_BATH, estimate=True, density=None, state=state)
    summed = batch.size != "volume" or (batch.mixture.makes is None and not batch.nominal)
    if summed and (mass := _mass(batch, of)):
        return _by_mass(named, mass, of.archive, state)
    if batch.size != "volume":
        return ByWeight(percent=unknown, basis=NO_BATH, estimate=True, density=None, state=state)
    found = _by_volume(batch, named, of)
    if sum(s.low for s in found.percent.values() if s) <= 100:
        percent = {form: found.percent.get(form) for form in named}
        estimate = found.estimate or _poured(batch, of)
        return ByWeight(percent=percent, basis=found.note, estimate=estimate, density=found.density, state=state)
    if mass := _mass(batch, of):
        return _by_mass(named, mass, of.archive, state)
    return ByWeight(percent=unknown, basis=TOO_MUCH, estimate=True, density=None, state=state)


def _poured(batch: Batch, of: Stock) -> bool:
    """Whether volumes were added up, here or in a part of it."""
    return batch.estimate or any(_poured(of.batches[b.line.mixture], of) for b in batch.lines if b.line.mixture)


def _by_mass(named: Mapping[str, Content], mass: Pair, archive: Archive, state: Literal["liquid", "solid"]) -> ByWeight:
    percent = {}
    for form, content in named.items():
        taken = content.grams and Share(
            low=min(content.grams[0] * 100 / mass[1], Fraction(100)),
            high=min(content.grams[1] * 100 / mass[0], Fraction(100)),
        )
        percent[form] = pure(archive.forms[form], taken)
    return ByWeight(percent=percent, basis=BY_MASS, estimate=False, density=None, state=state)


def _by_volume(batch: Batch, named: Mapping[str, Content], of: Stock) -> Shares:
    litres = batch.makes / 1000
    solution = []
    for id_, content in named.items():
        form = of.archive.forms[id_]
        strength = pure(form, Share(low=Fraction(1), high=Fraction(1)))  # of one gram from the jar
        if content.grams is None or strength is None:
            continue
        grams = (content.grams[0] * strength.low / litres, content.grams[1] * strength.high / litres)
        solution.append(
            Dissolved(
                name=id_,
                substance=of.archive.substance_of[id_].id,
                formula=form.formula,
                grams_per_litre=grams,
                light=_is_light(form),
            )
        )
    density = batch.mixture.density.base()[0] if batch.mixture.density else None
    found = shares(solution, of.densities, density=density)
    if len(solution) < len(named) and density is None and any(_is_light(of.archive.forms[id_]) for id_ in named):
        # A light liquid of unknown weight lowers the density by nobody knows how much.
        return Shares(percent=dict.fromkeys(named), density=None, how="unknown")
    return found


def _is_light(form: Form) -> bool:
    """Whether it may make a solution lighter than water."""
    return form.state in ("liquid", "gas") and (form.density is None or form.density.base()[0] < 1)


def _mass(batch: Batch, of: Stock) -> Pair | None:
    """Grams of the finished batch, or None where only a density could tell."""
    if batch.size == "mass" or batch.mixture.density:
        density = batch.mixture.density.base()[0] if batch.mixture.density and batch.size == "volume" else Fraction(1)
        return batch.makes * density, batch.makes * density
    low = high = Fraction(0)
    for line in batch.lines:
        grams = None if line.fill else _grams(line, of)
        if grams is None:
            return None
        low, high = low + grams[0], high + grams[1]
    return (low, high) if low > 0 else None


def _grams(line: BatchLine, of: Stock) -> Pair | None:
    """Grams a line brings; nothing where it is added by eye, which is reported as not known elsewhere."""
    if line.kind in ("words", "pieces"):
        return (Fraction(0), Fraction(0))
    if line.kind == "mass":
        return line.low, line.high
    density = _density_of(line, of)
    return (line.low * density, line.high * density) if density else None


def _density_of(line: BatchLine, of: Stock) -> Fraction | None:
    if line.line.form:
        known = of.archive.forms[line.line.form].density
        return known.base()[0] if known else None
    sub = of.batches[line.line.mixture].mixture
    if sub.density:
        return sub.density.base()[0]
    found = by_weight(sub.id, of)
    # Where the model cannot tell, and nothing light is in it, 1 g/ml makes shares too high, never too low.
    return found.density or (None if any(p is None for p in found.percent.values()) else Fraction(1))


def _unmeasured(batch: Batch, of: Stock) -> Iterator[str]:
    """Forms, but water, that are added by eye or by the piece somewhere in a mixture."""
    for line in batch.lines:
        counted = line.kind in ("words", "pieces")
        if line.line.mixture:
            sub = of.batches[line.line.mixture]
            held = contents(sub, of.archive, of.batches) if counted else {}
            yield from (form for form in held if form != WATER)
            yield from _unmeasured(sub, of)
        elif counted and line.line.form != WATER:
            yield line.line.form


def _wet(batch: Batch, of: Stock) -> bool:
    return any(
        _wet(of.batches[b.line.mixture], of) if b.line.mixture else of.archive.forms[b.line.form].state == "liquid"
        for b in batch.lines
    )
