"""Amounts: a quantity typed beside an ingredient's name must be the one its mixture holds.

One that agrees is pointed out too: the calculator changes live amounts, not typed ones. Only masses,
volumes and drops that clearly belong to a name are judged; sentences about other recipes, about a part
of an amount or a rate (`5 g a litre`) are left alone, and so are troubles, which change amounts.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.check.prose.figures import Figure, figures
from sitegen.check.prose.passages import Link, Passage
from sitegen.check.prose.setting import Setting
from sitegen.model.amount import Absolute, FillUp, Percent
from sitegen.model.quantity import Quantity, format_quantity
from sitegen.model.recipe import Line, Mixture, Recipe
from sitegen.model.reference import AmountRef, LinkRef
from sitegen.problems import Problem, Refusal

FIELDS: Final = frozenset({"about", "caution", "checks", "do", "hazards", "look for", "mixing", "note"})
NEAR: Final = 6
"""Words between a figure and the name it may belong to."""

# Which words part a figure from a name: `40 g to the citrate` is not 40 g of it.
_PARTING: Final = frozenset({
    "and", "as", "at", "by", "for", "from", "in", "into", "is", "on", "onto", "or", "over", "per", "than",
    "then", "through", "to", "under", "until", "with", "without",
})  # fmt: skip
# Which words say that a sentence is about a part of an amount, or about another recipe?
_OTHERWISE: Final = frozenset({
    "another", "book", "each", "earlier", "elsewhere", "every", "extra", "first", "former", "formerly",
    "half", "handbook", "if", "instead", "last", "least", "less", "more", "most", "never", "not", "old",
    "older", "original", "originally", "other", "others", "previous", "previously", "quarter", "rather",
    "remaining", "rest", "some", "spare", "third", "twice", "without",
})  # fmt: skip
# What behind a figure or its name makes it a rate?
_RATE: Final = re.compile(
    r"\s*(?:/|per\b|(?:(?:to|for|in)\s+)?(?:an?|the|each|every)\s+(?:litre|liter|sheet|print|square|person)\b)"
)
_MAKING: Final = frozenset({"make", "makes", "mix", "prepare"})
_DIFFERENT_SYSTEMS: Final = Fraction(2, 100)  # 1 oz av for 28 g is the same amount, rounded


@dataclass(frozen=True, slots=True, kw_only=True)
class _Named:
    """What stands beside a figure: words at a place, and the amounts they may mean."""

    start: int
    end: int
    lines: tuple[tuple[Mixture, Line], ...] = ()
    made: tuple[Mixture, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """A structured amount: of a line, or (line None) how much is made of the mixture."""

    mixture: Mixture
    line: Line | None
    figure: Quantity

    @property
    def filled(self) -> bool:
        """Whether the line is filled up to the figure."""
        return self.line is not None and isinstance(self.line.amount, FillUp)

    def told(self, setting: Setting) -> str:
        """The amount in words."""
        if self.line is None:
            return f"`{self.mixture.local}` makes {format_quantity(self.figure)}"
        form = setting.archive.forms.get(self.line.form)
        of = form.name if form else f"`{self.line.key}`"
        filled = f"is filled up to {format_quantity(self.figure)} with {of}"
        return f"`{self.mixture.local}` " + (filled if self.filled else f"holds {format_quantity(self.figure)} of {of}")


def amounts_agree(passage: Passage, setting: Setting) -> None:
    """Each typed quantity beside an ingredient's name, against the mixtures that hold it."""
    if passage.field not in FIELDS or setting.recipe is None:
        return
    found = [f for f in figures(passage.bare) if f.dimension in ("mass", "volume", "drops") and len(f.parts) == 1]
    names = tuple(_names(passage, setting, setting.recipe)) if found else ()
    for figure in found:
        start, end = passage.sentence(figure.start)
        said = set(passage.words_between(start, end))
        name = None if said & _OTHERWISE else _beside(figure, names, passage)
        if name and not any(_RATE.match(passage.bare, end) for end in (figure.end, name.end)):
            _judge(figure, name, passage, setting)


def _names(passage: Passage, setting: Setting, recipe: Recipe) -> Iterator[_Named]:
    linked = [(link, ref) for link in passage.links if (ref := setting.leads_to(link))]
    for link, ref in linked:
        yield _linked(link, ref, recipe)
    for mention in setting.names.mentions(passage):
        if any(link.start <= mention.start < link.end for link, _ in linked):
            continue
        meaning = mention.meaning
        lines = tuple(
            (mixture, line)
            for mixture in recipe.mixtures
            for line in mixture.lines
            if (line.form in meaning.forms or line.mixture in meaning.mixtures)
            and (line.form != "water" or (passage.field == "mixing" and mixture == passage.mixture))
        )
        made = tuple(m for m in recipe.mixtures if m.id in meaning.mixtures)
        own = tuple(pair for pair in lines if pair[0] == passage.mixture)
        yield _Named(start=mention.start, end=mention.end, lines=own or lines, made=made)


