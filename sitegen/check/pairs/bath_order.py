"""Pairs in baths that follow each other without a wash between.

A bath is a mixture that a step links to (`mixture:`, `amount:`). A wash is a clause of `do`, without such a link,
that says wash, rinse, running water or plain water, of the print and not of hands or vessels; a stage that links
to no bath and has one of these words in its title; or a bath of nothing but water. It clears everything before
it. Mixtures joined by `or` are choices and do not meet.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Final

from sitegen.check.pairs.finding import Finding, groups_of
from sitegen.check.pairs.judge import verdicts
from sitegen.check.pairs.kitchen import Bath, Kitchen, LinkedStep
from sitegen.check.pairs.texts import denied
from sitegen.model.recipe import Stage
from sitegen.problems import Span

_CLAUSE: Final = re.compile(r"[.;:!?](?=\s)|,|\bthen\b|\band\b(?=\s+(?:rins|wash))")
_WASH: Final = re.compile(r"\b(?:wash(?:es|ed|ing)?|rins(?:e|es|ed|ing)|running water|plain water)\b")
_OTHER: Final = re.compile(r"\b(?:hands?|gloves|brush(?:es)?|vessels?|trays?|jugs?|bottles?|bench|fingers|skin)\b")


@dataclass(frozen=True, slots=True, kw_only=True)
class Dip:
    """Into a bath, or into one of several; `mixtures` is empty for a wash."""

    mixtures: tuple[str, ...] = ()
    at: Span


def course(kitchen: Kitchen) -> tuple[Dip, ...]:
    """Baths and washes in the order of the steps."""
    return tuple(dip for stage, steps in kitchen.stages for dip in _of_stage(stage, steps, kitchen))


def _of_stage(stage: Stage, linked: tuple[LinkedStep, ...], kitchen: Kitchen) -> Iterator[Dip]:
    if _WASH.search(stage.title.casefold()) and not any(found for _, found in linked):
        yield Dip(at=stage.steps[0].do.at)
    for step, found in linked:
        for start, text in _clauses(step.do.text):
            here = [bath for bath in found if start <= bath.start < start + len(text)]
            if here:
                yield from _dips(here, text, start, step.do.at, kitchen)
            elif is_wash(text):
                yield Dip(at=step.do.at)


def _dips(here: list[Bath], text: str, start: int, at: Span, kitchen: Kitchen) -> Iterator[Dip]:
    choices: list[list[Bath]] = [[here[0]]]
    for one, other in pairwise(here):
        between = text[one.start - start : other.start - start]
        if re.search(r"\bor\b", between):
            choices[-1].append(other)
        else:
            choices.append([other])
    for choice in choices:
        names = tuple(bath.mixture for bath in choice)
        water = all(not kitchen.held[name] for name in names)
        yield Dip(at=at) if water else Dip(mixtures=names, at=at)


def _clauses(text: str) -> Iterator[tuple[int, str]]:
    start = 0
    for match in _CLAUSE.finditer(text):
        yield start, text[start : match.end()]
        start = match.end()
    yield start, text[start:]


def is_wash(clause: str) -> bool:
    """Whether a clause washes the print."""
    text = clause.casefold()
    found = _WASH.search(text)
    return bool(found) and not _OTHER.search(text) and not (found and denied(text[: found.start()]))


def in_bath_order(kitchen: Kitchen) -> Iterator[Finding]:
    """Every pair of what a sheet carries and what the next baths hold, up to a wash."""
    carried: list[str] = []
    for dip in course(kitchen):
        if not dip.mixtures:
            carried = []
            continue
        for later in dip.mixtures:
            for earlier in carried:
                yield from _between(earlier, later, dip.at, kitchen)
        carried += dip.mixtures


def _between(earlier: str, later: str, at: Span, kitchen: Kitchen) -> Iterator[Finding]:
    if earlier == later or earlier in kitchen.drawn[later] or later in kitchen.drawn[earlier]:
        return
    bath = kitchen.archive.mixtures[later]
    company = groups_of(*kitchen.held[earlier], *kitchen.held[later])
    meeting = replace(kitchen.meeting(bath), company=company, wet=True, kept=False, carried=True)
    for one in kitchen.held[earlier]:
        for other in kitchen.held[later]:
            for verdict in verdicts(one, other, meeting):
                yield Finding(
                    id=verdict.id,
                    rule=verdict.rule,
                    where="baths",
                    names=(one.name, other.name),
                    groups=groups_of(one, other),
                    mixtures=(earlier, later),
                    severity=verdict.severity,
                    cause=verdict.cause,
                    at=at,
                )
