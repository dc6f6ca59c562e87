"""Sheets of bottle labels read back: every word, every sign, legible, within its place on the sheet."""

import io
import re
from datetime import date
from pathlib import Path

import pdfua
import pypdf
import pytest

from sitegen.compute.whole import Computed
from sitegen.problems import Refusal
from sitegen.read.theme import read_theme
from sitegen.render.bottle_label import BottleLabel, bottle_label
from sitegen.render.bottle_sheet import LEAST, SIGN, Fill, label_pages, labels_pdf, place
from sitegen.render.label_grid import parse_size
from sitegen.render.typesetting import qr_code
from tests.labels.shelves import computed

THEME = read_theme()
MIXTURES = """
silver:
  name: Acid silver
  keeps: 1-3 months
  contains: {silver-nitrate: 12 g, citric-acid-monohydrate: 6 g, water: to make 100 ml}
green: {name: Iron, keeps: 90 days, contains: {ferric-ammonium-citrate-green: 20 g, water: to make 100 ml}}
acid: {name: Citric stock, keeps: 2 weeks, contains: {citric-acid-monohydrate: 20 g, water: to make 100 ml}}
soon: {name: Sensitiser, keeps: 6 h, contains: {green: 1 part, water: 1 part}}
"""
POINTS = 72 / 25.4


@pytest.fixture(scope="module")
def shelf() -> Computed:
    return computed(MIXTURES)


def label(shelf: Computed, local: str) -> BottleLabel:
    return bottle_label(shelf, shelf.archive.mixtures[f"blue/{local}"], date(2026, 11, 25))


def pdf(shelf: Computed, size: str, *locals_: str, fill: Fill | None = None) -> bytes:
    labels = tuple(label(shelf, local) for local in locals_)
    placed = place(labels, (parse_size(size),), THEME.print, shorten=True)
    return labels_pdf(shelf, shelf.archive.recipes[0], placed, THEME.print, fill=fill)


def text_of(content: bytes) -> str:
    pages = pypdf.PdfReader(io.BytesIO(content)).pages
    return plain("".join(page.extract_text() for page in pages))


def plain(text: str) -> str:
    """Text without spaces and hyphens: where a line breaks is the setter's affair."""
    return re.sub(r"[\s\u00ad\u2010-]+", "", text)


def test_every_word_of_a_full_label_can_be_read_back(shelf: Computed) -> None:
    found, said = label(shelf, "silver"), text_of(pdf(shelf, "105x74", "silver"))
    words = found.levels[0]
    for text in (found.name, found.code, found.strengths, found.signal, *words.h, *words.p, found.notice, found.batch):
        assert plain(text) in said, text
    assert plain("2026-12-25, 2027-02-25 at the latest") in said
    assert plain("Not known:") in said


def test_not_enough_data_stands_on_the_bottle(shelf: Computed) -> None:
    assert plain("Not enough data to classify it") in text_of(pdf(shelf, "70x37", "green"))


def test_the_validator_finds_nothing_against_pdf_ua_1(shelf: Computed, tmp_path: Path) -> None:
    path = tmp_path / "labels.pdf"
    path.write_bytes(pdf(shelf, "105x74", "silver", "green", "acid"))
    report = pdfua.validate(str(path))
    assert (report.findings, report.exit_code) == ((), 0)


def test_type_is_never_smaller_than_what_can_be_read(shelf: Computed) -> None:
    sizes: list[float] = []

    def note(text: str, cm: list[float], tm: list[float], font: object, size: float) -> None:
        if text.strip():
            sizes.append(abs(size * tm[3] * cm[3]))

    for page in pypdf.PdfReader(io.BytesIO(pdf(shelf, "70x37", "acid", "green"))).pages:
        page.extract_text(visitor_text=note)
    assert min(sizes) >= LEAST - 0.01


