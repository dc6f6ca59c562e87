"""Printed sheets: read back from the PDF as a reader, a screen reader and a phone's camera find them."""

import io
import re
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pdfua
import pypdf
import pytest
import zxingcpp
from PIL import Image

from sitegen.check import check_archive
from sitegen.compute.ask import Make
from sitegen.compute.together import Asked, together
from sitegen.compute.whole import Computed, compute
from sitegen.model.quantity import parse_quantity
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import read_theme
from sitegen.render.sheet import sheet_pdf, sheets
from sitegen.render.sheet_data import STANDING_LINE, sheet_data
from sitegen.render.sheet_model import Row, SheetData
from sitegen.render.typesetting import qr_code
from tests.render.printed import elements, pages, placed, plain, text_of

THEME = read_theme()
ARCHIVE = Path(__file__).parent / "sheet"
BLUE = ARCHIVE.joinpath("blue.yaml").read_text(encoding="utf-8")
STOCKS = ARCHIVE.joinpath("stocks.yaml").read_text(encoding="utf-8")


def archive(blue: str = BLUE, stocks: str = STOCKS) -> Computed:
    texts = {
        "archive.yaml": ARCHIVE.joinpath("archive.yaml").read_text(encoding="utf-8"),
        "recipes/blue.yaml": blue,
        "recipes/stocks.yaml": stocks,
    }
    problems = Problems()
    found = check_archive(compose_sources(base_cards() | texts, problems), problems)
    assert found is not None
    assert [p for p in problems.in_order() if p.level == "error"] == []
    return compute(found, problems)


@pytest.fixture(scope="module")
def computed() -> Computed:
    return archive()


@pytest.fixture(scope="module")
def data(computed: Computed) -> SheetData:
    return sheet_data(computed, computed.archive.recipe_named["blue"])


@pytest.fixture(scope="module")
def pdf(data: SheetData) -> bytes:
    return sheet_pdf(data, "a4", THEME.print)


def scaled_data(computed: Computed, *asked: tuple[str, str]) -> SheetData:
    """The sheet of questions such as ("working", "350 ml")."""
    plans = {t.local: t for t in computed.targets["blue"]}
    questions = [Asked(target=plans[m], question=Make(quantity=parse_quantity(q))) for m, q in asked]
    return sheet_data(computed, computed.archive.recipe_named["blue"], together(questions, computed.archive))


