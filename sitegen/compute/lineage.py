"""Lineage: what differs between a recipe and the one it is derived from, mixture by mixture, substance by substance.

Figures are compared by their proportions, so that the size of a batch changes nothing. Two forms of one substance are
compared by moles (`swap`). Where a comparison is impossible both figures stand there with the reason; none is guessed.
"""

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final

from sitegen.compute.batch import Batch
from sitegen.compute.composition import Basis, Composition, Entry, bases, composition
from sitegen.compute.difference import Difference, not_compared, of_pairs, of_quantities
from sitegen.compute.strength import figures
from sitegen.compute.swap import swap
from sitegen.compute.whole import Computed
from sitegen.model.archive import Archive
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Mixture, Recipe
from sitegen.problems import Refusal

Pair = tuple[Fraction, Fraction]
_UNIT: Final = {"mass": "g", "volume": "ml", "drops": "drops", "pieces": "pieces", "parts": "parts"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One substance: what the parent's mixture holds of it, and what this one does, in words of `figures`."""

    of: str
    """The id of the substance."""
    name: str
    was: str
    """'' where the parent has none of it."""
    then: str
    difference: Difference
    note: str = ""
    """By which form two forms were compared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """A time, a temperature, a coverage or how long something keeps, where the two differ."""

    name: str
    was: Quantity | None
    then: Quantity | None
    difference: Difference


@dataclass(frozen=True, slots=True, kw_only=True)
class Compared:
    """A mixture of the recipe beside the parent's; `refused` says why no row could be made."""

    parent: Mixture
    own: Mixture
    basis: Basis | None
    base: str
    estimate: bool
    rows: tuple[Row, ...]
    facts: tuple[Fact, ...]
    refused: str = ""

    @property
    def differs(self) -> bool:
        """Whether anything is said of it but that it is the same."""
        return bool(self.facts or self.refused) or any(row.difference.verdict != "same" for row in self.rows)


@dataclass(frozen=True, slots=True, kw_only=True)
class Lineage:
    """What differs from the parent; mixtures that only one of the two has, and parent's that are taken as they are."""

    parent: Recipe
    mixtures: tuple[Compared, ...]
    added: tuple[Mixture, ...]
    left_out: tuple[Mixture, ...]
    taken_over: tuple[Mixture, ...]


def lineage(recipe: Recipe, parent: Recipe, computed: Computed) -> Lineage:
    """The recipe beside its parent. Mixtures meet by what the author named, by their ids, then by their names."""
    pairs = _pairs(recipe, parent)
    taken = _taken_over(recipe, parent)
    met = {one.id for one, _ in pairs}
    return Lineage(
        parent=parent,
        mixtures=tuple(compare(one, other, computed) for one, other in pairs),
        added=tuple(m for m in recipe.mixtures if m.id not in {other.id for _, other in pairs}),
        left_out=tuple(m for m in parent.mixtures if m.id not in met and m.id not in taken),
        taken_over=tuple(m for m in parent.mixtures if m.id not in met and m.id in taken),
    )


def _pairs(recipe: Recipe, parent: Recipe) -> tuple[tuple[Mixture, Mixture], ...]:
    """The parent's mixture and the recipe's own, in the parent's order."""
    named = {met.parent: met.own for met in recipe.derived_from.compare} if recipe.derived_from else {}
    found: dict[str, Mixture] = {}
    for mixture in parent.mixtures:
        if own := recipe.mixture(named.get(mixture.local, "")):
            found[mixture.id] = own
    for of in (lambda m: m.local, lambda m: " ".join(m.name.casefold().split())):
        for mixture in parent.mixtures:
            free = [m for m in recipe.mixtures if m not in found.values() and of(m) == of(mixture)]
            if mixture.id not in found and free:
                found[mixture.id] = free[0]
    return tuple((m, found[m.id]) for m in parent.mixtures if m.id in found)


def _taken_over(recipe: Recipe, parent: Recipe) -> frozenset[str]:
    """Mixtures of the parent that this recipe mixes from, and what those are mixed from."""
    lines = {m.id: [line.mixture for line in m.lines if line.mixture] for m in parent.mixtures}
    waiting = [line.mixture for m in recipe.mixtures for line in m.lines if line.mixture in lines]
    for one in waiting:
        waiting.extend(i for i in lines[one] if i in lines and i not in waiting)
    return frozenset(waiting)


def compare(parent: Mixture, own: Mixture, computed: Computed) -> Compared:
    """Two mixtures beside each other."""
    facts = _facts((("Keeps", parent.keeps, own.keeps), ("Coverage each coat", parent.coverage, own.coverage)))
    blank = Compared(parent=parent, own=own, basis=None, base="", estimate=False, rows=(), facts=facts)
    planned, batches = computed.strengths, computed.batches
    if parent.id not in planned or own.id not in planned:
        return replace(blank, refused="the amounts of one of the two do not fit together")
    one, other = batches[parent.id], batches[own.id]
    basis = _common(one, other)
    if basis is None:
        return replace(blank, refused=_why_not(one, other))
    was, then = composition(one, basis, batches), composition(other, basis, batches)
    return replace(
        blank,
        basis=basis,
        base=was.base,
        estimate=was.estimate or then.estimate,
        rows=tuple(_rows(was, then, computed.archive)),
    )


def _common(one: Batch, other: Batch) -> Basis | None:
    if one.size == "base" and other.size == "base" and one.base != other.base:
        return None
    return next((b for b in bases(one) if b in bases(other) and (b != "parts" or one.size == other.size)), None)


def _why_not(one: Batch, other: Batch) -> str:
    sizes = {"base": "by the weight of {}", "mass": "by weight", "volume": "by volume"}
    said, also = (sizes[b.size].format(b.base) for b in (one, other))
    remedy = "" if "base" in (one.size, other.size) else ", and no density tells the one from the other"
    return f"the parent's is made {said}, this one {also}{remedy}"


def _facts(asked: tuple[tuple[str, Quantity | None, Quantity | None], ...]) -> tuple[Fact, ...]:
    found = (Fact(name=n, was=w, then=t, difference=of_quantities(w, t)) for n, w, t in asked)
    return tuple(fact for fact in found if fact.difference.verdict != "same")


def _rows(was: Composition, then: Composition, archive: Archive) -> list[Row]:
    """A row for each substance of either, the parent's first, in the order of mixing."""
    cards = dict.fromkeys(archive.substance_of[e.form].id for e in (*was.entries, *then.entries))
    rows = []
    for card in cards:
        first, second = ([e for e in c.entries if archive.substance_of[e.form].id == card] for c in (was, then))
        rows.append(_row(card, first, second, archive))
    return rows


def _row(card: str, was: list[Entry], then: list[Entry], archive: Archive) -> Row:
    difference, note = _difference(was, then, archive)
    forms = dict.fromkeys(e.form for e in (*was, *then))
    several = len(forms) > 1
    return Row(
        of=card,
        name=archive.substance_of[card].name if several else archive.forms[next(iter(forms))].name,
        was=_said(was, archive, named=several),
        then=_said(then, archive, named=several),
        difference=difference,
        note=note,
    )


def _said(entries: list[Entry], archive: Archive, *, named: bool) -> str:
    said = []
    for entry in entries:
        amount = entry.words or f"{figures((entry.low, entry.high))} {_UNIT[entry.kind]}"
        said.append(f"{amount} {archive.forms[entry.form].name}" if named else amount)
    return " and ".join(said)


def _difference(was: list[Entry], then: list[Entry], archive: Archive) -> tuple[Difference, str]:
    """The difference of what is held of one substance, and by which form it was reckoned."""
    if not was or not then:
        one = (Fraction(1), Fraction(1))
        return of_pairs(one if was else None, one if then else None), ""
    kinds = {e.kind for e in (*was, *then)}
    forms = {e.form for e in (*was, *then)}
    if len(kinds) == len(forms) == 1 and kinds != {"words"}:
        return of_pairs(_sum(was), _sum(then)), ""
    if kinds == {"words"}:
        same = {e.words for e in was} == {e.words for e in then}
        return Difference(verdict="same") if same else not_compared("it is not given as a figure"), ""
    if not kinds <= {"mass", "volume"}:
        return not_compared("it is measured in two ways"), ""
    form = was[0].form
    try:
        grams = [_as(form, entries, archive) for entries in (was, then)]
    except Refusal as refusal:
        return not_compared(refusal.message), ""
    name = archive.forms[form].name
    return of_pairs(*grams), f"compared by molar mass, as {name}" if len(forms) > 1 else "compared by weight"


def _sum(entries: list[Entry]) -> Pair:
    return sum((e.low for e in entries), Fraction(0)), sum((e.high for e in entries), Fraction(0))


def _as(form: str, entries: list[Entry], archive: Archive) -> Pair:
    """Grams of one form that do the work of the entries. `Refusal` where that is not known exactly."""
    low = high = Fraction(0)
    for entry in entries:
        unit = "g" if entry.kind == "mass" else "ml"
        amount = Quantity(low=entry.low, high=entry.high, unit=unit)
        answer = swap(amount, archive.forms[entry.form], replace(archive.forms[form], state="solid"), archive)
        if not answer.exact:
            raise Refusal("not-exact", "what the two forms share is known as a range only")
        low, high = low + answer.answer.low, high + answer.answer.high
    return low, high
