"""The cupboard: every bottle an archive implies, on shelves such that what must not meet stands apart.

Bottles are the forms its recipes weigh, as bought, and the mixtures that are kept longer than a session.
A bottle goes to the first shelf of the table whose groups it holds; a shelf is parted where two bottles on it
must not meet. Bottles without reactive groups are not checked, which is said and is not the same as safe.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import combinations

from sitegen.check.pairs.kitchen import keeps_longer
from sitegen.check.pairs.present import WATER, Present, bottle, present
from sitegen.check.pairs.stored_together import must_stand_apart
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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Filled:
    bottle: Bottle
    holds: tuple[Present, ...]

    @property
    def groups(self) -> frozenset[str]:
        return frozenset(group for one in self.holds for group in one.groups)


def cupboard(archive: Archive) -> Cupboard:
    """All bottles of the archive, shelved."""
    filled = [*_substances(archive), *_mixtures(archive)]
    placed: list[tuple[Shelf, tuple[_Filled, ...]]] = []
    for name, group in _by_shelf(filled):
        parts = _parted(group)
        for number, part in enumerate(parts, start=1):
            bottles = tuple(one.bottle for one in part)
            placed.append((Shelf(name=name, part=number, parts=len(parts), bottles=bottles), tuple(part)))
    reasons = [reason for pair in combinations(placed, 2) for reason in _reasons(*pair)]
    return Cupboard(
        shelves=tuple(shelf for shelf, _ in placed),
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


def _parted(group: list[_Filled]) -> list[list[_Filled]]:
    """The bottles of one kind on as many shelves as they need, each on the first that takes it."""
    shelves: list[list[_Filled]] = []
    for one in group:
        free = (shelf for shelf in shelves if not any(must_stand_apart(one.holds, other.holds) for other in shelf))
        if (shelf := next(free, None)) is not None:
            shelf.append(one)
        else:
            shelves.append([one])
    return shelves


def _reasons(first: tuple[Shelf, tuple[_Filled, ...]], second: tuple[Shelf, tuple[_Filled, ...]]) -> Iterator[Apart]:
    """Every rule that keeps two shelves apart, with the bottles it is about."""
    (here, ours), (there, theirs) = first, second
    found: dict[str, tuple[Severity, dict[str, None], dict[str, None]]] = {}
    for one in ours:
        for other in theirs:
            for verdict in must_stand_apart(one.holds, other.holds):
                worst, left, right = found.get(verdict.id, (verdict.severity, {}, {}))
                left[one.bottle.name] = right[other.bottle.name] = None
                worst = max(worst, verdict.severity, key=lambda severity: RANK[severity])
                found[verdict.id] = (worst, left, right)
    for id_, (severity, left, right) in found.items():
        rule = table().rules[id_]
        yield Apart(
            rule=id_,
            severity=severity,
            makes=rule.makes,
            source=told_by(rule),
            first=here.title,
            second=there.title,
            bottles=(tuple(left), tuple(right)),
        )
