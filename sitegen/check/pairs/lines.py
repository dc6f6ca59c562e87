"""Lines: what a recipe's page and sheet print about its dangerous pairs.

Declared processes with their cautions, answered warnings with their reasons, open warnings, remarks, and
what could not be checked. Pure values; how they look is for the theme.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from sitegen.check.pairs.findings import Standing, standings, tainted
from sitegen.check.pairs.present import present
from sitegen.check.pairs.table import table
from sitegen.check.pairs.wording import told_by
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe

Kind = Literal["intended", "answered", "warning", "remark", "unchecked"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PairLine:
    """One thing to print. `rule` is '' for a declared process, which may rest on several rules."""

    kind: Kind
    title: str
    text: str
    """The must-use-now line of a process, the author's reason, or what the pair does."""
    cautions: tuple[str, ...] = ()
    rule: str = ""
    source: str = ""


def pair_lines(recipe: Recipe, archive: Archive) -> tuple[PairLine, ...]:
    """What to print, processes first; an error is never printed, for it is never built."""
    found = standings(recipe, archive)
    return (*_intended(recipe, archive, found), *_of_pairs(found), *_unchecked(recipe, archive))


def _unchecked(recipe: Recipe, archive: Archive) -> Iterator[PairLine]:
    held = [one for mixture in recipe.mixtures for one in present(mixture, archive) if not one.groups]
    if names := list(dict.fromkeys(one.name for one in held)):
        text = "The card names no reactive group, so no pair was looked for. That is not the same as safe."
        yield PairLine(kind="unchecked", title=", ".join(names), text=text)


def _intended(recipe: Recipe, archive: Archive, found: tuple[Standing, ...]) -> Iterator[PairLine]:
    """Processes this recipe declares and shows, and those of mixtures it draws on."""
    names = [s.intended for s in found if s.intended] + [name for _, name in tainted(recipe, archive)]
    for name in dict.fromkeys(names):
        doc = table().intentions[name]
        yield PairLine(kind="intended", title=name, text=doc.use_now, cautions=doc.cautions)


def _of_pairs(found: tuple[Standing, ...]) -> Iterator[PairLine]:
    seen: set[str] = set()
    for kind in ("answered", "warning", "remark"):
        for standing in found:
            id_ = standing.finding.id
            if _kind(standing) != kind or id_ in seen:
                continue
            seen.add(id_)
            rule = standing.finding.rule
            one, other = standing.finding.names
            yield PairLine(
                kind=kind,
                title=f"{one} and {other}: {rule.makes}" if standing.answer else f"{one} and {other}",
                text=standing.answer.reason if standing.answer else rule.makes,
                rule=id_,
                source=told_by(rule),
            )


def _kind(standing: Standing) -> Kind | None:
    if standing.intended or standing.severity == "error":
        return None
    if standing.answer:
        return "answered"
    return "warning" if standing.severity == "warning" else "remark"
