"""Bath life on a timeline: whether each mixture keeps from its mixing to its last use, and when to mix it.

A mixture counts as mixed when a step first names it (by a `mixture:` or `amount:` link) and as used
until the last step that names it is done, over all prints. Where that first step goes on by itself (a
steep of three days) it makes the mixture, whose life then begins at its end. Mixtures that go into
others, and baths that a step uses without a link, are not seen.
"""

from collections.abc import Iterator, Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Final, Literal
from urllib.parse import unquote

from markdown_it import MarkdownIt

from sitegen.compute.timeline import NOTHING, Placed, Reach, Timeline, timeline_from
from sitegen.model.archive import Archive
from sitegen.model.recipe import Mixture, Prose, Recipe
from sitegen.model.reference import find_link, resolve_amount, split_scheme
from sitegen.problems import Refusal

_READER: Final = MarkdownIt("commonmark", {"html": False})

Verdict = Literal["keeps", "not said", "mix later", "mix again", "too short"]


@dataclass(frozen=True, slots=True, kw_only=True)
class BathUse:
    """One step that names a mixture: its stage and print, when it begins and ends, whether it makes it."""

    stage: str
    print: int
    start: Reach
    end: Reach
    alone: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BathBatch:
    """One mixing and the uses it serves. `not_before` is the earliest mixing that surely lasts (minutes)."""

    uses: tuple[BathUse, ...]
    not_before: Fraction | None

    @property
    def needed(self) -> Reach:
        """When it must be there."""
        return self.uses[0].start

    @property
    def until(self) -> Reach:
        """When it has served."""
        return self.uses[-1].end


@dataclass(frozen=True, slots=True, kw_only=True)
class BathLife:
    """A mixture over the timeline, in as many batches as its keeping asks for.

    `mix later`: would be too old if mixed at the start of the work. `mix again`: one batch does not last
    from its first use to its last. `too short`: one use alone may outlast it.
    """

    mixture: Mixture
    batches: tuple[BathBatch, ...]
    verdict: Verdict


def bath_lives(timeline: Timeline, archive: Archive) -> tuple[BathLife, ...]:
    """Every mixture the steps name, in order of first use; of a range of keeping the shorter end counts."""
    used: dict[str, list[BathUse]] = {}
    for placed in timeline.placed:
        for id_, use in uses_of(placed, timeline.recipe, archive):
            used.setdefault(id_, []).append(use)
    return tuple(_life(archive.mixtures[id_], uses, timeline.start) for id_, uses in used.items())


def mixed_again(recipe: Recipe, archive: Archive) -> Mapping[str, str]:
    """By mixture id, of what does not keep through one print: what one batch is for, and what to mix it again for."""
    if not recipe.stages:
        return {}
    lives = bath_lives(timeline_from(recipe, Fraction(0)), archive)
    return {life.mixture.id: _again(life) for life in lives if len(life.batches) > 1}


def _again(life: BathLife) -> str:
    first, *others = life.batches
    then = dict.fromkeys(use.stage for batch in others for use in batch.uses)
    now = ", ".join(dict.fromkeys(use.stage for use in first.uses))
    return f"{life.mixture.name}: this is one batch, for {now}; it may not keep, so mix it again for {', '.join(then)}"


def uses_of(placed: Placed, recipe: Recipe, archive: Archive) -> Iterator[tuple[str, BathUse]]:
    """The mixtures that the steps of a piece name, by id, and when each step begins and ends."""
    begin, alone = placed.start, placed.piece.kind == "wait"
    for timed in placed.piece.steps:
        end = begin.plus(timed.lasts or NOTHING)
        for id_ in dict.fromkeys(_named(timed.step.do, recipe, archive)):
            yield id_, BathUse(stage=placed.piece.title, print=placed.print, start=begin, end=end, alone=alone)
        begin = end


def _named(prose: Prose, recipe: Recipe, archive: Archive) -> Iterator[str]:
    """Ids of the mixtures a sentence links to, but for those this edition does not hold."""
    for block in _READER.parse(prose.text):
        for token in block.children or ():
            if token.type == "link_open":
                with suppress(Refusal):  # links were checked before: what leads nowhere now is of another edition
                    yield from _linked(unquote(str(token.attrGet("href") or "")), recipe, archive)


def _linked(address: str, recipe: Recipe, archive: Archive) -> tuple[str, ...]:
    scheme, target = split_scheme(address)
    if scheme == "mixture":
        found = find_link(recipe, archive, "mixture", target)
        return (found.id,) if found else ()
    if scheme != "amount":
        return ()
    amount = resolve_amount(recipe, archive, target)
    lines = archive.mixtures[amount.mixture].lines
    poured = (line.mixture for line in lines if line.key == amount.line and line.mixture in archive.mixtures)
    return (amount.mixture, *poured)


def _life(mixture: Mixture, uses: list[BathUse], start: Fraction) -> BathLife:
    ordered = sorted(uses, key=lambda use: (use.start.high, use.end.high))
    keeps = mixture.keeps.base()[0] if mixture.keeps else None
    if keeps is None:
        whole = BathBatch(uses=tuple(ordered), not_before=None)
        return BathLife(mixture=mixture, batches=(whole,), verdict="not said")
    batches: list[BathBatch] = []
    for use in ordered:
        if not batches and use.alone:
            batches.append(BathBatch(uses=(use,), not_before=None))
        elif batches and _age(batches[-1], use) <= keeps:
            batch = replace(batches[-1], uses=(*batches[-1].uses, use))
            lasts = max(u.end.high for u in batch.uses) - keeps
            batches[-1] = replace(batch, not_before=None if batch.uses[0].alone else lasts)
        else:
            batches.append(BathBatch(uses=(use,), not_before=use.end.high - keeps))
    return BathLife(mixture=mixture, batches=tuple(batches), verdict=_verdict(batches, keeps, start))


def _verdict(batches: list[BathBatch], keeps: Fraction, start: Fraction) -> Verdict:
    single = [batch for batch in batches if len(batch.uses) == 1 and batch.not_before is not None]
    if any(_age(batch, batch.uses[0]) > keeps for batch in single):
        return "too short"
    if len(batches) > 1:
        return "mix again"
    first = batches[0].not_before
    return "mix later" if first is not None and first > start else "keeps"


def _age(batch: BathBatch, use: BathUse) -> Fraction:
    """Minutes from the batch's mixing to the end of a use, all times at their longest, or all at their shortest."""
    first = batch.uses[0]
    mixed = first.end if batch.not_before is None else first.start
    return max(use.end.high - mixed.high, use.end.low - mixed.low)
