"""Passages: every text of a recipe that a reader reads, with what it is and where it stands.

Markdown is read here once, with the reader the pages use, for its links. What the links and words mean
is for the rules.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Final, Literal
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.token import Token

from sitegen.model.archive import Archive, Settings
from sitegen.model.recipe import Mixture, Prose, Recipe, Trouble
from sitegen.model.trial import Trial
from sitegen.problems import Span

Field = Literal[
    "about", "caution", "checks", "do", "hazards", "look for", "mixing", "needs", "note", "store",
    "summary", "teaser", "trial", "troubles", "welcome", "why",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """A Markdown link: its address, and where it and its words stand in the text."""

    address: str
    start: int
    end: int
    label: tuple[int, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A word as it is compared: small letters, one spelling of sulfur."""

    key: str
    start: int
    end: int


@dataclass(frozen=True, kw_only=True)  # not slotted: what is read from the text is kept
class Passage:
    """One text. `at` is where it begins, or the nearest place known before it (`placed` is False)."""

    field: Field
    text: str
    at: Span
    markdown: bool = False
    placed: bool = False
    mixture: Mixture | None = None
    """The mixture whose own text it is."""

    @cached_property
    def tokens(self) -> tuple[Token, ...]:
        """The text as Markdown, raw HTML recognised so that it can be refused; none of a plain text."""
        return _tokens(self.text) if self.markdown else ()

    @cached_property
    def links(self) -> tuple[Link, ...]:
        """Links of the text in order."""
        return tuple(_links(self.text, self.tokens))

    @cached_property
    def bare(self) -> str:
        """The text with brackets and addresses of links blanked out; every word keeps its place."""
        text = self.text
        for link in self.links:
            first, last = link.label
            kept = f"{' ' * (first - link.start)}{text[first:last]}{' ' * (link.end - last)}"
            text = text[: link.start] + kept + text[link.end :]
        return text

    @cached_property
    def words(self) -> tuple[Word, ...]:
        """The words of the text, without the addresses of links."""
        return tuple(
            Word(key=fold(match.group()), start=match.start(), end=match.end()) for match in WORD.finditer(self.bare)
        )

    def sentence(self, position: int) -> tuple[int, int]:
        """Where the sentence around a position begins and ends; a line of a list is one too."""
        ends = [0, *(match.end() for match in _STOP.finditer(self.bare)), len(self.bare)]
        start = max(end for end in ends if end <= position or end == 0)
        return start, min((end for end in ends if end > position), default=len(self.bare))

    def words_between(self, start: int, end: int) -> tuple[str, ...]:
        """The words that lie wholly between two positions."""
        return tuple(w.key for w in self.words if start <= w.start and w.end <= end)


KEPT: Final = 4096
"""How many texts are remembered as they were read."""
WORD: Final = re.compile(r"[^\W_]+")
_STOP: Final = re.compile(r"[.!?;](?=\s)|\n\s*(?=\n|[-*+]\s)")


def fold(word: str) -> str:
    """A word as it is compared.

    >>> fold("Sulphite")
    'sulfite'
    """
    return word.casefold().replace("sulph", "sulf")


class _Reader(MarkdownIt):
    """CommonMark as the pages read it, but for addresses: they stay as typed, so that they are found
    again in the text, and none is dropped in silence.
    """

    def normalizeLink(self, url: str) -> str:  # noqa: N802  # the library's name
        return url

    def validateLink(self, url: str) -> bool:  # noqa: N802  # the library's name
        return bool(url)


_READER: Final = _Reader("commonmark", {"html": True}).disable("image")


@lru_cache(maxsize=KEPT)
def _tokens(text: str) -> tuple[Token, ...]:
    """Read, never changed: several rules ask, and a preview at every save."""
    blocks = _READER.parse(text)
    return tuple(t for block in blocks for t in ((block,) if block.children is None else block.children))


def _links(text: str, tokens: Iterable[Token]) -> Iterator[Link]:
    seen = 0
    for token in tokens:
        if token.type != "link_open":
            continue
        href = str(token.attrGet("href") or "")
        link = _inline(text, href, seen) or _automatic(text, href, seen)
        if link is None:  # a link by reference, or one with escapes: known, but not where
            yield Link(address=unquote(href), start=seen, end=seen, label=(seen, seen))
            continue
        seen = link.end
        yield link


