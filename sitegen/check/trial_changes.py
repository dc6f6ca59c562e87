"""Trial changes: each figure that an entry names is one of its recipe, of the same kind, and another than that.

Of a revision that the recipe has left behind, a figure may name what is there no longer: an old entry stays as it was
written. It then says itself what the recipe said (`from`), or that is not known.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.check.ingredients import unknown_mixture
from sitegen.check.places import Places
from sitegen.check.trial_documents import ChangedDoc, CoverageChangeDoc, TimeChangeDoc
from sitegen.model.amount import Absolute, Amount, FillUp, OfBase, Parts, Percent, Unscaled, format_amount
from sitegen.model.archive import Archive
from sitegen.model.quantity import Quantity, format_quantity
from sitegen.model.recipe import Recipe
from sitegen.model.reference import resolve_amount
from sitegen.model.steps import find_step
from sitegen.model.trial import ChangedAmount, ChangedFigure
from sitegen.problems import Problem, Problems, Refusal, Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What the changes of an entry are held against; `current` is whether the recipe still is of that revision."""

    recipe: Recipe
    archive: Archive
    current: bool
    places: Places
    problems: Problems

    def at(self, *loc: str) -> Span:
        """Where a figure is written."""
        return self.places.value("changed", *loc)

    def name_at(self, *loc: str) -> Span:
        """Where its name is written."""
        return self.places.key("changed", *loc)


def changed_amounts(doc: ChangedDoc, tried: Tried) -> Iterator[ChangedAmount]:
    """Every sound change of an amount."""
    for target, change in doc.amounts.items():
        mixture = key = ""
        stands: Amount | None = None
        try:
            mixture, key, stands = _line(target, tried)
        except Refusal as refusal:
            if tried.current:
                tried.problems.refuse(refusal, tried.name_at("amounts", target))
                continue
        _from_agrees(change.from_, stands, ("amounts", target), tried)
        was = change.from_ or (stands if tried.current else None)
        if was is None or _amounts_agree(was, change.to, tried.at("amounts", target, "to"), tried):
            at = tried.at("amounts", target, "to")
            yield ChangedAmount(target=target, mixture=mixture, key=key, was=was, then=change.to, at=at)


def _line(target: str, tried: Tried) -> tuple[str, str, Amount]:
    """The line that a name means. `Refusal` (`unknown-amount`) when it means none, or several."""
    try:
        ref = resolve_amount(tried.recipe, tried.archive, target)
    except Refusal as refusal:
        said, remedy = (text.replace("`amount:", "`") for text in (refusal.message, refusal.help))
        raise Refusal("unknown-amount", said.replace("here", f"in `{tried.recipe.slug}`"), remedy) from refusal
    if ref.line is None:
        raise Refusal(
            "unknown-amount",
            f"`{target}` is a mixture; what it is made of has amounts",
            f"name one ingredient of it: `{target}/{tried.archive.mixtures[ref.mixture].lines[0].key}`",
        )
    line = next(line for line in tried.archive.mixtures[ref.mixture].lines if line.key == ref.line)
    return ref.mixture, line.key, line.amount


def _from_agrees(
    said: Amount | Quantity | None, stands: Amount | Quantity | None, loc: tuple[str, str], tried: Tried
) -> None:
    """What an entry says of the revision that stands is what stands there."""
    if tried.current and said is not None and stands is not None and not same(said, stands):
        tried.problems.add(
            Problem(
                code="change-from-disagrees",
                at=tried.at(*loc, "from"),
                message=f"`from` says {_words(said)}, but the recipe has {_words(stands)}",
                help=f"write `from: {_words(stands)}`, or correct `revision`",
            )
        )


def same(one: Amount | Quantity, other: Amount | Quantity) -> bool:
    """Whether two figures are the same, whatever unit they are written in."""
    if isinstance(one, Quantity) and isinstance(other, Quantity):
        return one.dimension == other.dimension and one.base() == other.base()
    if isinstance(one, Absolute | FillUp) and isinstance(other, Absolute | FillUp):
        return type(one) is type(other) and same(one.quantity, other.quantity)
    return one == other


