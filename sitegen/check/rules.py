"""Rules: what must hold within one recipe whose fields are sound. One rule, one function.

What its ingredients name is `ingredients`; what holds among recipes is `between`; prose and hazards
have modules of their own.
"""

from collections.abc import Callable, Iterator
from fractions import Fraction
from itertools import pairwise
from typing import Final

from sitegen.check import change_rules, layer_rules
from sitegen.check.disputes import disputes_sound
from sitegen.check.documents import MixtureDoc
from sitegen.check.recipes import Draft, trouble_id
from sitegen.check.troubles import check_old_stock, check_steps, stages_of
from sitegen.model.amount import Absolute, FillUp, OfBase, Parts, Percent
from sitegen.model.quantity import Quantity, exact_text, format_quantity
from sitegen.problems import Problem, Problems

Rule = Callable[[Draft, Problems], None]


def _filled_up_once(draft: Draft, problems: Problems) -> None:
    """`to make` may stand once in a mixture: it fixes the final volume."""
    for key, mixture in draft.doc.mixtures.items():
        names = [name for name, line in mixture.contains.items() if isinstance(line.amount, FillUp)]
        for name in names[1:]:
            problems.add(
                Problem(
                    code="fill-up-twice",
                    at=draft.places.value("mixtures", key, "contains", name, "amount"),
                    message=f"`to make` stands twice in `{key}`",
                    help="keep it with one ingredient and give the other an amount",
                    notes=(f"`{names[0]}` is filled up to the mark already",),
                )
            )


def _makes_agree(draft: Draft, problems: Problems) -> None:
    """`makes` and `to make` are the same figure said twice."""
    for key, mixture in draft.doc.mixtures.items():
        for name, line in mixture.contains.items():
            made = mixture.makes
            if made and isinstance(line.amount, FillUp) and not _same(made, line.amount.quantity):
                stated, filled = format_quantity(made), format_quantity(line.amount.quantity)
                problems.add(
                    Problem(
                        code="makes-disagree",
                        at=draft.places.value("mixtures", key, "makes"),
                        message=f"`makes` says {stated}, but `{name}` is filled up to make {filled}",
                        help=f"write the same in both, or delete `makes`: the recipe then makes {filled}",
                    )
                )


def _same(one: Quantity, other: Quantity) -> bool:
    return one.dimension == other.dimension and one.base() == other.base()


def _one_kind(draft: Draft, problems: Problems) -> None:
    """A mixture counts in measures, in parts, or in percent of one base."""
    for key, mixture in draft.doc.mixtures.items():
        first: tuple[str, str] | None = None
        for name, line in mixture.contains.items():
            kind = _kind(line.amount, mixture)
            first = first or (kind and (kind, name)) or None
            if kind and first and kind != first[0]:
                problems.add(
                    Problem(
                        code="mixture-two-kinds",
                        at=draft.places.value("mixtures", key, "contains", name, "amount"),
                        message=f"`{name}` is given {kind}, `{first[1]}` {first[0]}",
                        help="give all amounts of a mixture in one way, or make two mixtures",
                        notes=("one batch cannot be scaled by both at once",),
                    )
                )
                break


def _kind(amount: object, mixture: MixtureDoc) -> str:
    match amount:
        case Parts():
            return "in parts"
        case OfBase(base=base):
            return f"as a share of {base}"
        case Absolute(quantity=quantity) if quantity.dimension in ("drops", "pieces"):
            parts = any(isinstance(line.amount, Parts) for line in mixture.contains.values())
            return "" if not parts or mixture.makes else "in drops or pieces"
        case Absolute() | Percent() | FillUp():
            return "in measures"
        case _:
            return ""


def _whole_is_known(draft: Draft, problems: Problems) -> None:
    """Percent needs the whole it is of: w/w a mass, w/v and v/v a volume, or a density between them."""
    for key, mixture in draft.doc.mixtures.items():
        whole = _whole(mixture)
        for name, line in mixture.contains.items():
            if not isinstance(line.amount, Percent) or mixture.density:
                continue
            by_mass = line.amount.basis == "w/w"
            if by_mass != (whole == "mass"):
                need = "mass, such as `makes: 500 g`" if by_mass else "volume, such as `makes: 1 l`"
                has = f"`{key}` is made by {whole}" if whole else f"`{key}` does not say how much it makes"
                problems.add(
                    Problem(
                        code="percent-of-unknown",
                        at=draft.places.value("mixtures", key, "contains", name, "amount"),
                        message=f"percent {line.amount.basis} cannot be weighed out here: {has}",
                        help=f"give a {need}, or the mixture's `density`",
                    )
                )


