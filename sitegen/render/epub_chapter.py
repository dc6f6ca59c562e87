"""One recipe as a chapter of an EPUB: the words of its printed sheet, with its pictures, its text and its troubles.

XHTML by the theme's `epub-*.html` templates. Amounts are as written: a book has no calculator.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final
from urllib.parse import quote

from markupsafe import Markup

from sitegen.model.recipe import Picture, Recipe, Step
from sitegen.render.frame import Frame
from sitegen.render.links import picture_path
from sitegen.render.page import Page
from sitegen.render.sheet_data import sheet_data, spoken_behind
from sitegen.render.sheet_model import SheetStep
from sitegen.render.sheet_text import Node, prose

# Which element does each kind of node become? What is not here becomes what it holds.
_ELEMENTS: Final = {
    "paragraph": "p", "quote": "blockquote", "list": "ul", "numbered": "ol", "item": "li",
    "strong": "strong", "emph": "em",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """A step with its pictures."""

    step: SheetStep
    do: Markup
    images: tuple[Picture, ...]


def chapter_path(slug: str) -> str:
    """Where a recipe's chapter lies in the book."""
    return f"recipes/{slug}.xhtml"


def image_way(picture: Picture, depth: int = 1) -> str:
    """The link to a picture from a document so many folders deep."""
    return "../" * depth + quote(picture_path(picture.file))


def chapter(recipe: Recipe, frame: Frame) -> Page:
    """The chapter of a recipe."""
    computed = frame.computed
    sheet, follow = sheet_data(computed, recipe), spoken_behind(computed, recipe)
    coded = computed.archive.recipe_coded

    def set_words(nodes: tuple[Node, ...]) -> Markup:
        return _blocks(nodes, coded)

    stages = [
        [
            StepView(step=step, do=set_words(step.do), images=_shown(written))
            for step, written in zip(stage.steps, source.steps, strict=True)
        ]
        for stage, source in zip(sheet.stages, recipe.stages, strict=True)
    ]
    text = frame.environment.get_template("epub-recipe.html").render(
        language=sheet.language,
        sheet=sheet,
        recipe=recipe,
        about=set_words(prose(recipe.about.text, follow)) if recipe.about else "",
        words=set_words,
        stages=stages,
        image_way=image_way,
    )
    return Page(path=chapter_path(recipe.slug), content=text.encode())


def _shown(step: Step) -> tuple[Picture, ...]:
    """A step's pictures; of a moving one, the poster, and a pair one below the other."""
    pair = (step.compare.before, step.compare.after) if step.compare else ()
    found = (step.image, *pair, step.moving.poster if step.moving else None)
    return tuple(picture for picture in found if picture)


def _blocks(nodes: tuple[Node, ...], coded: Mapping[str, Recipe]) -> Markup:
    return Markup("").join(_element(node, coded) for node in nodes)


def _element(node: Node, coded: Mapping[str, Recipe]) -> Markup:
    inside = _blocks(node.nodes, coded)
    match node.kind:
        case "text":
            return Markup("{}").format(node.text)
        case "code":
            return Markup("<code>{}</code>").format(node.text)
        case "code-block":
            return Markup("<pre><code>{}</code></pre>").format(node.text)
        case "break":
            return Markup("<br/>")
        case "rule":
            return Markup("<hr/>")
        case "link":
            return _link(inside, node.text, coded)
        case kind if kind in _ELEMENTS:
            return Markup("<{0}>{1}</{0}>").format(Markup(_ELEMENTS[kind]), inside)  # noqa: S704  # from the table above
    return inside


def _link(inside: Markup, behind: str, coded: Mapping[str, Recipe]) -> Markup:
    """The words, with the amount or the other recipe's code behind them; a code leads to its chapter."""
    if not behind:
        return inside
    if other := coded.get(behind):
        return Markup('<a href="{}.xhtml">{} ({})</a>').format(quote(other.slug), inside, behind)
    return Markup("{} ({})").format(inside, behind)
