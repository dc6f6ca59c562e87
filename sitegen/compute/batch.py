"""Batches: a mixture as written, turned into plain masses, volumes and counts at one size.

Parts, percents and percents of a base become amounts in g, ml, drops or pieces. What has no size of
its own (parts without `makes`) is given a nominal one, and says so. Nothing is scaled here.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.compute.rounding import Kind
from sitegen.model.amount import Absolute, FillUp, OfBase, Parts, Percent, Unscaled
from sitegen.model.archive import Archive
from sitegen.model.quantity import Quantity, exact_text, format_quantity
from sitegen.model.recipe import Line, Mixture
from sitegen.problems import Problems, Refusal

Size = Literal["mass", "volume", "base"]
NOMINAL: Final = Fraction(100)  # ml or g shown when the author gave no size


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchLine:
    """One ingredient at the batch's size, in base units; `fill` lines are filled up to, not added."""

    line: Line
    kind: Kind | Literal["words"]
    low: Fraction = Fraction(0)
    high: Fraction = Fraction(0)
    fill: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Batch:
    """A mixture at one size: `makes` ml or g, or the mass of `base` in g it is for."""

    mixture: Mixture
    size: Size
    makes: Fraction
    lines: tuple[BatchLine, ...]
    base: str = ""
    nominal: bool = False
    """The author gave no size: `makes` is ours, only the proportions are the recipe's."""
    estimate: bool = False
    """Volumes were added up, and volumes do not add."""


def batches(archive: Archive, problems: Problems) -> dict[str, Batch]:
    """Every mixture's batch by id. A mixture whose amounts do not fit together adds a problem."""
    found: dict[str, Batch] = {}
    for mixture in archive.mixtures.values():
        _visit(mixture, archive, found, problems)
    return found


def _visit(mixture: Mixture, archive: Archive, found: dict[str, Batch], problems: Problems) -> None:
    """Sub-mixtures first: whether a part is a liquid depends on what it is made of (no cycles: checked)."""
    if mixture.id in found:
        return
    for line in mixture.lines:
        if line.mixture and line.mixture not in found:
            _visit(archive.mixtures[line.mixture], archive, found, problems)
    if any(line.mixture and line.mixture not in found for line in mixture.lines):
        return  # reported where the sub-mixture was written
    with problems.at(mixture.at):
        found[mixture.id] = batch(mixture, archive, found)


def batch(mixture: Mixture, archive: Archive, subs: dict[str, Batch]) -> Batch:
    """One mixture's batch. `Refusal` when its amounts are of kinds that cannot stand together."""
    kinds = {type(line.amount) for line in mixture.lines} - {Unscaled}
    if Parts in kinds:
        return _in_parts(mixture, archive, subs, kinds)
    if OfBase in kinds:
        return _of_base(mixture, archive, kinds)
    return _absolute(mixture, archive, subs)


def is_liquid(line: Line, archive: Archive, subs: dict[str, Batch]) -> bool:
    """Whether an ingredient is measured by volume as a matter of course."""
    return subs[line.mixture].size == "volume" if line.mixture else archive.forms[line.form].state == "liquid"


def _in_parts(mixture: Mixture, archive: Archive, subs: dict[str, Batch], kinds: set[type]) -> Batch:
    others = [a.amount for a in mixture.lines if not isinstance(a.amount, Parts | Unscaled)]
    counted = all(isinstance(a, Absolute) and a.quantity.dimension in ("drops", "pieces") for a in others)
    if others and not (counted and mixture.makes):
        raise Refusal(
            "amounts-mixed",
            f"`{mixture.local}` gives some amounts in parts and some otherwise",
            "give all in parts, or none; drops may stand beside parts when `makes` says for how much",
        )
    kind = _parts_kind(mixture, archive, subs)
    total = sum((a.amount.count for a in mixture.lines if isinstance(a.amount, Parts)), Fraction(0))
    makes = mixture.makes.base()[0] if mixture.makes else NOMINAL
    if mixture.makes and mixture.makes.dimension != kind:
        raise _makes_mismatch(mixture, mixture.makes, kind)
    lines = []
    for line in mixture.lines:
        if isinstance(line.amount, Parts):
            share = makes * line.amount.count / total
            lines.append(BatchLine(line=line, kind=kind, low=share, high=share))
        else:
            lines.append(_plain(line))
    return Batch(
        mixture=mixture, size=kind, makes=makes, lines=tuple(lines), nominal=mixture.makes is None,
        estimate=kind == "volume" and len(lines) > 1,
    )  # fmt: skip