def _whole(mixture: MixtureDoc) -> str:
    """What the finished mixture is measured in; '' is a volume by default only for w/v and v/v."""
    figures = [line.amount.quantity for line in mixture.contains.values() if isinstance(line.amount, FillUp)]
    made = mixture.makes or (figures[0] if figures else None)
    return made.dimension if made else ""


def _symptoms_differ(draft: Draft, problems: Problems) -> None:
    """A symptom's short name is its address."""
    seen: dict[str, int] = {}
    for n, trouble in enumerate(draft.doc.troubles):
        id_ = trouble_id(trouble.symptom, n)
        if (first := seen.setdefault(id_, n)) != n:
            line = draft.places.value("troubles", first, "symptom").line + 1
            problems.add(
                Problem(
                    code="duplicate-symptom",
                    at=draft.places.value("troubles", n, "symptom"),
                    message=f"the symptom `{id_}` stands here twice",
                    help="put its causes under one symptom, or word the two differently",
                    notes=(f"the first is in line {line}",),
                )
            )


def _disputes_sound(draft: Draft, problems: Problems) -> None:
    """Sources disagree, and on one point once."""
    disputes_sound(draft.doc, draft.places, problems)


def _causes_known(draft: Draft, problems: Problems) -> None:
    """Where a trouble is caused is a step of this recipe, and what may be old is a mixture of it."""
    for n, trouble in enumerate(draft.doc.troubles):
        check_steps(trouble, [stages_of(draft.doc)], draft.places, problems, "troubles", n)
        check_old_stock(trouble, draft.doc.mixtures, draft.places, problems, "troubles", n)


def _marks_in_order(draft: Draft, problems: Problems) -> None:
    """The places named in a moving picture follow each other."""
    for n, stage in enumerate(draft.doc.stages):
        for m, step in enumerate(stage.steps):
            marks = step.moving_picture.marks if step.moving_picture else ()
            for at, (first, then) in enumerate(pairwise(marks), start=1):
                if then.at <= first.at:
                    problems.add(
                        Problem(
                            code="marks-out-of-order",
                            at=draft.places.value("stages", n, "steps", m, "moving picture", "marks", at, "at"),
                            message=f"“{then.says}” does not come after “{first.says}”",
                            help="put the marks into the order of the moving picture, or correct their times",
                        )
                    )


def _times(draft: Draft) -> Iterator[Quantity | None]:
    """Time of every step, None where none is given, and every wait."""
    for stage in draft.doc.stages:
        yield from (step.for_ for step in stage.steps)
        if stage.then_wait:
            yield stage.then_wait


def _takes_adds_up(draft: Draft, problems: Problems) -> None:
    """The stated total covers the steps; it is not more than they add up to if each has a time."""
    stated = draft.doc.takes
    times = list(_times(draft))
    known = [time.base() for time in times if time]
    if not stated or not known:
        return
    low, high = sum(t[0] for t in known), sum(t[1] for t in known)
    least, most = stated.base()
    if low <= most and (high >= least or None in times):
        return
    total = _minutes(Fraction(low), Fraction(high))
    problems.add(
        Problem(
            code="takes-disagrees",
            at=draft.places.value("takes"),
            message=f"`takes` says {format_quantity(stated)}, but the steps and waits add up to {total}",
            help=f"write `takes: {total}`, or correct the times of the steps",
        )
    )


def _minutes(low: Fraction, high: Fraction) -> str:
    """Minutes, hours or days, in the largest unit in which the figures stay short."""
    size, unit = next(
        (size, unit)
        for size, unit in ((1440, "days"), (60, "h"), (1, "min"), (Fraction(1, 60), "s"))
        if (low >= size and not (low * 4 % size or high * 4 % size)) or unit == "s"
    )
    first, last = exact_text(low / size), exact_text(high / size)
    return f"{first} {unit}" if first == last else f"{first}-{last} {unit}"


def _spent_is_known(draft: Draft, problems: Problems) -> None:
    """What is done with a spent bath says little where nothing says when it is spent."""
    for key, mixture in draft.doc.mixtures.items():
        if mixture.when_spent and not mixture.capacity:
            problems.add(
                Problem(
                    code="spent-unknown",
                    at=draft.places.value("mixtures", key, "when spent"),
                    message=f"nothing says when `{key}` is spent",
                    help="write its `capacity`, such as `20 sheets of 20x25 cm per l`, or delete `when spent`",
                )
            )


RULES: Final[tuple[Rule, ...]] = (
    _filled_up_once,
    _makes_agree,
    _one_kind,
    _whole_is_known,
    _spent_is_known,
    _symptoms_differ,
    _takes_adds_up,
    _causes_known,
    _disputes_sound,
    _marks_in_order,
    *change_rules.RULES,
    *layer_rules.RULES,
)
