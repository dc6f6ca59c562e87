"""The printed list, and all sheets in one file: read back from the PDF."""

import io
from dataclasses import replace
from pathlib import Path

import pdfua
import pypdf
import pytest

from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.contents import contents_pdf, sheets_pdf
from sitegen.render.edition import Edition


@pytest.fixture(scope="module")
def edition(archive: Archive) -> Edition:
    return Edition(name="supporters", computed=compute(archive.edition("supporters"), Problems()))


@pytest.fixture(scope="module")
def together(edition: Edition, theme: Theme) -> bytes:
    return sheets_pdf(edition, theme, "a4")


def reader(content: bytes) -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(content))


def bookmarks(content: bytes) -> dict[str, int]:
    """By title: the page, counted from 1; the first level only."""
    read = reader(content)
    found = [mark for mark in read.outline if not isinstance(mark, list)]
    return {str(mark.title): (read.get_destination_page_number(mark) or 0) + 1 for mark in found}


def test_the_list_names_every_recipe_by_process(edition: Edition, theme: Theme) -> None:
    text = "".join(page.extract_text() for page in reader(contents_pdf(edition, theme, "a4")).pages)
    for recipe in edition.computed.archive.recipes:
        assert recipe.code in text
        assert f"revision {recipe.revision}" in text
    assert text.index("Blue prints") < text.index("IB-01") < text.index("Stock bottles") < text.index("ST-01")


def test_the_list_says_which_recipes_have_a_booklet_beside_their_sheet(edition: Edition, theme: Theme) -> None:
    text = "".join(page.extract_text() for page in reader(contents_pdf(edition, theme, "a4")).pages)
    booked = {recipe.code for recipe in edition.computed.archive.recipes if recipe.stages}
    said = {line.split()[0] for line in text.splitlines() if line.rstrip().endswith("sheet, booklet")}
    assert said == booked
    assert 0 < len(booked) < len(edition.computed.archive.recipes)


def test_every_sheet_has_a_bookmark_where_it_begins(together: bytes) -> None:
    read = reader(together)
    marks = bookmarks(together)
    assert [title.split()[0] for title in marks][1:] == ["IB-01", "KX-99", "ST-01"]
    for title, page in list(marks.items())[1:]:
        assert title.split()[0] in read.pages[page - 1].extract_text()


def test_the_list_in_front_says_on_which_page_each_sheet_begins(together: bytes) -> None:
    front = reader(together).pages[0].extract_text()
    for title, page in list(bookmarks(together).items())[1:]:
        line = next(line for line in front.splitlines() if line.startswith(title.split()[0]))
        assert line.endswith(f" {page}")


def test_pages_are_counted_through(together: bytes) -> None:
    pages = reader(together).pages
    for number, page in enumerate(pages, start=1):
        assert f"page {number} of {len(pages)}" in page.extract_text()


def test_the_document_is_named_after_the_archive(together: bytes) -> None:
    found = reader(together).metadata
    assert found
    assert found.title == 'The mill <script>alert("title")</script>'


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_both_papers_are_tagged_pdfs(edition: Edition, theme: Theme, paper: str, tmp_path: Path) -> None:
    for make in (contents_pdf, sheets_pdf):
        content = make(edition, theme, paper)  # type: ignore[arg-type]  # one of the two papers
        (tmp_path / "it.pdf").write_bytes(content)
        assert pdfua.validate(str(tmp_path / "it.pdf")).findings == ()
        width = float(reader(content).pages[0].mediabox.width)
        assert abs(width - {"a4": 595.28, "letter": 612}[paper]) < 1


def test_building_again_gives_the_same_bytes(edition: Edition, theme: Theme, together: bytes) -> None:
    assert sheets_pdf(edition, theme, "a4") == together


def test_a_character_no_font_holds_is_shown_as_a_box_on_its_sheet_alone(edition: Edition, theme: Theme) -> None:
    archive = edition.computed.archive
    recipes = tuple(replace(r, summary="Odd \U0001fa9f sign.") if r.slug == "stocks" else r for r in archive.recipes)
    odd = Edition(name=edition.name, computed=replace(edition.computed, archive=replace(archive, recipes=recipes)))
    texts = [page.extract_text() for page in reader(sheets_pdf(odd, theme, "a4")).pages]
    assert sum("U+1FA9F" in text for text in texts) == 1