def _amounts_agree(was: Amount, then: Amount, at: Span, tried: Tried) -> bool:
    if _kind(was) != _kind(then):
        tried.problems.add(
            Problem(
                code="change-of-another-kind",
                at=at,
                message=f"`{format_amount(then)}` is {_kind(then)}, the recipe's `{format_amount(was)}` {_kind(was)}",
                help="give the change in the recipe's own way of measuring, or say it in words below `other`",
            )
        )
        return False
    return _is_a_change(was, then, at, tried)


def _kind(amount: Amount) -> str:
    match amount:
        case Absolute(quantity=quantity):
            return {"mass": "weighed", "volume": "measured"}.get(quantity.dimension, "counted")
        case FillUp(quantity=quantity):
            return f"filled up to a {quantity.dimension}"
        case Parts(by=by):
            return f"in parts{f' by {by}' if by else ''}"
        case Percent(basis=basis):
            return f"in % {basis}"
        case OfBase(base=base):
            return f"a share of {base}"
        case Unscaled():
            return "in words"


def _is_a_change(was: Amount | Quantity, then: Amount | Quantity, at: Span, tried: Tried) -> bool:
    if not same(was, then):
        return True
    tried.problems.add(
        Problem(
            code="change-changes-nothing",
            at=at,
            message=f"{_words(then)} is what the recipe says",
            help="delete the line, or write what was done otherwise",
        )
    )
    return False


def _words(figure: Amount | Quantity) -> str:
    return format_quantity(figure) if isinstance(figure, Quantity) else format_amount(figure)


def changed_times(doc: ChangedDoc, tried: Tried) -> Iterator[ChangedFigure]:
    """Every sound change of a step's time."""
    stages = [(stage.title, len(stage.steps)) for stage in tried.recipe.stages]
    for target, change in doc.times.items():
        try:
            place = find_step(target, stages)
            if place.step is None:
                title = tried.recipe.stages[place.stage - 1].title
                raise Refusal(
                    "unknown-step", f"`{title}` is a whole stage; a time belongs to a step", f"write `{title}/1`"
                )
        except Refusal as refusal:
            if tried.current:
                tried.problems.refuse(refusal, tried.name_at("times", target))
            else:
                yield from _figure(target, change, None, "times", tried, edition=_narrowest(tried))
            continue
        stage = tried.recipe.stages[place.stage - 1]
        found = _figure(target, change, stage.steps[place.step - 1].lasts, "times", tried, edition=stage.edition)
        yield from found


def _narrowest(tried: Tried) -> str:
    """The narrowest edition of the recipe's stages: what is there no longer may have been of any of them."""
    order = tried.archive.settings.editions
    kept_back = (stage.edition for stage in tried.recipe.stages if stage.edition in order)
    return max(kept_back, key=order.index, default="")


def changed_coverage(doc: ChangedDoc, tried: Tried) -> Iterator[ChangedFigure]:
    """Every sound change of a mixture's coverage."""
    by_id = {mixture.local: mixture for mixture in tried.recipe.mixtures}
    for target, change in doc.coverage.items():
        if mixture := by_id.get(target):
            yield from _figure(target, change, mixture.coverage, "coverage", tried)
        elif tried.current:
            tried.problems.add(unknown_mixture(target, by_id, tried.name_at("coverage", target)))
        else:
            yield from _figure(target, change, None, "coverage", tried)


def _figure(  # noqa: PLR0913  # what is changed, and what it is held against
    target: str,
    change: TimeChangeDoc | CoverageChangeDoc,
    stands: Quantity | None,
    field: str,
    tried: Tried,
    *,
    edition: str = "",
) -> Iterator[ChangedFigure]:
    _from_agrees(change.from_, stands, (field, target), tried)
    was = change.from_ or (stands if tried.current else None)
    at = tried.at(field, target, "to")
    if was is None or _is_a_change(was, change.to, at, tried):
        yield ChangedFigure(target=target, was=was, then=change.to, edition=edition, stands=stands is not None, at=at)
