"""Together: several questions about the mixtures of one recipe, answered as one, and what it all takes.

Each mixture that is wanted has a question of its own. What several of them take, such as a stock that goes into
two coats, is mixed once for all of them: it is added up exactly, and rounded only then. Whatever cannot be
added (a weight and a volume without a density, drops, pieces) stands apart.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.compute.ask import Have, Question, totals_named
from sitegen.compute.notes import Note
from sitegen.compute.plan import PlanMixture, Target
from sitegen.compute.rounding import Kind, Shown, System, ladders, show
from sitegen.compute.scale import Scaled, ScaledLine, ScaledMixture, scale, scaled_mixture, warnings_on
from sitegen.model.archive import Archive
from sitegen.model.substance import Form
from sitegen.problems import Refusal

# What a density turns into each other; drops and pieces stay apart, since droppers differ twofold.
_MEET: Final = frozenset({"mass", "volume"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One mixture that is wanted, and how much of it."""

    target: Target
    question: Question


@dataclass(frozen=True, slots=True, kw_only=True)
class Share:
    """How much of a batch one of the wanted mixtures takes: `makes` in the batch's own g or ml."""

    taker: str
    name: str
    makes: Fraction
    shown: Shown

    def text(self, batch: str) -> str:
        """In words: `30 ml for Second sensitiser`; what is wanted of `batch` itself is for itself."""
        return f"{self.shown.text()} for {'itself' if self.taker == batch else self.name}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """A batch that goes into others, how much of it all of them take, and how much each."""

    batch: ScaledMixture
    shares: tuple[Share, ...]

    def texts(self) -> tuple[str, ...]:
        """Each share in words."""
        return tuple(share.text(self.batch.plan.id) for share in self.shares)


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """How much of one ingredient to have at hand: exact base units, and as it is measured.

    `notes` are those on its lines, each with the name of its batch. `at_most`: batches are filled up with it.
    """

    of: str
    name: str
    kind: Kind
    low: Fraction
    high: Fraction
    at_most: bool
    shown: Shown
    notes: tuple[tuple[str, Note], ...]

    def said(self) -> tuple[str, ...]:
        """The notes in words, one that says the same of several batches once."""
        lead = (Note(code="at-most").text(),) if self.at_most else ()
        return (*lead, *dict.fromkeys(f"{name}: {note.text()}" for name, note in self.notes))


@dataclass(frozen=True, slots=True, kw_only=True)
class Unmeasured:
    """An ingredient whose amount nothing tells; `written` says how much goes into the batch of that name."""

    of: str
    name: str
    written: str
    batch: str

    def text(self) -> str:
        """What is said of it: `Part C: as needed`."""
        return f"{self.batch}: {self.written}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Together:
    """The answer: what was asked, every batch once in mixing order, and what it takes all in all."""

    answers: tuple[Scaled, ...]
    batches: tuple[ScaledMixture, ...]
    stocks: tuple[Stock, ...]
    things: tuple[Thing, ...]
    unmeasured: tuple[Unmeasured, ...]
    warnings: tuple[str, ...]


def together(
    asked: Sequence[Asked], archive: Archive, *, system: System = "metric", warnings: tuple[str, ...] = ()
) -> Together:
    """Answer one question or more, each about another mixture; `warnings` are those of the recipe itself.

    `Refusal` when one of them cannot be answered, or not beside the others.
    """
    _asked_once(asked)
    _left_for_one(asked)
    measuring = archive.settings.measuring
    answers = tuple(scale(one.target, one.question, measuring, system=system) for one in asked)
    plans, shares = _taken(answers)
    batches = tuple(
        scaled_mixture(plan, sum((s.makes for s in shares[plan.id]), Fraction(0)) / plan.makes, measuring, system)
        for plan in plans
    )
    named = len(asked) > 1
    said = (warning for one in asked for warning in warnings_on(one.question, one.target, named=named))
    return Together(
        answers=answers,
        batches=batches,
        stocks=tuple(Stock(batch=b, shares=s) for b in batches if _goes_on(b.plan.id, s := tuple(shares[b.plan.id]))),
        things=tuple(_things(batches, archive, system)),
        unmeasured=tuple(_unmeasured(batches, archive)),
        warnings=(*dict.fromkeys(said), *warnings),
    )


def _asked_once(asked: Sequence[Asked]) -> None:
    wanted = [one.target.local for one in asked]
    for local in wanted:
        if wanted.count(local) > 1:
            raise Refusal(
                "asked-twice", f"`{local}` is asked for twice", "ask for each mixture once, and for all of it"
            )


def _left_for_one(asked: Sequence[Asked]) -> None:
    """What is left of a thing tells nothing where a second mixture takes of it: who gets how much is not said."""
    for one in asked:
        names = [name for name, _ in one.question.left] if isinstance(one.question, Have) else []
        left = {total.of for name in names for total in totals_named(name, one.target)}
        for other in (other for other in asked if other is not one):
            line = next((line for plan in other.target.mixtures for line in plan.lines if line.of in left), None)
            if line:
                raise Refusal(
                    "left-shared",
                    f"all that is left of `{line.name}` is asked to go into `{one.target.name}`, and "
                    f"`{other.target.name}` takes of it, too",
                    f"say how much of `{one.target.name}` to make",
                )


def _taken(answers: Iterable[Scaled]) -> tuple[tuple[PlanMixture, ...], dict[str, list[Share]]]:
    """Every batch once, each after what goes into it, and what each wanted mixture takes of it, by its id."""
    plans: dict[str, PlanMixture] = {}
    shares: dict[str, list[Share]] = {}
    for answer in answers:
        for found in answer.mixtures:
            plans.setdefault(found.plan.id, found.plan)
            share = Share(taker=answer.target.id, name=answer.target.name, makes=found.makes, shown=found.shown)
            shares.setdefault(found.plan.id, []).append(share)
    return tuple(plans.values()), shares


def _goes_on(batch: str, shares: tuple[Share, ...]) -> bool:
    return any(share.taker != batch for share in shares)


@dataclass(slots=True, kw_only=True)
class _Sum:
    name: str
    low: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    at_most: bool = False
    notes: tuple[tuple[str, Note], ...] = ()


def _things(batches: tuple[ScaledMixture, ...], archive: Archive, system: System) -> Iterable[Thing]:
    """What is bought, added up over all batches, in the order in which it is first needed."""
    steps = ladders(archive.settings.measuring)[system]
    sums: dict[tuple[str, Kind], _Sum] = {}
    common = _common_kinds(batches, archive.forms)
    for batch in batches:
        for scaled in _measured(batch, archive.forms):
            line = scaled.line
            assert line.kind != "words", "only what is measured"
            kind = common.get(line.of, line.kind) if line.kind in _MEET else line.kind
            low, high = _as_kind(scaled, kind, archive.forms[line.of])
            found = sums.setdefault((line.of, kind), _Sum(name=line.name))
            found.low, found.high = found.low + low, found.high + high
            found.at_most |= line.fill
            found.notes += tuple((batch.plan.name, note) for note in scaled.notes if note.code != "fill")
    for (of, kind), found in sums.items():
        yield Thing(
            of=of,
            name=found.name,
            kind=kind,
            low=found.low,
            high=found.high,
            at_most=found.at_most,
            shown=show(found.low, found.high, steps[kind]),
            notes=found.notes,
        )


def _measured(batch: ScaledMixture, forms: Mapping[str, Form]) -> Iterable[ScaledLine]:
    return (scaled for scaled in batch.lines if scaled.line.of in forms and scaled.line.kind != "words")


def _common_kinds(batches: tuple[ScaledMixture, ...], forms: Mapping[str, Form]) -> dict[str, Kind]:
    """Of what is both weighed and poured and has a density: how all of it is counted, liquids by volume."""
    kinds: dict[str, set[str]] = {}
    for batch in batches:
        for scaled in _measured(batch, forms):
            kinds.setdefault(scaled.line.of, set()).add(scaled.line.kind)
    both = (of for of, found in kinds.items() if found >= _MEET and forms[of].density)
    return {of: "volume" if forms[of].state == "liquid" else "mass" for of in both}


def _as_kind(scaled: ScaledLine, kind: Kind, form: Form) -> tuple[Fraction, Fraction]:
    """Both ends of a line in another measure; of a range of densities, the ends that lie furthest apart."""
    if scaled.line.kind == kind or form.density is None:
        return scaled.low, scaled.high
    light, heavy = form.density.base()
    if kind == "mass":
        return scaled.low * light, scaled.high * heavy
    return scaled.low / heavy, scaled.high / light


def _unmeasured(batches: tuple[ScaledMixture, ...], archive: Archive) -> Iterable[Unmeasured]:
    for batch in batches:
        for line in (scaled.line for scaled in batch.lines if scaled.line.kind == "words"):
            yield Unmeasured(of=line.of, name=line.name, written=line.written, batch=batch.plan.name)