def _linked(link: Link, ref: AmountRef | LinkRef, recipe: Recipe) -> _Named:
    """The amounts a link stands for: a line, or what is made and used of a mixture; none of other links."""
    start, end = link.label
    if isinstance(ref, AmountRef) and ref.line:
        mixtures = (m for m in recipe.mixtures if m.id == ref.mixture)
        lines = tuple((m, line) for m in mixtures for line in m.lines if line.key == ref.line)
        return _Named(start=start, end=end, lines=lines)
    if isinstance(ref, LinkRef) and ref.kind != "mixture":
        return _Named(start=start, end=end)
    id_ = ref.mixture if isinstance(ref, AmountRef) else ref.id
    uses = tuple((m, line) for m in recipe.mixtures for line in m.lines if line.mixture == id_)
    return _Named(start=start, end=end, lines=uses, made=tuple(m for m in recipe.mixtures if m.id == id_))


def _beside(figure: Figure, names: tuple[_Named, ...], passage: Passage) -> _Named | None:
    """The name the figure belongs to: around it, else the next one after it, else the one before it."""
    for name in names:
        if name.start <= figure.start and figure.end <= name.end:
            return name
    after = [name for name in names if name.start >= figure.end]
    if after and _joined(passage, figure.end, min(after, key=lambda n: n.start).start, comma=False):
        return min(after, key=lambda n: n.start)
    before = [name for name in names if name.end <= figure.start]
    if before and _joined(passage, max(before, key=lambda n: n.end).end, figure.start, comma=True):
        return max(before, key=lambda n: n.end)
    return None


def _joined(passage: Passage, start: int, end: int, *, comma: bool) -> bool:
    between = passage.bare[start:end]
    words = passage.words_between(start, end)
    stops = r"[.;!?\n\d]" if comma else r"[.;!?,:()\n\d]"
    return len(words) <= NEAR and not _PARTING & set(words) and not re.search(stops, between)


def _judge(figure: Figure, name: _Named, passage: Passage, setting: Setting) -> None:
    said = passage.words_between(passage.sentence(figure.start)[0], figure.start)
    known = [k for k in _amounts(name, making=bool(_MAKING & set(said))) if k.figure.dimension == figure.dimension]
    if not known:
        return
    most = figure.base()[0][1]
    if any(k.filled and most <= k.figure.base()[1] for k in known):
        return  # part of the water that the rest is made up with
    same = next((k for k in known if _same(figure, k.figure)), None)
    meant = same or known[0]
    link = f"[{_words(passage.text[name.start : name.end], meant, figure)}](amount:{_target(meant, setting)})"
    if same:
        setting.problems.add(
            Problem(
                code="prose-amount-typed",
                at=setting.span(passage, (figure.start, figure.end)),
                message=f"`{figure.text}` is typed: the calculator changes the amount, not these words",
                help=f"write `{link}`: the amount appears beside the words",
                level="warning",
            )
        )
        return
    setting.problems.add(
        Problem(
            code="prose-amount-disagrees",
            at=setting.span(passage, (figure.start, figure.end)),
            message=f"the text says `{figure.text}`, but {meant.told(setting)}",
            help=f"write `{link}`: the amount appears beside the words and is always the mixture's",
            notes=tuple(other.told(setting) for other in known[1:]),
        )
    )


def _amounts(name: _Named, *, making: bool) -> list[_Known]:
    held = [(m, line, amount_of(line, m)) for m, line in name.lines]
    made = [(m, None, m.makes) for m in name.made] if making else []
    return [_Known(mixture=m, line=line, figure=q) for m, line, q in (*held, *made) if q]


def _same(figure: Figure, quantity: Quantity) -> bool:
    """Within the mixture's range, or equal; roughly so between metric and other units."""
    (low, high), (least, most) = figure.base()[0], quantity.base()
    room = Fraction(0) if _metric(figure.unit) == _metric(quantity.unit) else _DIFFERENT_SYSTEMS
    return least * (1 - room) <= low and high <= most * (1 + room)


def _metric(unit: str) -> bool:
    return " " not in unit and unit not in ("lb", "grain")


def _words(words: str, meant: _Known, figure: Figure) -> str:
    """Words for the link: those of the text without the figure, or the name."""
    plain = " ".join(words.replace(figure.text, "").split()).removeprefix("of ")
    plain = plain or (meant.line.key.replace("-", " ") if meant.line else meant.mixture.name)
    return plain if plain.startswith("the ") else f"the {plain}"


def _target(meant: _Known, setting: Setting) -> str:
    """The shortest target that names this amount alone."""
    if meant.line is None:
        return meant.mixture.local
    try:
        setting.resolve(f"amount:{meant.line.key}")
    except Refusal:
        return f"{meant.mixture.local}/{meant.line.key}"
    return meant.line.key


def amount_of(line: Line, mixture: Mixture) -> Quantity | None:
    """A line's amount in measures, where the file alone tells it; percents of a known whole included."""
    match line.amount:
        case Absolute(quantity=quantity) | FillUp(quantity=quantity):
            return quantity
        case Percent(low=low, high=high, basis=basis):
            fills = (other.amount.quantity for other in mixture.lines if isinstance(other.amount, FillUp))
            whole = mixture.makes or next(fills, None)
            if whole is None or (whole.dimension == "mass") != (basis == "w/w"):
                return None
            size = whole.base()[0] / 100
            return Quantity(low=low * size, high=high * size, unit="ml" if basis == "v/v" else "g")
        case _:
            return None
