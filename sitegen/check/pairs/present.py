"""Present: the substances in a mixture, sub-mixtures resolved, and how strong each can be at most.

The strongest reading is taken: the high end of ranges, the volume of the whole as if it weighed 1 g/ml where
no density is given. Exact strengths are `compute.strength`; a gate needs a figure that is never too low.
"""

from dataclasses import dataclass
from fractions import Fraction

from sitegen.model.amount import Absolute, FillUp, OfBase, Parts, Percent
from sitegen.model.archive import Archive
from sitegen.model.once import once
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Line, Mixture
from sitegen.model.substance import Form

WATER = "water"
_DROPS_PER_ML = Fraction(20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Present:
    """A substance where it may meet others. `percent` by weight, None where it cannot be told."""

    substance: str
    name: str
    groups: frozenset[str]
    percent: Fraction | None = None
    lines: frozenset[int] = frozenset()
    """Which lines of the mixture bring it."""


def bottle(form: Form, archive: Archive) -> Present:
    """A form as it stands in its jar."""
    card = archive.substance_of[form.id]
    return Present(substance=card.id, name=form.name, groups=frozenset(card.hazards.groups), percent=_own(form) * 100)


@once
def present(mixture: Mixture, archive: Archive) -> tuple[Present, ...]:
    """Everything in a mixture but water, in the order it is met."""
    found: dict[str, Present] = {}
    for number, (line, share) in enumerate(_shares(mixture, archive)):
        for one in _brought(line, archive):
            percent = None if share is None or one.percent is None else one.percent * share
            had = found.get(one.name)
            if had:
                both = None if had.percent is None or percent is None else had.percent + percent
                percent, lines = both, had.lines | {number}
            else:
                lines = frozenset({number})
            found[one.name] = Present(
                substance=one.substance, name=one.name, groups=one.groups, percent=percent, lines=lines
            )
    return tuple(found.values())


def is_wet(mixture: Mixture, archive: Archive) -> bool:
    """Whether a liquid is in it."""
    return any(
        is_wet(archive.mixtures[line.mixture], archive) if line.mixture else archive.forms[line.form].state == "liquid"
        for line in mixture.lines
    )


@once
def draws_on(mixture: Mixture, archive: Archive) -> frozenset[str]:
    """Ids of all mixtures that go into it, at any depth."""
    waiting, found = [mixture], set()
    while waiting:
        for line in waiting.pop().lines:
            if line.mixture and line.mixture not in found:
                found.add(line.mixture)
                waiting.append(archive.mixtures[line.mixture])
    return frozenset(found)


def _brought(line: Line, archive: Archive) -> tuple[Present, ...]:
    if line.mixture:
        return present(archive.mixtures[line.mixture], archive)
    one = bottle(archive.forms[line.form], archive)
    return () if one.substance == WATER else (one,)


def _own(form: Form) -> Fraction:
    """The share of a jar that is the substance of its formula."""
    if form.assay is None:
        return Fraction(1)
    density = form.density.base()[0] if form.density and form.assay.basis == "w/v" else Fraction(1)
    return min(form.assay.high / 100 / density, Fraction(1))


def _shares(mixture: Mixture, archive: Archive) -> list[tuple[Line, Fraction | None]]:
    """The most of each line in the mixture, by weight; None where it cannot be told."""
    weighed = [_grams(line, archive) for line in mixture.lines]
    whole = _whole(mixture, weighed)
    shares: list[tuple[Line, Fraction | None]] = []
    for line, grams in zip(mixture.lines, weighed, strict=True):
        share: Fraction | None
        match line.amount:
            case Percent(high=high, basis=basis):
                share = high / 100 * (_density(line, archive) if basis == "v/v" else 1)
                share = share if basis == "w/w" else share / _heaviness(mixture)
            case FillUp():
                share = Fraction(1)
            case _:
                share = grams / whole if grams is not None and whole else None
        shares.append((line, min(share, Fraction(1)) if share is not None else None))
    return shares


def _whole(mixture: Mixture, weighed: list[Fraction | None]) -> Fraction | None:
    """Grams, parts or percent of the whole, in the unit of its lines."""
    amounts = [line.amount for line in mixture.lines]
    if any(isinstance(amount, Parts | OfBase) for amount in amounts):
        counts = [_count(amount) for amount in amounts if isinstance(amount, Parts | OfBase)]
        return sum(counts, Fraction(0))
    stated = [mixture.makes] if mixture.makes else [a.quantity for a in amounts if isinstance(a, FillUp)]
    if stated:
        return _in_grams(stated[0], _heaviness(mixture), high=False)
    return sum((grams for grams in weighed if grams is not None), Fraction(0)) or None


def _count(amount: Parts | OfBase) -> Fraction:
    return amount.count if isinstance(amount, Parts) else amount.high


def _grams(line: Line, archive: Archive) -> Fraction | None:
    match line.amount:
        case Parts(count=count, by=by):
            return count if by == "weight" else count * _density(line, archive)
        case OfBase(high=high):
            return high
        case Absolute(quantity=quantity):
            return _in_grams(quantity, _density(line, archive), high=True)
        case _:
            return None


def _in_grams(quantity: Quantity, density: Fraction, *, high: bool) -> Fraction | None:
    amount = quantity.base()[1 if high else 0]
    match quantity.dimension:
        case "mass":
            return amount
        case "volume":
            return amount * density
        case "drops":
            return amount / _DROPS_PER_ML * density
        case _:
            return None


def _density(line: Line, archive: Archive) -> Fraction:
    known = archive.mixtures[line.mixture].density if line.mixture else archive.forms[line.form].density
    return known.base()[1] if known else Fraction(1)


def _heaviness(mixture: Mixture) -> Fraction:
    return mixture.density.base()[0] if mixture.density else Fraction(1)
