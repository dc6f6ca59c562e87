"""What a substance must not meet: the rules of pairs it falls under, and which substances of the archive they mean.

The rules are those of `check.pairs`. A substance without reactive groups falls under none, which is said on its
page and is not the same as compatible.
"""

from collections.abc import Iterable, Iterator, Mapping
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


Sided = Mapping[str, tuple[list[Substance], list[Substance]]]
"""By the rule's id: the cards on its first side, and on its second."""


def sided(used: Iterable[Substance]) -> Sided:
    """The cards that recipes weigh out by the rules they fall under, in their order."""
    found: dict[str, tuple[list[Substance], list[Substance]]] = {id_: ([], []) for id_ in table().rules}
    for card in used:
        for side, ids in enumerate(_of(card)):
            for id_ in ids:
                found[id_][side].append(card)
    return found


def incompatible(card: Substance, used: Sided) -> tuple[Incompatible, ...]:
    """The rules a substance falls under, the worst first."""
    rules = table().rules
    found = [(rule, one) for id_, rule in rules.items() for one in _sides(card, id_, rule, used)]
    found.sort(key=lambda pair: -RANK[pair[0].severity])
    return tuple(one for _, one in found)


def _sides(card: Substance, id_: str, rule: Rule, used: Sided) -> Iterator[Incompatible]:
    """Once for each side on which it stands; a rule of two equal sides is told once."""
    if set(card.hazards.groups) & set(rule.except_):
        return
    first, second = _of(card)
    if id_ in first:
        yield _incompatible(rule, rule.b, [c for c in used[id_][1] if c is not card])
    elif id_ in second:
        yield _incompatible(rule, rule.a, [c for c in used[id_][0] if c is not card])


def _of(card: Substance) -> tuple[frozenset[str], frozenset[str]]:
    return sides(card.id, frozenset(card.hazards.groups))


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
