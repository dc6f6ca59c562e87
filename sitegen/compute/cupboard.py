"""The cupboard: every bottle an archive implies, on shelves such that what must not meet stands apart.

Bottles are the forms its recipes weigh, as bought, and the mixtures that are kept longer than a session.
A bottle goes to the first shelf of the table whose groups it holds; a shelf is parted where two bottles on it
must not meet. Bottles without reactive groups are not checked, which is said and is not the same as safe.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache, cached_property
from itertools import combinations

from sitegen.check.pairs.judge import Verdict
from sitegen.check.pairs.kitchen import keeps_longer
from sitegen.check.pairs.present import WATER, Present, bottle, present
from sitegen.check.pairs.stored_together import Spill, clashes, must_stand_apart, spills
from sitegen.check.pairs.table import RANK, Severity, table
from sitegen.check.pairs.wording import told_by
from sitegen.model.archive import Archive

OTHERS = "Everything else"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bottle:
    """A bottle: `id` is a form's, or a mixture's (`recipe/mixture`) and then `code` its recipe's."""

    id: str
    name: str
    code: str = ""
    store: str = ""
    checked: bool = True
    """False where an ingredient has no reactive groups: what it must not meet is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """Bottles that may stand together. `part` counts from 1 where one kind needs several shelves."""

    name: str
    part: int
    parts: int
    bottles: tuple[Bottle, ...]

    @property
    def title(self) -> str:
        """The name, with the part where there are several."""
        return f"{self.name}, {self.part} of {self.parts}" if self.parts > 1 else self.name


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """Why two shelves stand apart: a rule, and the bottles on either that it is about."""

    rule: str
    severity: Severity
    makes: str
    source: str
    first: str
    second: str
    """Titles of the shelves."""
    bottles: tuple[tuple[str, ...], tuple[str, ...]]
    """Names of the bottles on the first and on the second."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cupboard:
    """Shelves in the order of the table, and the reasons, the worst first."""

    shelves: tuple[Shelf, ...]
    apart: tuple[Apart, ...]
    unchecked: tuple[Bottle, ...]


@dataclass(frozen=True, kw_only=True)  # not slotted: what may leak is asked once
class _Filled:
    bottle: Bottle
    holds: tuple[Present, ...]

    @property
    def groups(self) -> frozenset[str]:
        return frozenset(group for one in self.holds for group in one.groups)

    @cached_property
    def spills(self) -> frozenset[Spill]:
        return spills(self.holds)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    """A shelf with its bottles, and by what may leak there the places of the bottles that hold it."""

    shelf: Shelf
    filled: tuple[_Filled, ...]
    holding: Mapping[Spill, list[int]]


_Clashes = Mapping[Spill, Mapping[Spill, tuple[Verdict, ...]]]


def cupboard(archive: Archive) -> Cupboard:
    """All bottles of the archive, shelved."""
    filled = [*_substances(archive), *_mixtures(archive)]
    apart = clashes(spill for one in filled for spill in one.spills)
    placed: list[_Placed] = []
    for name, group in _by_shelf(filled):
        parts = _parted(group, apart)
        for number, part in enumerate(parts, start=1):
            bottles = tuple(one.bottle for one in part)
            placed.append(_placed(Shelf(name=name, part=number, parts=len(parts), bottles=bottles), part))
    reasons = [reason for pair in combinations(placed, 2) for reason in _reasons(*pair, apart)]
    return Cupboard(
        shelves=tuple(one.shelf for one in placed),
        apart=tuple(sorted(reasons, key=lambda reason: -RANK[reason.severity])),
        unchecked=tuple(one.bottle for one in filled if not one.bottle.checked),
    )


def _substances(archive: Archive) -> Iterator[_Filled]:
    lines = (line for recipe in archive.recipes for mixture in recipe.mixtures for line in mixture.lines)
    for form in sorted({line.form for line in lines if line.form and line.form != WATER}):
        holds = (bottle(archive.forms[form], archive),)
        store = archive.substance_of[form].store
        yield _Filled(bottle=_bottle(form, archive.forms[form].name, holds, store=store), holds=holds)