def test_each_label_lies_within_its_own_place(shelf: Computed) -> None:
    """Text of the second label lies right of the first: 70 mm from the left edge, none below 37 mm and its margin."""
    places: list[tuple[str, float, float]] = []

    def note(text: str, cm: list[float], tm: list[float], font: object, size: float) -> None:
        if text.strip():
            places.append((text, (tm[4] * cm[0] + cm[4]) / POINTS, (tm[5] * cm[3] + cm[5]) / POINTS))

    page = pypdf.PdfReader(io.BytesIO(pdf(shelf, "70x37", "acid", fill=Fill(copies=2)))).pages[0]
    page.extract_text(visitor_text=note)
    assert {x >= 70 for _, x, _ in places} == {False, True}
    assert all(297 - y <= 37.5 for _, _, y in places)
    assert all(x <= 140 for _, x, _ in places)


def test_the_first_free_place_is_where_printing_begins(shelf: Computed) -> None:
    content = pdf(shelf, "70x37", "acid", fill=Fill(copies=24, first=2))
    assert len(pypdf.PdfReader(io.BytesIO(content)).pages) == 2


def test_equal_labels_give_equal_bytes(shelf: Computed) -> None:
    assert pdf(shelf, "70x37", "acid") == pdf(shelf, "70x37", "acid")


def test_a_label_that_is_too_small_is_refused_with_the_size_that_fits(shelf: Computed) -> None:
    with pytest.raises(Refusal) as refused:
        pdf(shelf, "38.1x21.2", "silver")
    assert refused.value.code == "label-too-small"
    size = re.search(r"--size (\S+)`", refused.value.help)
    assert size
    assert pdf(shelf, size[1], "silver")


def test_a_small_label_keeps_severe_statements_and_says_where_the_rest_is(shelf: Computed) -> None:
    found = place((label(shelf, "acid"),), (parse_size("70x37"),), THEME.print, shorten=True)[0]
    assert found.way["level"] > 0
    said = text_of(pdf(shelf, "70x37", "acid"))
    assert plain("see recipe IB-07") in said
    assert plain("Keep out of reach of children.") in said


def test_a_large_label_is_never_shortened(shelf: Computed) -> None:
    found = place((label(shelf, "silver"),), (parse_size("105x74"),), THEME.print, shorten=True)[0]
    assert found.way["level"] == 0


def test_pictograms_keep_the_least_size_of_the_standard(shelf: Computed) -> None:
    """A diamond in a square of side s covers s²/2: at least 1 cm² (CLP Annex I 1.2.1.4)."""
    for size in ("63.5x38.1", "70x37", "105x74"):
        way = place((label(shelf, "acid"),), (parse_size(size),), THEME.print, shorten=True)[0].way
        assert way["sign"] ** 2 / 2 >= SIGN - 1


def test_the_code_on_the_label_is_coarse_enough_to_scan() -> None:
    found = qr_code("https://bench.example/recipes/blue/index.html#mix-silver")
    modules = int(re.search(r'width="(\d+)"', found)[1])  # type: ignore[index]  # it is drawn in modules
    assert 12.5 / modules >= 0.25, "a module of a quarter of a millimetre is what a phone reads at 10 cm"


def test_the_page_of_a_build_bottles_what_keeps_longer_than_a_session(shelf: Computed) -> None:
    (page,) = label_pages(shelf, THEME)
    said = text_of(page.content)
    assert page.path == "recipes/blue/labels.pdf"
    assert plain("Acid silver") in said
    assert "Sensitiser" not in said


def test_a_recipe_without_bottles_has_no_labels() -> None:
    found = computed("soon: {name: Sensitiser, keeps: 6 h, contains: {citric-acid-monohydrate: 1 g, water: 1 l}}")
    assert list(label_pages(found, THEME)) == []


def test_a_name_in_letters_no_font_has_is_boxed_and_said() -> None:
    found = computed("bath: {name: 'Bath \U00013000', keeps: 90 days, contains: {sodium-chloride: 1 g, water: 1 l}}")
    placed = place((label_of(found),), (parse_size("105x74"),), THEME.print, shorten=True)
    said = text_of(labels_pdf(found, found.archive.recipes[0], placed, THEME.print))
    assert "U+13000" in said


def label_of(found: Computed) -> BottleLabel:
    return bottle_label(found, found.archive.mixtures["blue/bath"], None)
