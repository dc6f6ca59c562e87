"""Entries of the archive's cards: what their `figures` give, laid over the table that comes with the program.

A field that a card gives takes the place of the table's; the others stay as the table has them.
"""

from dataclasses import replace

from sitegen.labels.classes import parse_class
from sitegen.labels.entries import Entries, Entry
from sitegen.labels.ingredient import AcutePoint, Limit, Supplement
from sitegen.labels.limits import check_order
from sitegen.model.archive import Archive
from sitegen.model.card_figures import NO_FIGURES, CardFigures, CardLimit
from sitegen.model.once import once


@once
def with_own(entries: Entries, archive: Archive) -> Entries:
    """The entries by substance id; the table itself where no card gives figures.

    `Refusal` for a class that is not read or limits out of order; `check` says so at their place.
    """
    given = {c.id: c.hazards.figures for c in archive.substances if c.hazards.figures != NO_FIGURES}
    own = {id_: _over(entries.get(id_, Entry()), figures) for id_, figures in given.items()}
    return {**entries, **own} if own else entries


def limit_of(written: CardLimit) -> Limit:
    """A limit as the rules see it; `Refusal` for a class that is not read."""
    return Limit(hazard=parse_class(written.hazard), above=written.above, below=written.below, source=written.source)


def _over(general: Entry, figures: CardFigures) -> Entry:
    found, fields = general, set(general.fields)
    if figures.limits:
        limits = tuple(limit_of(one) for one in figures.limits)
        check_order(limits)
        found, fields = replace(found, limits=limits), fields | {"limits"}
    if figures.points:
        points = tuple(
            AcutePoint(route=one.route, value=one.value, inhaled=one.inhaled, source=one.source)
            for one in figures.points
        )
        found, fields = replace(found, ate=points), fields | {"ate"}
    if figures.m_acute or figures.m_chronic:
        found, fields = replace(found, m_acute=figures.m_acute, m_chronic=figures.m_chronic), fields | {"m"}
    if figures.statements:
        euh = tuple(Supplement(code=one.code, above=one.above, source=one.source) for one in figures.statements)
        found, fields = replace(found, supplements=euh), fields | {"euh"}
    return replace(found, fields=frozenset(fields))