def _parts_kind(mixture: Mixture, archive: Archive, subs: dict[str, Batch]) -> Literal["mass", "volume"]:
    said = {line.amount.by for line in mixture.lines if isinstance(line.amount, Parts)}
    if len(said - {None}) > 1 or (None in said and len(said) > 1):
        raise Refusal(
            "parts-two-kinds",
            f"`{mixture.local}` has parts of more than one kind",
            "say `by weight` on every part, or `by volume` on every part",
        )
    if said == {"weight"}:
        return "mass"
    parts = [line for line in mixture.lines if isinstance(line.amount, Parts)]
    if said == {None} and (dry := [a.key for a in parts if not is_liquid(a, archive, subs)]):
        raise Refusal(
            "parts-without-basis",
            f"`{dry[0]}` is not a liquid, so `parts` can be read in two ways",
            "write `parts by weight` or `parts by volume` on every part",
        )
    return "volume"


def _of_base(mixture: Mixture, archive: Archive, kinds: set[type]) -> Batch:
    bases = {line.amount.base for line in mixture.lines if isinstance(line.amount, OfBase)}
    if kinds != {OfBase} or len(bases) > 1 or mixture.makes:
        raise Refusal(
            "amounts-mixed",
            f"`{mixture.local}` gives some amounts by a base and some otherwise"
            if kinds != {OfBase} or mixture.makes
            else f"`{mixture.local}` has more than one base: " + ", ".join(f"`{b}`" for b in sorted(bases)),
            "give every amount as percent of the same base, water too: `30 times fibre`",
        )
    lines = []
    for line in mixture.lines:
        if not isinstance(line.amount, OfBase):
            lines.append(_plain(line))
            continue
        low, high = line.amount.low, line.amount.high  # of 100 g: a percent is that many grams
        form = archive.forms.get(line.form)
        if form and form.state == "liquid" and form.density:
            density = form.density.base()[0]
            lines.append(BatchLine(line=line, kind="volume", low=low / density, high=high / density))
        else:
            lines.append(BatchLine(line=line, kind="mass", low=low, high=high))
    return Batch(mixture=mixture, size="base", makes=NOMINAL, lines=tuple(lines), base=bases.pop(), nominal=True)


def _plain(line: Line) -> BatchLine:
    """A line whose amount does not depend on the rest: an absolute amount, or words."""
    if isinstance(line.amount, Absolute):
        low, high = line.amount.quantity.base()
        return BatchLine(line=line, kind=_kind(line.amount.quantity), low=low, high=high)
    return BatchLine(line=line, kind="words")


def _kind(quantity: Quantity) -> Kind:
    dimension = quantity.dimension
    assert dimension in ("mass", "volume", "drops", "pieces"), "amounts are parsed to these only"
    return dimension


def _absolute(mixture: Mixture, archive: Archive, subs: dict[str, Batch]) -> Batch:
    size, makes, how = _finished(mixture)
    lines = []
    for line in mixture.lines:
        if isinstance(line.amount, Percent):
            lines.append(_percent(line, line.amount, mixture, size, makes))
        elif isinstance(line.amount, FillUp):
            lines.append(BatchLine(line=line, kind=size, low=makes, high=makes, fill=True))
        else:
            lines.append(_plain(line))
    _fits(mixture, lines, size, makes)
    known = any(b.fill for b in lines) or size == "mass" or how == "nominal"
    return Batch(
        mixture=mixture,
        size=size,
        makes=makes,
        lines=tuple(lines),
        nominal=how == "nominal",
        estimate=not known,
    )