def _inline(text: str, href: str, seen: int) -> Link | None:
    match = re.compile(rf"\]\(\s*<?{re.escape(href)}>?[^()\n]*\)").search(text, seen)
    start = _opening(text, match.start(), seen) if match else None
    if match is None or start is None:
        return None
    return Link(address=unquote(href), start=start, end=match.end(), label=(start + 1, match.start()))


def _opening(text: str, closing: int, seen: int) -> int | None:
    """The bracket that a closing one belongs to; None when there is none."""
    depth = 0
    for position in range(closing, seen - 1, -1):
        depth += {"]": 1, "[": -1}.get(text[position], 0)
        if depth == 0:
            return position
    return None


def _automatic(text: str, href: str, seen: int) -> Link | None:
    start = text.find(f"<{href}>", seen)
    end = start + len(href) + 2
    return Link(address=unquote(href), start=start, end=end, label=(start + 1, end - 1)) if start >= 0 else None


def _placed(field: Field, prose: Prose | None, mixture: Mixture | None = None) -> Iterator[Passage]:
    if prose:
        yield Passage(field=field, text=prose.text, at=prose.at, markdown=True, placed=True, mixture=mixture)


def _plain(field: Field, texts: Iterable[str], at: Span, mixture: Mixture | None = None) -> Iterator[Passage]:
    for text in texts:
        if text.strip():
            yield Passage(field=field, text=text, at=at, mixture=mixture)


def welcome(settings: Settings) -> tuple[Passage, ...]:
    """The text of the first page."""
    return tuple(_placed("welcome", settings.welcome))


def passages(recipe: Recipe) -> tuple[Passage, ...]:
    """Every text of the recipe but titles, credits, keywords and disputes, whose claims are the words of others."""
    return (
        *_plain("summary", [recipe.summary], recipe.at),
        *_plain("teaser", [recipe.teaser], recipe.at),
        *_placed("about", recipe.about),
        *(passage for mixture in recipe.mixtures for passage in _of_mixture(mixture)),
        *_plain("needs", recipe.needs, recipe.at),
        *_of_hazards(recipe),
        *_of_stages(recipe),
        *_of_troubles(recipe),
    )


def _of_mixture(mixture: Mixture) -> Iterator[Passage]:
    for line in mixture.lines:
        yield from _plain("why", [line.why], line.at, mixture)
    for prose in mixture.mixing:
        yield from _placed("mixing", prose, mixture)
    yield from _placed("note", mixture.note, mixture)
    yield from _plain("store", [mixture.store], mixture.at, mixture)


def _of_hazards(recipe: Recipe) -> Iterator[Passage]:
    block = recipe.hazards
    for texts in (block.wear, block.air, block.never, block.first_aid, block.disposal, block.note):
        yield from _plain("hazards", texts, block.at)


def _of_stages(recipe: Recipe) -> Iterator[Passage]:
    for stage in recipe.stages:
        for step in stage.steps:
            yield from _placed("do", step.do)
            yield from _plain("look for", [step.look_for], step.do.at)
            yield from _plain("caution", [step.caution], step.do.at)
        if stage.steps:
            yield from _plain("checks", stage.checks, stage.steps[-1].do.at)


def _of_troubles(recipe: Recipe) -> Iterator[Passage]:
    for trouble in recipe.troubles:
        if not trouble.shared:
            yield from _of_causes(trouble, recipe.hazards.at)


def _of_causes(trouble: Trouble, at: Span) -> Iterator[Passage]:
    for cause in trouble.causes:
        texts = (trouble.symptom, cause.cause, cause.remedy, cause.check, cause.save)
        yield from _plain("troubles", texts, at)


def shared_troubles(archive: Archive) -> tuple[Passage, ...]:
    """The troubles that recipes share, each once: they are no recipe's own words."""
    shared = {t.id: t for recipe in archive.recipes for t in recipe.troubles if t.shared}
    found = (_of_causes(trouble, Span(file=f"troubles/{id_}.yaml")) for id_, trouble in sorted(shared.items()))
    return tuple(passage for each in found for passage in each)


def trial_passages(trial: Trial) -> tuple[Passage, ...]:
    """Every text of an entry of the journal but its title."""
    told, image = trial.conditions, trial.image
    plain = (trial.suspected, *trial.other, told.paper, told.lamp, told.water, *told.other, image.alt if image else "")
    return (
        *_placed("trial", trial.aim),
        *_placed("trial", trial.outcome),
        *_plain("trial", plain, trial.at),
    )
