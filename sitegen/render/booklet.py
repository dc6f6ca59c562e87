"""Booklets: a recipe as a tutorial on paper, with its pictures and troubles, PDF/UA-1, from the theme's `print` files.

A4 or Letter in large type, to lie beside a sink: a folded leaflet of half the size would need small type, a printer
that turns the page, and a dry hand to leaf with. The words are `booklet_data`, the setting is `typesetting`.
"""

from collections.abc import Iterator, Mapping
from dataclasses import asdict
from functools import partial
from hashlib import sha256
from typing import Final, get_args

from sitegen.compute.whole import Computed
from sitegen.model.recipe import Recipe
from sitegen.read.theme import Theme
from sitegen.render.booklet_data import booklet_data, figures_of
from sitegen.render.booklet_model import BookletData, Figure
from sitegen.render.keeping import ANEW, Keeping
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.printed_picture import printed_picture
from sitegen.render.sheet import set_fields
from sitegen.render.typesetting import Json, Paper, set_pdf

DATA: Final = "booklet.json"
"""What the template reads, beside itself."""


def booklets(
    computed: Computed, theme: Theme, edition: str, pictures: Pictures, keeping: Keeping = ANEW
) -> Iterator[Page]:
    """Both papers' booklets of every recipe that has stages, lazily. `pictures` hold all that the recipes show."""

    def of_recipe(recipe: Recipe) -> Iterator[Page]:
        data = booklet_data(computed, recipe, edition, pictures)
        for paper in get_args(Paper):
            content = booklet_pdf(data, paper, theme.print, pictures)
            yield Page(path=f"recipes/{recipe.slug}/booklet-{paper}.pdf", content=content)

    for recipe in computed.archive.recipes:
        if has_booklet(recipe):
            yield from keeping.of_recipe("booklets", recipe, partial(of_recipe, recipe))


def has_booklet(recipe: Recipe) -> bool:
    """Whether there is a tutorial in it: without stages its sheet says everything."""
    return bool(recipe.stages)


def booklet_pdf(data: BookletData, paper: Paper, theme_print: Mapping[str, bytes], pictures: Pictures) -> bytes:
    """One booklet as a tagged PDF. `theme_print` holds `booklet.typ` and what it imports.

    A character that no font of the setter holds is shown as an empty box, and the booklet says so;
    `typst.TypstError` when the theme's own files cannot be set.
    """
    drawn = {_name(figure): printed_picture(pictures[figure.source]) for figure in figures_of(data)}
    files = {**theme_print, "main.typ": theme_print["booklet.typ"], **drawn}
    return set_pdf(files, {DATA: booklet_fields(data, paper)}, data.sheet.dated)


def _name(figure: Figure) -> str:
    """What the setter calls the picture's file: an author's own name may hold what its paths do not."""
    return f"{sha256(figure.source.encode()).hexdigest()}.svg"


def booklet_fields(data: BookletData, paper: Paper) -> dict[str, Json]:
    """What the template is given: the sheet's fields, and the booklet's own in their place or beside them."""
    own = asdict(data)
    sheet = set_fields(own.pop("sheet"), data.sheet, paper)
    files = {figure.source: _name(figure) for figure in figures_of(data)}
    return sheet | own | {"files": files}