def test_the_validator_finds_nothing_against_pdf_ua_1(pdf: bytes, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(pdf)
    report = pdfua.validate(str(path))
    assert report.findings == ()
    assert report.exit_code == 0
    # This rule stumbles over attributes given as an array; the next test looks at headings itself.
    assert {o.rule_id for o in report.skipped} <= {"UA-14-001"}


def test_headings_begin_at_the_first_level_and_skip_none(pdf: bytes) -> None:
    levels = [int(e["/S"][2:]) for e in elements(pdf) if re.fullmatch(r"/H\d", e["/S"])]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_every_table_has_header_cells(pdf: bytes) -> None:
    kinds = [e["/S"] for e in elements(pdf)]
    assert kinds.count("/Table") == kinds.count("/THead") == 5  # three batches, the layers, one stage
    assert kinds.count("/TH") == 4 * 3 + 3 + 3


def test_every_amount_and_name_stands_on_the_sheet(data: SheetData, pdf: bytes) -> None:
    text = text_of(pdf)
    rows = [row for batch in data.batches for row in batch.rows]
    assert len(rows) == 9
    for row in rows:
        assert plain(f"{row.whole}{row.fraction}{row.unit}") in text
        assert plain(row.name) in text
    for words in (
        "25.5 g",
        "2–3 g",
        "Not the brown salt",
        "makes 100 ml",
        "2–6 months",
        "Brown glass.",
        "40 ml/m²",
    ):
        assert plain(words) in text


def test_batches_stand_in_the_order_of_mixing(data: SheetData) -> None:
    assert [b.name for b in data.batches] == ["Part A", "Working sensitiser", "Citric stock", "First bath"]


@pytest.mark.parametrize(
    "words",
    [
        STANDING_LINE,
        "Never let ferricyanide meet hot acid.",
        "Nitrile gloves.",
        "Eye protection.",
        "Weigh out of draughts.",
        "Rinse with running water.",
        "Take it to a waste point.",
        "IB-07 Blue print",
        "Revision 3, 2026-03-02 · trial · The studio at the mill",
        "Amounts as written",
        "Date",
        "Lots used",
        "A brush without metal",
        "1. Coat",
        "Look for An even yellow.",
        "Look in Daylight.",
        "Caution No puddles.",
        "Then wait 45 min",
        "The coating is dry.",
        "2–3 min",
        "18–22 °C",
        "W, emulsion down, top edge notched",
        "UV lamp, 8 min, at 20 cm",
        "Own: Notes of the mill.",
        "CC BY-SA 4.0",
        "page 1 of",
        "https://mill.example/recipes/blue/index.html",
    ],
)
def test_the_sheet_says(words: str, pdf: bytes) -> None:
    assert plain(words) in text_of(pdf)


def test_hazards_stand_before_anything_that_is_mixed(pdf: bytes) -> None:
    text = text_of(pdf)
    assert text.index("Hazards") < text.index("Never") < text.index("Gather") < text.index("Mix")


def test_every_page_has_code_revision_title_and_number(data: SheetData) -> None:
    many = replace(data, needs=tuple(f"Thing {n}" for n in range(200)))
    found = pages(sheet_pdf(many, "a4", THEME.print))
    assert len(found) > 2
    for number, text in enumerate(found, start=1):
        assert plain(f"IB-07 · revision 3 · Blue print page {number} of {len(found)}") in plain(text).replace(
            plain(data.address), ""
        )


def test_sentences_carry_the_amounts_of_the_batches(data: SheetData, pdf: bytes) -> None:
    text = text_of(pdf)
    assert plain("Dissolve the iron (25.5 g) in half of the water (up to 100 ml).") in text
    assert plain("Brush the sensitiser on, so much (40 ml).") in text


def test_a_link_to_another_recipe_prints_its_code(pdf: bytes) -> None:
    assert plain("Pour the bath (ST-01).") in text_of(pdf)


def test_as_written_a_foreign_mixture_is_mixed_at_its_own_size_and_says_whose_it_is(
    data: SheetData, pdf: bytes
) -> None:
    line = data.batches[-1].rows[0]
    assert (line.whole, line.unit, line.name) == ("50", "ml", "Citric stock")
    assert line.notes[0] == "from ST-01 Shelf bottles"
    text = text_of(pdf)
    at = text.index(plain("From other recipes"))
    assert text.rindex(plain("First bath, makes about 1000 ml")) < at
    assert plain("Citric stock, makes 100 ml from ST-01 Shelf bottles 20 g citric acid") in text[at:]
    assert plain("H319") in text[at:]  # irritates eyes: Annex VI, citric acid monohydrate


def test_of_another_recipes_hazards_only_what_the_own_block_is_not_checked_for_is_said(data: SheetData) -> None:
    own, *others = data.cautions
    assert own.of == ""
    assert [other for other in others if any(label in ("Wear", "First aid") for label, _ in other.lines)] == []


def test_two_borrowed_mixtures_stand_side_by_side(data: SheetData) -> None:
    second = replace(data.batches[2], name="Second stock")
    content = sheet_pdf(replace(data, batches=(*data.batches, second)), "a4", THEME.print)
    (left,) = [found for found in placed(content) if found[0].startswith("Citric stock, makes")]
    (right,) = [found for found in placed(content) if found[0].startswith("Second stock, makes")]
    assert left[2] == pytest.approx(right[2])


def test_a_scaled_sheet_mixes_the_foreign_mixture_and_gives_its_hazards(computed: Computed) -> None:
    data = scaled_data(computed, ("bath", "500 ml"))
    assert data.asked == ("For 500\N{NO-BREAK SPACE}ml of First bath",)
    assert [(b.name, b.of) for b in data.batches] == [("Citric stock", "ST-01 Shelf bottles"), ("First bath", "")]
    assert [r.whole + r.fraction for r in data.batches[0].rows] == ["5", "25"]  # 25 ml of 20 g in 100 ml
    text = text_of(sheet_pdf(data, "a4", THEME.print))
    assert plain("Citric stock, makes 25 ml from ST-01 Shelf bottles") in text
    assert text.count(plain("Done Amount Of Measured")) == 2
    assert plain("For what comes from ST-01 Shelf bottles") in text
    assert plain("Goggles for the citric powder.") in text


def test_sentences_follow_a_scaled_batch(computed: Computed) -> None:
    text = text_of(sheet_pdf(scaled_data(computed, ("working", "350 ml")), "a4", THEME.print))
    # Half of 350 ml is 175 ml of Part A, in a 100 ml vessel read to 1 ml; 25.5 g × 1.75 = 44.625 g.
    assert plain("Dissolve the iron (44.6 g) in half of the water (up to 175 ml).") in text
    assert plain("so much (350 ml)") in text
    assert plain("For 350 ml of Working sensitiser") in text


def test_a_sheet_of_several_questions_mixes_what_they_share_once_and_ends_its_gathering_with_the_total(
    computed: Computed,
) -> None:
    data = scaled_data(computed, ("working", "350 ml"), ("part-a", "100 ml"), ("bath", "500 ml"))
    assert [(b.name, b.makes.replace("\N{NO-BREAK SPACE}", " ")) for b in data.batches] == [
        ("Part A", "makes 275 ml"),
        ("Working sensitiser", "makes about 350 ml"),
        ("Citric stock", "makes 25 ml"),
        ("First bath", "makes about 500 ml"),
    ]
    text = text_of(sheet_pdf(data, "a4", THEME.print))
    assert plain("Dissolve the iron (70.1 g) in half of the water (up to 275 ml).") in text  # 25.5 g × 2.75 = 70.125 g
    for words in ("For 350 ml of Working sensitiser", "For 100 ml of Part A", "For 500 ml of First bath"):
        assert plain(words) in text
    total = text[text.index(plain("All in all")) :]
    assert plain("275 ml Part A 175 ml for Working sensitiser · 100 ml for itself") in total
    assert plain("25 ml Citric stock 25 ml for First bath") in total
    # 275 ml and 25 ml to fill up to, 175 ml and 475 ml poured, in a litre vessel read to 10 ml
    assert plain("950 ml water at most, since it is filled up") in total


def test_the_validator_finds_nothing_against_a_sheet_with_a_total(computed: Computed, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(sheet_pdf(scaled_data(computed, ("working", "350 ml"), ("bath", "500 ml")), "a4", THEME.print))
    assert pdfua.validate(str(path)).findings == ()


def test_a_sheet_as_written_has_no_total(data: SheetData) -> None:
    assert (data.things, data.stocks) == ((), ())


def test_amounts_are_cut_at_the_decimal_point_for_alignment(data: SheetData) -> None:
    assert [(r.whole, r.fraction) for r in data.batches[0].rows] == [("25", ".5"), ("2–3", ""), ("100", "")]


HOSTILE = r'#eval("1+1") $x^2$ *a* _b_ @ref <label> \ [x] `y` // z /* q */ = h #{panic()} ]] "'


def test_nothing_an_author_types_is_run_as_markup(data: SheetData) -> None:
    first = data.batches[0]
    row = replace(first.rows[0], name=HOSTILE, notes=(HOSTILE,))
    hostile = replace(
        data,
        title=HOSTILE,
        summary=HOSTILE,
        studio=HOSTILE,
        needs=(HOSTILE,),
        warnings=(HOSTILE,),
        credits=(HOSTILE,),
        batches=(replace(first, name=HOSTILE, rows=(row,), facts=((HOSTILE, HOSTILE),)),),
        stages=(replace(data.stages[0], title=HOSTILE, light=HOSTILE, checks=(HOSTILE,)),),
    )
    content = sheet_pdf(hostile, "a4", THEME.print)
    assert text_of(content).count(plain(HOSTILE)) >= 12
    assert pypdf.PdfReader(io.BytesIO(content)).metadata["/Title"] == f"IB-07 {HOSTILE}"


def test_markdown_is_set_and_typst_in_it_is_only_text() -> None:
    prose = r"Stir `#panic()` and **#eval(1)** \*so\* $x$ <b>raw</b>"
    blue = BLUE.replace("- Filter it.", f"- '{prose}'")
    computed = archive(blue)
    content = sheet_pdf(sheet_data(computed, computed.archive.recipe_named["blue"]), "a4", THEME.print)
    assert plain("Stir #panic() and #eval(1) *so* $x$ <b>raw</b>") in text_of(content)


def test_blocks_of_markdown_are_set() -> None:
    note = "\n\n".join(["|", "# Head", "- one\n      - two", "1. three", "> four", "---", "    five"])
    note = note.replace("\n\n", "\n\n      ") + "\n"
    computed = archive(BLUE.replace("note: Mould is *filtered* off.", f"note: {note}"))
    text = text_of(sheet_pdf(sheet_data(computed, computed.archive.recipe_named["blue"]), "a4", THEME.print))
    for word in ("Head", "one", "two", "three", "four", "five"):
        assert word in text


def test_a_character_that_no_font_holds_is_boxed_and_named(data: SheetData) -> None:
    text = text_of(sheet_pdf(replace(data, title="Blue 漢 😀"), "a4", THEME.print))
    assert plain("Blue ▯ ▯") in text
    assert plain("U+6F22, U+1F600") in text


def test_a_faulty_theme_is_not_hidden(data: SheetData) -> None:
    with pytest.raises(RuntimeError, match="unknown variable"):
        sheet_pdf(data, "a4", {"sheet.typ": b"#nonsense"})


def test_equal_data_gives_equal_bytes(data: SheetData, pdf: bytes) -> None:
    sheet_pdf(replace(data, title="Another"), "letter", THEME.print)
    assert sheet_pdf(data, "a4", THEME.print) == pdf


def test_the_file_says_its_title_author_language_and_date(pdf: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    assert reader.metadata is not None
    assert reader.metadata.title == "IB-07 Blue print"
    assert reader.metadata.author == "The studio at the mill"
    assert reader.metadata.creation_date is not None
    assert reader.metadata.creation_date.date().isoformat() == "2026-03-02"
    assert reader.trailer["/Root"]["/Lang"] == "en-GB"


# ISO 216 A4 is 210 × 297 mm, ANSI A is 8.5 × 11 in; a point is 1/72 in.
@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 210 / 25.4 * 72, 297 / 25.4 * 72), ("letter", 612, 792)])
def test_the_page_is_as_large_as_the_paper(paper: Any, width: float, height: float, data: SheetData) -> None:
    for page in pypdf.PdfReader(io.BytesIO(sheet_pdf(data, paper, THEME.print))).pages:
        assert float(page.mediabox.width) == pytest.approx(width, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(height, abs=0.01)


def test_an_ordinary_recipe_fits_two_pages_and_what_it_borrows_one_more(data: SheetData, pdf: bytes) -> None:
    own = replace(data, batches=tuple(batch for batch in data.batches if not batch.of))
    assert len(pages(sheet_pdf(own, "a4", THEME.print))) <= 2
    assert len(pages(pdf)) <= 3


def test_all_fonts_are_embedded(pdf: bytes) -> None:
    found = set()
    for page in pypdf.PdfReader(io.BytesIO(pdf)).pages:
        for font in page["/Resources"]["/Font"].values():
            descriptor = font["/DescendantFonts"][0]["/FontDescriptor"]
            assert {"/FontFile2", "/FontFile3"} & set(descriptor)
            found.add(descriptor["/FontName"].partition("+")[2].partition("-")[0])
    assert found == {"LibertinusSerif"}


def test_only_the_footer_is_smaller_than_ten_points(pdf: bytes) -> None:
    small = [text for text, size, _ in placed(pdf) if size < 10]
    footer = "IB-07 · revision 3 · Blue print https://mill.example/recipes/blue/index.html page 1 of 3 page 2 of 3"
    assert "page" in "".join(small)
    assert {part for text in small for part in text.split()} <= set(footer.split())


def test_amounts_are_larger_than_the_words_beside_them(data: SheetData, pdf: bytes) -> None:
    sizes = {text.strip(): size for text, size, _ in placed(pdf)}
    assert sizes["25.5"] >= 15


def test_a_long_table_breaks_and_repeats_its_header(data: SheetData) -> None:
    rows = tuple(Row(whole=str(n), unit="g", name=f"Salt {n}") for n in range(90))
    found = pages(sheet_pdf(replace(data, batches=(replace(data.batches[0], rows=rows),)), "letter", THEME.print))
    salted = [page for page in found if "Salt " in page]
    assert len(salted) > 2
    assert all("Measured" in page for page in salted)
    assert all(f"Salt {n}" in "".join(salted) for n in range(90))


def test_text_longer_than_a_page_does_not_run_off_the_paper(data: SheetData) -> None:
    words = " ".join(f"w{n}" for n in range(3000))
    row = replace(data.batches[0].rows[0], notes=(words,))
    stage = replace(data.stages[0], checks=(words,))
    long = replace(data, batches=(replace(data.batches[0], rows=(row,)),), stages=(stage,))
    content = sheet_pdf(long, "a4", THEME.print)
    assert len(pages(content)) > 4
    assert all(0 < height < 297 / 25.4 * 72 for _, __, height in placed(content))
    assert text_of(content).count("w2999") == 2


def test_the_code_reads_as_the_place_that_tells_the_age_of_this_very_sheet(data: SheetData, pdf: bytes) -> None:
    """Painted from the SVG's row commands (`M4 4.5h7m2 0h1…`) and read by another library."""
    assert data.lookup == f"https://mill.example/sheets/index.html#{data.code}.{data.revision}"
    drawn = qr_code(data.lookup)
    side = int(re.search(r'width="(\d+)"', drawn)[1])  # type: ignore[index]  # there, or the test fails
    image = Image.new("L", (side, side), 255)
    x, y = 0.0, 0.0
    for command, first, second in re.findall(r"([Mmh])(-?[\d.]+)(?: (-?[\d.]+))?", drawn.partition(' d="')[2]):
        if command == "M":
            x, y = float(first), float(second)
        elif command == "m":
            x, y = x + float(first), y + float(second)
        else:
            image.paste(0, (int(x), int(y), int(x + float(first)), int(y) + 1))
            x += float(first)
    found = zxingcpp.read_barcodes(image.resize((side * 8, side * 8), Image.Resampling.NEAREST))
    assert [code.text for code in found] == [data.lookup]
    assert f"QR code of {data.lookup}" in [e.get("/Alt") for e in elements(pdf)]


def test_without_an_address_there_is_no_code(data: SheetData) -> None:
    content = sheet_pdf(replace(data, address="", lookup=""), "a4", THEME.print)
    assert not [e for e in elements(content) if "QR code" in str(e.get("/Alt", ""))]
    assert "https://mill.example" not in text_of(content)


def test_every_recipe_has_a_sheet_for_each_paper(computed: Computed) -> None:
    found = list(sheets(computed, THEME))
    assert [p.path for p in found] == [
        f"recipes/{slug}/sheet-{paper}.pdf" for slug in ("blue", "stocks") for paper in ("a4", "letter")
    ]
    assert all(p.content.startswith(b"%PDF-") for p in found)


def test_the_card_of_a_layer_stands_at_the_stage_that_exposes_it() -> None:
    printed = "  - title: Print\n    layer: warm\n    steps: [{do: Expose., for: 8 min}]\n"
    computed = archive(f"{BLUE.rstrip()}\n{printed}")
    made = sheet_data(computed, computed.archive.recipe_named["blue"])
    assert [card.stage for card in made.preflights] == [2]
    text = text_of(sheet_pdf(made, "a4", THEME.print))
    at = [text.index(plain(words)) for words in ("1. Coat", "2. Print", "Before exposure 1: warm", "Expose.")]
    assert at == sorted(at)


def test_a_card_without_a_stage_stands_by_the_layers(data: SheetData, pdf: bytes) -> None:
    assert [card.stage for card in data.preflights] == [0]
    text = text_of(pdf)
    assert text.index(plain("Before exposure 1: warm")) < text.index(plain("1. Coat"))


def test_credits_stand_before_what_is_mixed_so_that_they_never_have_a_page_of_their_own(pdf: bytes) -> None:
    text = text_of(pdf)
    assert text.index("Gather") < text.index("Credits") < text.index(plain("Mix Signs and codes"))


def test_a_small_weight_is_flagged_on_the_sheet() -> None:
    computed = archive(BLUE.replace("25.5 g", "0.4 g"))
    data = sheet_data(computed, computed.archive.recipe_named["blue"])
    # One step of 0.1 g against 0.4 g is a quarter.
    assert data.batches[0].rows[0].notes[0].startswith("25 % off for one step of a 0.1 g balance")


def test_the_strip_around_a_layers_time_stands_on_its_card(data: SheetData, pdf: bytes) -> None:
    # by definition: half stops around 8 min
    assert [card.strip.split() for card in data.preflights] == [["4'00", "5'39", "8'00", "11'19", "16'00"]]
    assert plain("Strip, half stops 4'00") in text_of(pdf).replace("’", "'")