def _finished(
    mixture: Mixture,
) -> tuple[Literal["mass", "volume"], Fraction, Literal["stated", "summed", "nominal"]]:
    """How much the mixture comes to, and how that is known."""
    fills = [line.amount.quantity for line in mixture.lines if isinstance(line.amount, FillUp)]
    stated = mixture.makes or (fills[0] if fills else None)
    if stated:
        for fill in fills:
            if fill.dimension != stated.dimension or fill.base() != stated.base():
                raise Refusal(
                    "makes-disagrees",
                    f"`{mixture.local}` says it makes `{format_quantity(stated)}` and is filled to "
                    f"`{format_quantity(fill)}`",
                    "give both the same figure, or leave `makes` out",
                )
        return ("mass" if stated.dimension == "mass" else "volume"), stated.base()[0], "stated"
    measured = [a.amount.quantity for a in mixture.lines if isinstance(a.amount, Absolute)]
    percents = any(isinstance(a.amount, Percent) for a in mixture.lines)
    if percents and not measured:
        return "volume", NOMINAL, "nominal"
    sizes = {q.dimension for q in measured} - {"drops", "pieces"}
    if percents or not sizes:
        raise Refusal(
            "makes-missing",
            f"how much `{mixture.local}` makes cannot be told from its amounts",
            "add `makes: 200 ml`, or write `water: to make 200 ml`",
            ("percents are of the finished mixture, and drops have no size of their own",),
        )
    # Solids stirred into a liquid: the liquid's volume stands for the whole, and is marked an estimate.
    size: Literal["mass", "volume"] = "mass" if sizes == {"mass"} else "volume"
    total = sum((q.base()[1] for q in measured if q.dimension == size), Fraction(0))
    return size, total, "summed"


def _percent(line: Line, share: Percent, mixture: Mixture, size: str, makes: Fraction) -> BatchLine:
    low, high = share.low / 100, share.high / 100
    finished: Size = "mass" if share.basis == "w/w" else "volume"
    whole = makes
    if finished != size:
        if mixture.density is None:
            raise Refusal(
                "percent-needs-density",
                f"`{line.key}: {line.written}` is percent of a {finished}, and `{mixture.local}` is "
                f"measured by {'weight' if size == 'mass' else 'volume'}",
                "add the finished mixture's `density`, such as `density: 1.05 g/ml`, or use another percent",
            )
        density = mixture.density.base()[0]
        whole = makes * density if finished == "mass" else makes / density
    kind: Kind = "volume" if share.basis == "v/v" else "mass"
    return BatchLine(line=line, kind=kind, low=low * whole, high=high * whole)


def _fits(mixture: Mixture, lines: list[BatchLine], size: str, makes: Fraction) -> None:
    """More of one measure going in than the whole comes to is a slip of the pen."""
    if not any(line.fill for line in lines):
        return
    added = sum((b.low for b in lines if b.kind == size and not b.fill), Fraction(0))
    if added > makes:
        unit = "g" if size == "mass" else "ml"
        raise Refusal(
            "fills-over",
            f"`{mixture.local}` holds {exact_text(added)} {unit} before it is filled to {exact_text(makes)} {unit}",
            "raise the volume it is filled to, or lower the amounts",
        )


def _makes_mismatch(mixture: Mixture, makes: Quantity, kind: str) -> Refusal:
    return Refusal(
        "wrong-dimension",
        f"`{mixture.local}` is in parts by {'weight' if kind == 'mass' else 'volume'} but makes "
        f"`{format_quantity(makes)}`",
        f"write a {kind}, such as `makes: {'500 g' if kind == 'mass' else '500 ml'}`",
    )
