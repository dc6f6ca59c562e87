"""Plans: everything needed to make one mixture, at factor one, linear in the factor.

A target is the mixture that is wanted. Its plan lists every batch that must be mixed for it, in the
order of mixing, across files, with each ingredient in base units (g, ml, drops, pieces). Scaling is
then one multiplication and one rounding, in Python and in the browser alike.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sitegen.check.borrowed import borrowed_mixtures, order_of_use
from sitegen.compute.batch import Batch, BatchLine, Size
from sitegen.compute.rounding import Kind
from sitegen.model.archive import Archive
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Mixture, Recipe
from sitegen.model.units import phrase
from sitegen.problems import Problems, Refusal


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanLine:
    """One ingredient at factor one, in base units. `of` is a form's id or a mixture's id."""

    key: str
    of: str
    name: str
    kind: Kind | Literal["words"]
    low: Fraction
    high: Fraction
    fill: bool
    written: str
    optional: bool
    why: str
    stock: Fraction | None
    """Percent w/v of a stock solution that could stand in for a small weight; None where none can."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanMixture:
    """One batch to mix, at factor one: `makes` ml or g, or the mass in g of its base."""

    id: str
    name: str
    size: Size
    base: str
    makes: Fraction
    estimate: bool
    lines: tuple[PlanLine, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Total:
    """How much of one thing the whole plan takes at factor one: what `have` divides by."""

    of: str
    name: str
    kind: Kind
    amount: Fraction
    density: Fraction | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """The plan of one wanted mixture; it stands last in `mixtures`."""

    recipe: str
    id: str
    name: str
    size: Size
    base: str
    makes: Fraction
    nominal: bool
    density: Fraction | None
    coverage: tuple[Fraction, Fraction] | None
    per_person: Fraction | None
    mixtures: tuple[PlanMixture, ...]
    totals: tuple[Total, ...]
    again: str = ""
    """What to mind where one batch does not keep through the work; '' where it does or nothing tells."""

    @property
    def local(self) -> str:
        """The id within its recipe; a mixture borrowed from another keeps its whole id."""
        return self.id.removeprefix(f"{self.recipe}/")


def targets(recipe: Recipe, archive: Archive, found: Mapping[str, Batch], problems: Problems) -> tuple[Target, ...]:
    """A plan for every mixture of the recipe, those that nothing else of it uses first.

    With mixtures of other recipes that its layers and steps work with, all stand in the order of use. Mixtures
    without a batch (already reported) are left out.
    """
    used = {line.mixture for m in recipe.mixtures for line in m.lines}
    ordered = sorted(recipe.mixtures, key=lambda m: m.id in used)
    plans = []
    for mixture in _by_use(ordered, recipe, archive):
        if _complete(mixture.id, found):
            with problems.at(mixture.at):
                plans.append(target(found[mixture.id], recipe, archive, found))
    return tuple(plans)


def _by_use(own: list[Mixture], recipe: Recipe, archive: Archive) -> list[Mixture]:
    """Own mixtures with those of other recipes among them; one that no step links to stays behind the one before it."""
    borrowed = borrowed_mixtures(recipe, archive)
    if not borrowed:
        return own
    place = {id_: at for at, id_ in enumerate(order_of_use(recipe, archive))}
    last = -1
    for mixture in own:
        last = place.setdefault(mixture.id, last)
    return sorted((*own, *borrowed), key=lambda m: place[m.id])


def _complete(mixture: str, found: Mapping[str, Batch]) -> bool:
    return mixture in found and all(_complete(b.line.mixture, found) for b in found[mixture].lines if b.line.mixture)


def target(wanted: Batch, recipe: Recipe, archive: Archive, found: Mapping[str, Batch]) -> Target:
    """The plan of one mixture. `Refusal` where a sub-mixture's mass and volume cannot meet."""
    needs: dict[str, Fraction] = {}
    order: list[str] = []
    _expand(wanted, Fraction(1), found, needs, order)
    mixtures = tuple(_mixture(found[i], needs[i], archive, found) for i in order)
    mixture = wanted.mixture
    return Target(
        recipe=recipe.slug,
        id=mixture.id,
        name=mixture.name,
        size=wanted.size,
        base=wanted.base,
        makes=wanted.makes,
        nominal=wanted.nominal,
        density=_low(mixture.density),
        coverage=mixture.coverage.base() if mixture.coverage else None,
        per_person=_per_person(wanted),
        mixtures=mixtures,
        totals=_totals(mixtures, archive, found),
    )


def _expand(
    batch: Batch, times: Fraction, found: Mapping[str, Batch], needs: dict[str, Fraction], order: list[str]
) -> None:
    """Add `times` this batch, and what it takes, to the needs; sub-mixtures come first in the order."""
    for line in batch.lines:
        if line.line.mixture:
            sub = found[line.line.mixture]
            _expand(sub, times * _share(line, sub), found, needs, order)
    needs[batch.mixture.id] = needs.get(batch.mixture.id, Fraction(0)) + times
    if batch.mixture.id not in order:
        order.append(batch.mixture.id)


def _share(line: BatchLine, sub: Batch) -> Fraction:
    """How many batches of a sub-mixture one line takes; the upper end, so that there is enough."""
    if line.kind == sub.size:
        return line.high / sub.makes
    written = f"`{line.line.key}: {line.line.written}`"
    if line.kind not in ("mass", "volume"):
        raise Refusal(
            "mixture-not-measured",
            f"{written} counts {line.kind} of a mixture, and a mixture is measured",
            "write it in ml; count once how many drops of your dropper make 10 ml",
        )
    density = _low(sub.mixture.density)
    if sub.size == "base" or density is None:
        raise Refusal(
            "mixture-needs-density",
            f"{written} is {phrase(line.kind)}, and `{sub.mixture.id}` is made by "
            f"{'the weight of ' + sub.base if sub.size == 'base' else sub.size}",
            f"measure it the same way, or give `{sub.mixture.id}` a `density`, such as `density: 1.05 g/ml`",
        )
    return (line.high / density if sub.size == "volume" else line.high * density) / sub.makes


def _mixture(batch: Batch, times: Fraction, archive: Archive, found: Mapping[str, Batch]) -> PlanMixture:
    watery = any(b.line.form == "water" for b in batch.lines)
    return PlanMixture(
        id=batch.mixture.id,
        name=batch.mixture.name,
        size=batch.size,
        base=batch.base,
        makes=batch.makes * times,
        estimate=batch.estimate,
        lines=tuple(_line(b, times, archive, found, watery=watery) for b in batch.lines),
    )


def _line(b: BatchLine, times: Fraction, archive: Archive, found: Mapping[str, Batch], *, watery: bool) -> PlanLine:
    line = b.line
    name = found[line.mixture].mixture.name if line.mixture else archive.forms[line.form].name
    return PlanLine(
        key=line.key,
        of=line.mixture or line.form,
        name=name,
        kind=b.kind,
        low=b.low * times,
        high=b.high * times,
        fill=b.fill,
        written=line.written,
        optional=line.optional,
        why=line.why,
        stock=_stock(line.form, archive) if b.kind == "mass" and watery and line.form else None,
    )


def _stock(form: str, archive: Archive) -> Fraction | None:
    """A stock strength that surely dissolves: half of the known solubility at most, 10 % or 1 %."""
    limits = [s.limit.base()[0] for s in archive.substance_of[form].solubility]
    if archive.forms[form].state != "solid" or not limits:
        return None
    return next((p for p in (Fraction(10), Fraction(1)) if min(limits) >= 2 * p), None)


def _per_person(batch: Batch) -> Fraction | None:
    each = batch.mixture.per_person
    if each is None:
        return None
    if each.dimension != batch.size:
        raise Refusal(
            "wrong-dimension",
            f"`per person` is a {each.dimension}, and `{batch.mixture.local}` is made by {batch.size}",
            f"write a {'mass' if batch.size == 'mass' else 'volume'}, such as `per person: 20 ml`",
        )
    return each.base()[1]


def _totals(mixtures: tuple[PlanMixture, ...], archive: Archive, found: Mapping[str, Batch]) -> tuple[Total, ...]:
    """What is bought or already mixed, added up; fill lines have no amount to add."""
    sums: dict[tuple[str, Kind], PlanLine] = {}
    amounts: dict[tuple[str, Kind], Fraction] = {}
    for mixture in mixtures:
        for line in mixture.lines:
            if line.kind != "words" and not line.fill:
                key = (line.of, line.kind)
                sums.setdefault(key, line)
                amounts[key] = amounts.get(key, Fraction(0)) + line.high
    return tuple(
        Total(of=of, name=line.name, kind=kind, amount=amounts[of, kind], density=_density(of, archive, found))
        for (of, kind), line in sums.items()
    )


def _density(of: str, archive: Archive, found: Mapping[str, Batch]) -> Fraction | None:
    return _low(archive.forms[of].density if of in archive.forms else found[of].mixture.density)


def _low(quantity: Quantity | None) -> Fraction | None:
    return quantity.base()[0] if quantity else None
