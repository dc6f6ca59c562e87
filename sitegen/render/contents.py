"""Printed together: the list of what an edition holds, and that list with every sheet behind it, bookmarked.

One document is set from many sheets' own files, so the tags and headings of each sheet are kept.
"""

from typing import Final

from sitegen.model.recipe import Recipe
from sitegen.read.theme import Theme
from sitegen.render.booklet import has_booklet
from sitegen.render.edition import Edition
from sitegen.render.frame import Frame, frame
from sitegen.render.sheet import DATA, sheet_fields
from sitegen.render.sheet_data import STANDING_LINE, sheet_data
from sitegen.render.typesetting import EPOCH, TYPST_PAPER, Json, Paper, set_pdf

_LIST: Final = "contents.json"


def contents_pdf(edition: Edition, theme: Theme, paper: Paper) -> bytes:
    """The list alone, as a tagged PDF. The edition holds at least one recipe."""
    framed = frame(edition.computed, theme, edition.name)
    files = {**theme.print, "main.typ": theme.print["contents.typ"]}
    return set_pdf(files, {_LIST: _fields(framed, paper, paged=False)}, _dated(framed))


def sheets_pdf(edition: Edition, theme: Theme, paper: Paper) -> bytes:
    """The list and all sheets as one tagged PDF with a bookmark for each. All of it is in memory at once."""
    framed = frame(edition.computed, theme, edition.name)
    recipes = [recipe for _, group in _groups(framed) for recipe in group]
    files = {f"list/{name}": content for name, content in theme.print.items()}
    data: dict[str, dict[str, Json]] = {f"list/{_LIST}": _fields(framed, paper, paged=True)}
    for recipe in recipes:
        files |= {f"{recipe.slug}/{name}": content for name, content in theme.print.items()}
        data[f"{recipe.slug}/{DATA}"] = sheet_fields(sheet_data(edition.computed, recipe), paper)
    included = ["list/contents.typ", *(f"{recipe.slug}/sheet.typ" for recipe in recipes)]
    main = "".join(f'#include "{path}"\n' for path in included)
    # Each sheet names the document after itself; the last word is the list's.
    main += f'#set document(title: json("list/{_LIST}").title)\n'
    return set_pdf({**files, "main.typ": main.encode()}, data, _dated(framed))


def _groups(framed: Frame) -> list[tuple[str, tuple[Recipe, ...]]]:
    settings, grouped = framed.computed.archive.settings, framed.cross.grouped
    return [(p.name, grouped[p.id]) for p in settings.processes if p.id in grouped]


def _dated(framed: Frame) -> int:
    return (max(r.revised for r in framed.computed.archive.recipes).toordinal() - EPOCH) * 86_400


def _fields(framed: Frame, paper: Paper, *, paged: bool) -> dict[str, Json]:
    archive, settings = framed.computed.archive, framed.computed.archive.settings
    count = len(archive.recipes)
    return {
        "title": settings.title,
        "studio": settings.studio,
        "summary": settings.summary,
        "language": settings.language,
        "edition": settings.audience(framed.edition).name,
        "paper": TYPST_PAPER[paper],
        "paged": paged,
        "count": f"{count} {'recipe' if count == 1 else 'recipes'}",
        "day": max(r.revised for r in archive.recipes).isoformat(),
        "standing": STANDING_LINE,
        "groups": [{"name": name, "recipes": [_row(r) for r in group]} for name, group in _groups(framed)],
        "lacking": "",
    }


def _row(recipe: Recipe) -> dict[str, Json]:
    return {
        "code": recipe.code,
        "title": recipe.title,
        "revision": str(recipe.revision),
        "revised": recipe.revised.isoformat(),
        "printed": "sheet, booklet" if has_booklet(recipe) else "sheet",
        "status": "" if recipe.status == "settled" else recipe.status,
    }
