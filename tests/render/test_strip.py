"""The printed strip: there where it costs no page, told in words, found sound as PDF/UA-1."""

from dataclasses import replace
from pathlib import Path

import pdfua
import pytest

from sitegen.render.sheet import sheet_fields, sheet_pdf
from sitegen.render.sheet_data import sheet_data
from sitegen.render.sheet_model import SheetData
from sitegen.render.typesetting import set_pdf
from tests.render.test_sheet import THEME, archive, elements, pages, plain, text_of

LINE = "what is long enough to fill about a line of the sheet, so that the room on its last page is used up"
"""Disputes are the last words of a sheet before its time."""


@pytest.fixture(scope="module")
def data() -> SheetData:
    """With room on the last page."""
    computed = archive()
    return replace(sheet_data(computed, computed.archive.recipe_named["blue"]), needs=(), layers=(), preflights=())


@pytest.fixture(scope="module")
def pdf(data: SheetData) -> bytes:
    return sheet_pdf(data, "a4", THEME.print)


def test_the_sheet_says_how_long_the_work_takes(pdf: bytes) -> None:
    said = text_of(pdf)
    assert plain("Time: at least 2–3 min of work within a day.") in said
    assert plain("1 Coat 2–3 min · wait 45 min") in said


def test_the_drawing_has_its_words(data: SheetData, pdf: bytes) -> None:
    assert data.timeline is not None
    told = [str(e.get("/Alt", "")) for e in elements(pdf) if e["/S"] == "/Figure"]
    assert data.timeline.alt in told


def test_the_validator_finds_nothing(pdf: bytes, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(pdf)
    assert pdfua.validate(str(path)).findings == ()


@pytest.mark.parametrize("lines", range(0, 60, 3))
def test_the_strip_never_costs_a_page(lines: int, data: SheetData) -> None:
    longer = replace(data, disputes=(LINE,) * lines)
    with_it, without = (sheet_pdf(replace(longer, timeline=t), "a4", THEME.print) for t in (data.timeline, None))
    assert len(pages(with_it)) == len(pages(without))


def test_both_happen_where_the_room_differs(data: SheetData) -> None:
    told = {
        "Time:" in "".join(pages(sheet_pdf(replace(data, disputes=(LINE,) * lines), "a4", THEME.print)))
        for lines in range(0, 60, 3)
    }
    assert told == {True, False}


def test_many_sheets_in_one_file_each_have_their_strip(data: SheetData) -> None:
    names = ("one", "two", "three")
    files = {f"{name}/{file}": content for name in names for file, content in THEME.print.items()}
    main = "".join(f'#include "{name}/sheet.typ"\n' for name in names)
    fields = {f"{name}/sheet.json": sheet_fields(data, "a4") for name in names}
    together = set_pdf({**files, "main.typ": main.encode()}, fields, data.dated)
    assert "".join(pages(together)).count("Time: ") == len(names)
