"""What a substance must not meet: the rules of pairs it falls under, and which substances of the archive they mean.

The rules are those of `check.pairs`. A substance without reactive groups falls under none, which is said on its
page and is not the same as compatible.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from sitegen.check.pairs.table import RANK, Rule, Severity, Side, sides, table
from sitegen.check.pairs.wording import told_by
from sitegen.model.substance import Substance

# How does a page call a severity?
SAID: Final[dict[Severity, str]] = {"error": "Never", "warning": "Take care", "note": "Remark"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Incompatible:
    """One rule: with what, what comes of it, how bad, and the archive's own substances it is about."""

    said: str
    partner: str
    makes: str
    when: str
    source: str
    cards: tuple[Substance, ...]


def incompatible(card: Substance, used: tuple[Substance, ...]) -> tuple[Incompatible, ...]:
    """The rules a substance falls under, the worst first; `used` are the cards that recipes weigh out."""
    rules = table().rules
    found = [(rule, one) for id_, rule in rules.items() for one in _sides(card, id_, rule, used)]
    found.sort(key=lambda pair: -RANK[pair[0].severity])
    return tuple(one for _, one in found)


def _sides(card: Substance, id_: str, rule: Rule, used: tuple[Substance, ...]) -> Iterator[Incompatible]:
    """Once for each side on which it stands; a rule of two equal sides is told once."""
    groups = _groups(card)
    if groups & set(rule.except_):
        return
    first, second = sides(card.id, groups)
    if id_ in first:
        yield _incompatible(rule, rule.b, [c for c in used if c is not card and id_ in _of(c)[1]])
    elif id_ in second:
        yield _incompatible(rule, rule.a, [c for c in used if c is not card and id_ in _of(c)[0]])


def _groups(card: Substance) -> frozenset[str]:
    return frozenset(card.hazards.groups)


def _of(card: Substance) -> tuple[frozenset[str], frozenset[str]]:
    return sides(card.id, _groups(card))


def _incompatible(rule: Rule, other: Side, cards: list[Substance]) -> Incompatible:
    return Incompatible(
        said=SAID[rule.severity],
        partner=_words(other) or rule.said or "",
        makes=rule.makes,
        when=rule.when or "",
        source=told_by(rule),
        cards=tuple(cards),
    )


def _words(side: Side) -> str:
    terms = (term.substance.replace("-", " ") or " and ".join(sorted(term.groups)) for term in side)
    return ", ".join(text.replace("_", " ") for text in terms)