def _mixtures(archive: Archive) -> Iterator[_Filled]:
    """Kept ones by their stated time: a text on storing alone makes no bottle."""
    for recipe in archive.recipes:
        for mixture in recipe.mixtures:
            if mixture.keeps and keeps_longer(mixture, table().session):
                holds = present(mixture, archive)
                made = _bottle(mixture.id, mixture.name, holds, code=recipe.code, store=mixture.store)
                yield _Filled(bottle=made, holds=holds)


def _bottle(id_: str, name: str, holds: tuple[Present, ...], *, code: str = "", store: str = "") -> Bottle:
    return Bottle(id=id_, name=name, code=code, store=store, checked=all(one.groups for one in holds))


def _by_shelf(filled: Iterable[_Filled]) -> list[tuple[str, list[_Filled]]]:
    found: dict[str, list[_Filled]] = {name: [] for name in (*(shelf.name for shelf in table().shelves), OTHERS)}
    for one in filled:
        names = (shelf.name for shelf in table().shelves if one.groups & set(shelf.groups))
        found[next(names, OTHERS)].append(one)
    return [(name, group) for name, group in found.items() if group]


def _parted(group: list[_Filled], apart: _Clashes) -> list[list[_Filled]]:
    """The bottles of one kind on as many shelves as they need, each on the first that takes it."""
    shelves: list[tuple[list[_Filled], set[Spill]]] = []
    for one in group:
        met = {other for spill in one.spills for other in apart[spill]}
        free = (place for place in shelves if met.isdisjoint(place[1]))
        if (place := next(free, None)) is None:
            place = [], set()
            shelves.append(place)
        place[0].append(one)
        place[1].update(one.spills)
    return [bottles for bottles, _ in shelves]


def _placed(shelf: Shelf, filled: list[_Filled]) -> _Placed:
    holding: dict[Spill, list[int]] = {}
    for place, one in enumerate(filled):
        for spill in one.spills:
            holding.setdefault(spill, []).append(place)
    return _Placed(shelf=shelf, filled=tuple(filled), holding=holding)


@dataclass(slots=True)
class _Told:
    """A rule between two shelves: how bad at worst, and the places of the bottles on either that it is about."""

    severity: Severity
    ours: set[int] = field(default_factory=set)
    theirs: dict[int, int] = field(default_factory=dict)
    """With the place of the first of ours that each must not meet."""


def _reasons(here: _Placed, there: _Placed, apart: _Clashes) -> Iterator[Apart]:
    """Every rule that keeps two shelves apart, with the bottles it is about, as they are met bottle by bottle."""
    found: dict[str, _Told] = {}
    for one, ours in here.holding.items():
        for other, verdicts in apart[one].items():
            theirs = there.holding.get(other, [])
            for verdict in verdicts if theirs else ():
                told = found.setdefault(verdict.id, _Told(verdict.severity))
                told.severity = max(told.severity, verdict.severity, key=lambda severity: RANK[severity])
                told.ours.update(ours)
                for place in theirs:
                    told.theirs[place] = min(ours[0], told.theirs.get(place, ours[0]))

    @cache
    def said(ours: int, theirs: int) -> list[str]:
        return [verdict.id for verdict in must_stand_apart(here.filled[ours].holds, there.filled[theirs].holds)]

    def met(rule: str) -> tuple[int, int, int]:
        """The first two bottles that the rule is about, and where it stands among what is said of the two."""
        ours, theirs = min((first, place) for place, first in found[rule].theirs.items())
        return ours, theirs, said(ours, theirs).index(rule)

    for id_ in sorted(found, key=met):
        rule, told = table().rules[id_], found[id_]
        right = sorted(told.theirs, key=lambda place: (told.theirs[place], place))
        yield Apart(
            rule=id_,
            severity=told.severity,
            makes=rule.makes,
            source=told_by(rule),
            first=here.shelf.title,
            second=there.shelf.title,
            bottles=(_names(here, sorted(told.ours)), _names(there, right)),
        )


def _names(placed: _Placed, places: Iterable[int]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(placed.filled[place].bottle.name for place in places))
