"""Markdown: an author's CommonMark as HTML, with live amounts and links resolved.

Raw HTML is off and there are no pictures: everything that is not text comes from here. What a link
names was checked before; a target that this edition does not hold becomes plain text.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final
from urllib.parse import unquote

from markdown_it import MarkdownIt
from markdown_it.token import Token
from markupsafe import Markup

from sitegen.compute.scale import ScaledLine
from sitegen.model.archive import Archive
from sitegen.model.recipe import Prose, Recipe
from sitegen.model.reference import SCHEMES, LinkRef, find_link, resolve_amount, split_scheme
from sitegen.problems import Refusal
from sitegen.render.links import card_anchor, mixture_anchor, recipe_path, relative, substance_path, troubles_path
from sitegen.render.wording import NO_BREAK, shown_text
from sitegen.render.written import Written

_READER: Final = MarkdownIt("commonmark", {"html": False}).disable("image")
_WEB: Final = ("http", "https")


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """Whose words are set, and on which page: what links and live amounts are resolved against."""

    archive: Archive
    written: Written
    page: str
    recipe: Recipe | None = None
    """The recipe the words belong to; None on the home page."""
    shown: str = ""
    """The slug of the recipe whose page this is, '' on other pages."""
    mixtures: frozenset[str] = field(default_factory=frozenset)
    """Ids of the mixtures that have a section on this page."""


def render(prose: Prose | None, voice: Voice, *, heading: int = 2) -> Markup:
    """The prose as blocks of HTML; its headings begin at level `heading` and skip none."""
    if prose is None:
        return Markup()
    tokens = _READER.parse(prose.text)
    _lower_headings(tokens, heading)
    for token in tokens:
        if token.type == "inline" and token.children:
            token.children = list(_resolved(token.children, voice))
    # Every value in the tokens is escaped by the renderer or by this module; raw HTML was never read.
    return Markup(_READER.renderer.render(tokens, _READER.options, {}))  # noqa: S704


def _lower_headings(tokens: Sequence[Token], first: int) -> None:
    level = first - 1
    for token in tokens:
        if token.type == "heading_open":
            level = min(first + int(token.tag[1]) - 1, level + 1, 6)
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{level}"


def _resolved(children: Sequence[Token], voice: Voice) -> Iterator[Token]:
    """The tokens with each link replaced; links never nest, so one closing token is open at most."""
    closing: Token | None = None
    for token in children:
        if token.type == "link_open":
            opening, closing = _link(unquote(str(token.attrGet("href") or "")), token, voice)
            if opening:
                yield opening
        elif token.type == "link_close":
            if closing:
                yield closing
            closing = None
        else:
            yield token


def _link(address: str, token: Token, voice: Voice) -> tuple[Token | None, Token | None]:
    """What stands before and after the link's text; (None, None) leaves the text alone."""
    scheme, target = split_scheme(address)
    if scheme == "amount":
        return None, _live(target, voice)
    if scheme in _WEB:
        token.attrSet("rel", "noopener")
    elif scheme in SCHEMES and (way := _way(scheme, target, voice)):
        token.attrSet("href", way)
    else:
        return None, None
    token.attrs.pop("title", None)  # a tip that only hovering shows
    return token, Token("link_close", "a", -1)


def _way(scheme: str, target: str, voice: Voice) -> str:
    """The relative link to what a scheme names; to its card, or '', when this edition does not hold it."""
    ref = find_link(voice.recipe, voice.archive, scheme, target)  # type: ignore[arg-type]  # one of SCHEMES but amount
    if ref is None:
        return _card(scheme, target, voice)
    return _mixture_way(ref, voice) if ref.kind == "mixture" else relative(voice.page, _place(ref))


def _card(scheme: str, target: str, voice: Voice) -> str:
    """The way to the card of the recipe that holds what is named, where this edition may show one."""
    owner = "" if scheme == "substance" else target.partition("/")[0]
    number = voice.archive.teased_at.get(owner)
    return "" if number is None else relative(voice.page, f"index.html#{card_anchor(number)}")


def _mixture_way(ref: LinkRef, voice: Voice) -> str:
    if ref.id in voice.mixtures:
        return "#" + mixture_anchor(ref.id, voice.shown)
    owner = ref.id.partition("/")[0]
    return relative(voice.page, f"{recipe_path(owner)}#{mixture_anchor(ref.id, owner)}")


def _place(ref: LinkRef) -> str:
    if ref.kind == "recipe":
        return recipe_path(ref.id)
    if ref.kind == "substance":
        return substance_path(ref.id)
    owner, _, symptom = ref.id.partition("/")
    return f"{troubles_path(owner)}#{symptom}"


def _live(target: str, voice: Voice) -> Token | None:
    """The amount in brackets after its words: an element that the calculator keeps up to date."""
    if voice.recipe is None:
        return None
    try:
        ref = resolve_amount(voice.recipe, voice.archive, target)
    except Refusal:
        return None
    mixture = voice.written(ref.mixture)
    line = next((found for found in mixture.lines if found.line.key == ref.line), None)
    value = (line_text(line) if line else shown_text(mixture.shown)).replace(" ", NO_BREAK)
    key = Markup(' data-line="{}"').format(ref.line) if line else Markup()
    lead = "up to" + NO_BREAK if line and line.line.fill else ""
    content = Markup(' ({}<data class="live" data-mixture="{}"{} value="{}">{}</data>)').format(
        lead, ref.mixture, key, value.replace(NO_BREAK, " "), value
    )
    return Token("html_inline", "", 0, content=str(content))


def line_text(line: ScaledLine) -> str:
    """An ingredient's amount in one piece; the author's words where it is never scaled."""
    return shown_text(line.shown) if line.shown else line.line.written
