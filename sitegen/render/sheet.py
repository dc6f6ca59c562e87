"""Recipe sheets: PDF/UA-1 pages for the wall above the tray, set by Typst from the theme's `print` files.

Only data goes in: one JSON text, which the template reads as values. No file is read, no font of the
machine is used and the date is the revision's, so equal recipes give equal bytes anywhere.
"""

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import asdict
from functools import lru_cache
from typing import Any, Final, Literal, get_args

import segno
import typst

from sitegen.compute.whole import Computed
from sitegen.read.theme import Theme
from sitegen.render.page import Page
from sitegen.render.sheet_data import sheet_data
from sitegen.render.sheet_model import SheetData

Paper = Literal["a4", "letter"]

Json = str | Mapping[str, Any] | Sequence[Any]

_MAIN: Final = "sheet.typ"
_TYPST_PAPER: Final[dict[Paper, str]] = {"a4": "a4", "letter": "us-letter"}
_PROBE: Final = b'#set document(title: "-")\n#sys.inputs.text'
_NO_GLYPH: Final = "\N{WHITE VERTICAL RECTANGLE}"


def sheets(computed: Computed, theme: Theme) -> Iterator[Page]:
    """Both papers' sheets of every recipe of the edition, as written, lazily."""
    for recipe in computed.archive.recipes:
        data = sheet_data(computed, recipe)
        for paper in get_args(Paper):
            content = sheet_pdf(data, paper, theme.print)
            yield Page(path=f"recipes/{recipe.slug}/sheet-{paper}.pdf", content=content)


def sheet_pdf(data: SheetData, paper: Paper, theme_print: Mapping[str, bytes]) -> bytes:
    """One sheet as a tagged PDF (PDF/UA-1). `theme_print` holds `sheet.typ` and what it imports.

    A character that no font of the setter holds is shown as an empty box, and the sheet says so;
    `typst.TypstError` when the theme's own files cannot be set.
    """
    page = asdict(data) | {"paper": _TYPST_PAPER[paper], "qr": qr_code(data.address), "lacking": ""}
    del page["dated"]  # the file's, not the page's
    try:
        return _set(theme_print, _inputs(page), data.dated)
    except typst.TypstError:
        lacking = sorted(c for c in set("".join(_texts(page))) if not _has_glyph(c))
        if not lacking:
            raise
        named = ", ".join(f"U+{ord(c):04X}" for c in lacking)
        boxed = _translated(page, str.maketrans(dict.fromkeys(lacking, _NO_GLYPH)))
        return _set(theme_print, _inputs({**boxed, "lacking": named}), data.dated)


def _inputs(page: Mapping[str, Json]) -> dict[str, str]:
    return {"sheet": json.dumps(page, ensure_ascii=False)}


@lru_cache(maxsize=1)
def _compiler() -> typst.Compiler:
    """The one compiler, without the machine's fonts. Making one costs more than setting a sheet."""
    return typst.Compiler(ignore_system_fonts=True)


def _set(files: Mapping[str, bytes], inputs: Mapping[str, str], on: int) -> bytes:
    # The files go in each time: a compiler forgets those that are in memory once it has set them.
    pdf = _compiler().compile(
        {"main.typ": files[_MAIN], **files},  # type: ignore[type-var]  # documented, but not in its hints
        format="pdf",
        pdf_standards=["ua-1"],
        sys_inputs=dict(inputs),
        timestamp=on,
    )
    assert isinstance(pdf, bytes), "a PDF is one file"
    return pdf


def qr_code(address: str) -> str:
    """The address as a QR code with its quiet zone of four modules (ISO/IEC 18004), as SVG text."""
    if not address:
        return ""
    drawn: str = segno.make_qr(address, error="m").svg_inline(border=4)
    return drawn.replace("<svg ", '<svg xmlns="http://www.w3.org/2000/svg" ', 1)


def _texts(value: Json) -> Iterator[str]:
    """Every text of a value, keys left out."""
    if isinstance(value, str):
        yield value
    else:
        for part in value.values() if isinstance(value, Mapping) else value:
            yield from _texts(part)


def _translated(value: Json, table: Mapping[int, str]) -> Any:
    """The value with every text of it translated, keys left out."""
    if isinstance(value, str):
        return value.translate(table)
    if isinstance(value, Mapping):
        return {key: _translated(part, table) for key, part in value.items()}
    return [_translated(part, table) for part in value]


@lru_cache(maxsize=4096)
def _has_glyph(character: str) -> bool:
    """Whether a bundled font holds it: PDF/UA-1 refuses text without glyphs, so it is simply tried."""
    try:
        _set({_MAIN: _PROBE}, {"text": character}, 0)
    except typst.TypstError:
        return False
    return True
