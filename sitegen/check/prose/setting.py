"""The setting of a passage: its archive and recipe, and how a problem is put under its words."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from sitegen.check.held import forms_held
from sitegen.check.prose.passages import Link, Passage
from sitegen.check.prose.words import Index, Names, card_names, strange_heads
from sitegen.model.archive import Archive
from sitegen.model.recipe import Mixture, Recipe
from sitegen.model.reference import SCHEMES, AmountRef, LinkRef, resolve_amount, resolve_link, split_scheme
from sitegen.problems import Problems, Refusal, Span


@dataclass(frozen=True, kw_only=True)  # not slotted: the names are gathered once
class Shared:
    """What all passages of an archive share; `texts` are the files as read, by name."""

    archive: Archive
    problems: Problems
    texts: Mapping[str, str]

    @cached_property
    def cards(self) -> Index:
        """Every name of every card."""
        return card_names(self.archive)

    @cached_property
    def taken(self) -> frozenset[str]:
        """Mixtures that are an ingredient of another."""
        return frozenset(line.mixture for m in self.archive.mixtures.values() for line in m.lines)


@dataclass(frozen=True, kw_only=True)
class Setting:
    """What a rule needs beside the passage. `recipe` is None on the first page; `read` is all it says."""

    shared: Shared
    recipe: Recipe | None
    read: tuple[Passage, ...]

    @property
    def archive(self) -> Archive:
        """The archive."""
        return self.shared.archive

    @property
    def problems(self) -> Problems:
        """Where problems are added."""
        return self.shared.problems

    @cached_property
    def names(self) -> Names:
        """What the words of this recipe can name."""
        return Names(cards=self.shared.cards, archive=self.archive, recipe=self.recipe)

    @cached_property
    def strange(self) -> dict[str, frozenset[str]]:
        """Last words of look-alikes' names, which name nothing that the recipe holds."""
        return strange_heads(self.names, self.archive)

    @cached_property
    def known(self) -> frozenset[str]:
        """Forms that the mixtures hold, that `needs` names, or that a linked recipe brings."""
        needs = (mention for p in self.read if p.field == "needs" for mention in self.names.mentions(p))
        needed = {form for mention in needs for form in mention.meaning.forms}
        refs = (self.leads_to(link) for p in self.read for link in p.links)
        mixtures = (m for ref in refs if isinstance(ref, LinkRef) for m in self._brought(ref))
        return self.names.held | needed | set(forms_held(mixtures, self.archive))

    def _brought(self, ref: LinkRef) -> tuple[Mixture, ...]:
        if ref.kind == "recipe":
            return self.archive.recipe_named[ref.id].mixtures
        return (self.archive.mixtures[ref.id],) if ref.kind == "mixture" else ()

    def resolve(self, address: str) -> AmountRef | LinkRef | None:
        """What a link of ours names; None for other schemes. `Refusal` when nothing has that name."""
        scheme, target = split_scheme(address)
        if scheme not in SCHEMES:
            return None
        if scheme != "amount":
            return resolve_link(self.recipe, self.archive, scheme, target)  # type: ignore[arg-type]  # just checked
        if self.recipe is None:
            raise Refusal(
                "amount-outside-recipe",
                f"`{address}` stands outside a recipe, where no mixture is meant",
                "link to the recipe instead, such as `[the print](recipe:iron-blue)`",
            )
        return resolve_amount(self.recipe, self.archive, target)

    def leads_to(self, link: Link) -> AmountRef | LinkRef | None:
        """What a link names; None when that is nothing, which the rule on links says."""
        try:
            return self.resolve(link.address)
        except Refusal:
            return None

    def span(self, passage: Passage, where: tuple[int, int]) -> Span:
        """Where these words stand in the file, or where their text begins when that cannot be told."""
        source = self.shared.texts.get(passage.at.file)
        found = _in_source(source, passage, where) if source is not None else None
        return found or _in_one_line(passage, where)


_NEWLINE: Final = re.compile(r"\r\n|\r|\n")


def _in_source(source: str, passage: Passage, where: tuple[int, int]) -> Span | None:
    lines = _NEWLINE.split(source)
    starts = [0, *(match.end() for match in _NEWLINE.finditer(source))]
    if passage.at.line >= len(lines):
        return None
    whole = re.compile(_as_written(passage.text))
    text = whole.search(source, starts[passage.at.line] + passage.at.column) or (
        None if passage.placed else whole.search(source)
    )
    if text is None:
        return None
    before = re.compile(_as_written(passage.text[: where[0]])).match(source, text.start())
    words = before and re.compile(_as_written(passage.text[where[0] : where[1]])).match(source, before.end())
    if words is None:
        return None
    line = max(n for n, start in enumerate(starts) if start <= words.start())
    column = words.start() - starts[line]
    end = min(words.end() - starts[line], len(lines[line]))
    return Span(file=passage.at.file, line=line, column=column, end=max(end, column + 1))


def _as_written(text: str) -> str:
    """The pattern of a text in a file: YAML folds its lines and doubles or escapes its quotes."""
    spaced = r"\s+".join(re.escape(word) for word in re.split(r"\s+", text))
    return spaced.replace("'", "''?").replace('"', r'\\?"')


def _in_one_line(passage: Passage, where: tuple[int, int]) -> Span:
    """The place by counting, where the text is written plainly in one line."""
    at = passage.at
    quote = (at.end - at.column - len(passage.text)) // 2
    if not passage.placed or "\n" in passage.text or at.end - at.column != len(passage.text) + 2 * quote:
        return at
    if quote not in (0, 1):
        return at
    start = at.column + quote + where[0]
    return Span(file=at.file, line=at.line, column=start, end=max(start + 1, start + where[1] - where[0]))
