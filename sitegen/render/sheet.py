"""Recipe sheets: PDF/UA-1 pages for the wall above the tray, set from the theme's `print` files.

The words are `sheet_data`, the setting is `typesetting`; equal recipes give equal bytes anywhere.
"""

from collections.abc import Iterator, Mapping
from dataclasses import asdict
from functools import partial
from typing import Final, get_args

from sitegen.compute.whole import Computed
from sitegen.model.recipe import Recipe
from sitegen.read.theme import Theme
from sitegen.render.keeping import ANEW, Keeping
from sitegen.render.page import Page
from sitegen.render.sheet_data import sheet_data
from sitegen.render.sheet_model import SheetData
from sitegen.render.typesetting import TYPST_PAPER, Json, Paper, qr_code, set_pdf

DATA: Final = "sheet.json"
"""What the template reads, beside itself."""


def sheets(computed: Computed, theme: Theme, keeping: Keeping = ANEW) -> Iterator[Page]:
    """Both papers' sheets of every recipe of the edition, as written, lazily."""
    for recipe in computed.archive.recipes:
        yield from keeping.of_recipe("sheets", recipe, partial(_of_recipe, computed, theme, recipe))


def _of_recipe(computed: Computed, theme: Theme, recipe: Recipe) -> Iterator[Page]:
    data = sheet_data(computed, recipe)
    for paper in get_args(Paper):
        content = sheet_pdf(data, paper, theme.print)
        yield Page(path=f"recipes/{recipe.slug}/sheet-{paper}.pdf", content=content)


def sheet_pdf(data: SheetData, paper: Paper, theme_print: Mapping[str, bytes]) -> bytes:
    """One sheet as a tagged PDF. `theme_print` holds `sheet.typ` and what it imports.

    A character that no font of the setter holds is shown as an empty box, and the sheet says so;
    `typst.TypstError` when the theme's own files cannot be set.
    """
    files = {**theme_print, "main.typ": theme_print["sheet.typ"]}
    return set_pdf(files, {DATA: sheet_fields(data, paper)}, data.dated)


def sheet_fields(data: SheetData, paper: Paper) -> dict[str, Json]:
    """What the template is given."""
    return set_fields(asdict(data), data, paper)


def set_fields(words: dict[str, Json], data: SheetData, paper: Paper) -> dict[str, Json]:
    """The words of a sheet, as plain data, with what setting adds; `dated` is the file's, not the page's."""
    plain = {name: value for name, value in words.items() if name != "dated"}
    return plain | {"paper": TYPST_PAPER[paper], "qr": qr_code(data.lookup), "lacking": ""}
