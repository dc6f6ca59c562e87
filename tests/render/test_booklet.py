"""Booklets, read back from the PDF: every step with its picture, in order, and nothing else hidden in the file."""

import base64
import io
import re
from collections.abc import Mapping
from dataclasses import replace
from itertools import pairwise
from pathlib import Path
from typing import Any

import pdfua
import pypdf
import pytest
from PIL import Image

from sitegen.check import check_archive
from sitegen.compute.whole import Computed, compute
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import read_theme
from sitegen.render.booklet import booklet_pdf, booklets
from sitegen.render.booklet_data import STANDING, booklet_data
from sitegen.render.booklet_model import BookletData, BookletDispute
from sitegen.render.pictures import Pictures, published
from sitegen.render.printed_picture import printed_picture
from sitegen.render.sheet_text import Node, said
from tests.render.printed import elements, pages, placed, plain, text_of

THEME = read_theme()
FOLDER = Path(__file__).parent / "sheet"
OPENING = """
about: |
  Two *bottles* wait, and [the stock](recipe:stocks) too.
takes: 3 h
image: {file: opening.png, alt: Grasses at low tide}
mixtures:
"""
MORE = """
  - title: Wash
    steps:
      - do: Rock the tray.
        for: 5 min
        image: {file: below/tray.jpg, alt: A tray of water}
      - do: Look at it.
        compare: {before: {file: wet.png, alt: The wet print}, after: {file: dry.png, alt: The dry print}}
        moving picture:
          title: The whole wash
          address: https://mill.example/wash
          poster: {file: still.png, alt: A still of the wash}
          marks: [{at: "0:41", says: The yellow goes}]
troubles:
  - symptom: Blues wash away
    stage: wash
    causes:
      - {cause: Exposed too short., remedy: Longer., check: A strip., save: Nothing saves it., step: Wash/2}
      - {cause: Chalk in the paper., remedy: Other paper.}
  - symptom: Blotches
    causes: [{cause: A wet brush., remedy: Squeeze it., step: Coat}]
"""
WORKED = FOLDER.joinpath("blue.yaml").read_text(encoding="utf-8").replace("\nmixtures:\n", OPENING, 1)
WORKED = WORKED.replace("  - name: warm", "  - name: warm", 1).replace(
    "  - title: Coat\n", "  - title: Coat\n    layer: warm\n"
)
WORKED = WORKED.rstrip() + MORE

SHOWN = frozenset({"opening.png", "below/tray.jpg", "wet.png", "dry.png", "still.png"})


def photograph(kind: str = "JPEG", size: tuple[int, int] = (60, 40), **how: Any) -> bytes:
    """A picture of more colours than a drawing has."""
    out = io.BytesIO()
    across = Image.radial_gradient("L").resize(size)
    Image.merge("RGB", (across, Image.linear_gradient("L").resize(size), across.rotate(180))).save(out, kind, **how)
    return out.getvalue()


def drawing(colour: str) -> bytes:
    out = io.BytesIO()
    Image.new("RGB", (60, 40), colour).save(out, "PNG")
    return out.getvalue()


@pytest.fixture(scope="module")
def pictures() -> Pictures:
    """Those that the recipe shows; the photograph hides words in its metadata."""
    exif = Image.Exif()
    exif[0x010E] = "hidden words"
    told = photograph(exif=exif, comment=b"hidden words")
    drawn = {f"{name}.png": drawing(colour) for name, colour in
             (("opening", "navy"), ("wet", "blue"), ("dry", "grey"), ("still", "white"))}  # fmt: skip
    return {name: published(content, name) for name, content in {**drawn, "below/tray.jpg": told}.items()}


def archive(blue: str = WORKED) -> Computed:
    texts = {
        "archive.yaml": FOLDER.joinpath("archive.yaml").read_text(encoding="utf-8"),
        "recipes/blue.yaml": blue,
        "recipes/stocks.yaml": FOLDER.joinpath("stocks.yaml").read_text(encoding="utf-8"),
    }
    problems = Problems()
    found = check_archive(compose_sources(base_cards() | texts, problems, pictures=SHOWN), problems)
    assert found is not None
    assert [p for p in problems.in_order() if p.level == "error"] == []
    return compute(found, problems)


@pytest.fixture(scope="module")
def computed() -> Computed:
    return archive()


@pytest.fixture(scope="module")
def data(computed: Computed, pictures: Pictures) -> BookletData:
    return booklet_data(computed, computed.archive.recipe_named["blue"], "public", pictures)


@pytest.fixture(scope="module")
def pdf(data: BookletData, pictures: Pictures) -> bytes:
    return booklet_pdf(data, "a4", THEME.print, pictures)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_the_validator_finds_nothing_against_pdf_ua_1(
    paper: Any, data: BookletData, pictures: Pictures, tmp_path: Path
) -> None:
    path = tmp_path / "booklet.pdf"
    path.write_bytes(booklet_pdf(data, paper, THEME.print, pictures))
    report = pdfua.validate(str(path))
    assert report.findings == ()
    assert {o.rule_id for o in report.skipped} <= {"UA-14-001"}


def test_headings_begin_at_the_first_level_and_skip_none(pdf: bytes) -> None:
    levels = [int(e["/S"][2:]) for e in elements(pdf) if re.fullmatch(r"/H\d", e["/S"])]
    assert levels[0] == 1
    assert levels.count(1) == 1
    assert all(after <= before + 1 for before, after in pairwise(levels))


def test_each_step_is_an_item_of_a_numbered_list(data: BookletData, pdf: bytes) -> None:
    steps = sum(len(stage.steps) for stage in data.stages)
    assert steps == 4
    assert [e["/S"] for e in elements(pdf)].count("/LI") >= steps


def test_all_is_there_in_the_order_of_the_work(pdf: bytes) -> None:
    text = text_of(pdf)
    after_contents = text[text.index(plain(STANDING)) :]
    wanted = [
        "Never let ferricyanide meet hot acid.", "Nitrile gloves.", "Take it to a waste point.", "What you need",
        "A brush without metal", "What to mix", "Amounts as written", "Part A, makes 100 ml", "25.5 g",
        "Dissolve the iron (25.5 g)", "First bath", "Before each exposure", "W, emulsion down",
        "Before exposure 1: warm, film W", "Date on the film", "1. Coat", "Light Dim", "Layer warm",
        "Brush the sensitiser on, so much (40 ml).", "For 2–3 min", "At 18–22 °C", "Until An even yellow.",
        "Judge in Daylight.", "Take care No puddles.", "Pour the bath (ST-01).", "Coat: then wait 45 min",
        "Before going on", "The coating is dry.", "2. Wash", "Rock the tray.", "For 5 min", "Look at it.", "Before",
        "After", "Moving picture: The whole wash", "0:41 The yellow goes", "https://mill.example/wash", "Troubles",
        "Blues wash away", "In the wash", "Cause Exposed too short.", "Look first A strip.",
        "Save this print Nothing saves it.", "Next time Longer.", "Caused in Wash, step 2, page",
        "Cause Chalk in the paper.", "Blotches", "Caused in Coat, page", "Credits", "Own: Notes of the mill.",
        "CC BY-SA 4.0",
    ]  # fmt: skip
    at = 0
    for words in wanted:
        at = after_contents.find(plain(words), at)
        assert at >= 0, words


def test_the_cover_says_what_it_is_and_for_whom(pdf: bytes) -> None:
    cover = plain(pages(pdf)[0])
    for words in (
        "IB-07 Blue print",
        "Revision 3, 2026-03-02 · trial · Edition: public · The studio at the mill",
        "Two solutions and a bath.",
        "Takes 3 h",
        "Two bottles wait, and the stock (ST-01) too.",
        "In this booklet",
    ):
        assert plain(words) in cover
    assert cover.index("Twosolutions") < cover.index("Hazards")


def test_the_step_that_caused_a_trouble_is_named_with_its_page(pdf: bytes) -> None:
    found = pages(pdf)
    number = next(n for n, text in enumerate(found, start=1) if "Look at it." in text)
    assert plain(f"Caused in Wash, step 2, page {number}") in text_of(pdf)


def test_each_picture_carries_its_words_at_its_step(pdf: bytes) -> None:
    alts = [e["/Alt"] for e in elements(pdf) if e["/S"] == "/Figure"]
    wanted = ["Grasses at low tide", "A tray of water", "The wet print", "The dry print", "A still of the wash"]
    assert [alt for alt in alts if alt in wanted] == wanted
    assert "QR code of https://mill.example/sheets/index.html#IB-07.3" in alts


def test_a_pair_stands_side_by_side(pdf: bytes) -> None:
    (before,) = [found for found in placed(pdf) if found[0].strip() == "Before"]
    (after,) = [found for found in placed(pdf) if found[0].strip() == "After"]
    assert before[2] == pytest.approx(after[2])


def test_no_word_of_a_pictures_metadata_is_in_the_file(pdf: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    images = [image.data for page in reader.pages for image in page.images]
    assert len(images) >= 5
    assert not [content for content in (pdf, *images) if b"hidden" in content or b"Exif" in content]


def test_every_page_has_code_revision_title_and_number(data: BookletData, pdf: bytes) -> None:
    found = pages(pdf)
    assert len(found) > 2
    for number, text in enumerate(found, start=1):
        foot = plain(text).replace(plain(data.sheet.address), "")
        assert plain(f"IB-07 · revision 3 · Blue print page {number} of {len(found)}") in foot


# ISO 216 A4 is 210 × 297 mm, ANSI A is 8.5 × 11 in; a point is 1/72 in.
@pytest.mark.parametrize(("paper", "width", "height"), [("a4", 210 / 25.4 * 72, 297 / 25.4 * 72), ("letter", 612, 792)])
def test_the_page_is_as_large_as_the_paper(
    paper: Any, width: float, height: float, data: BookletData, pictures: Pictures
) -> None:
    for page in pypdf.PdfReader(io.BytesIO(booklet_pdf(data, paper, THEME.print, pictures))).pages:
        assert float(page.mediabox.width) == pytest.approx(width, abs=0.01)
        assert float(page.mediabox.height) == pytest.approx(height, abs=0.01)


def test_steps_are_set_in_twelve_points_or_more(data: BookletData, pdf: bytes) -> None:
    words = {word for stage in data.stages for step in stage.steps for word in said(step.do).split()}
    sizes = {text.strip(): size for text, size, _ in placed(pdf)}
    told = [size for text, size in sizes.items() if len(text.split()) > 2 and set(text.split()) <= words]
    assert told
    assert min(told) >= 12


def test_a_stage_never_begins_at_the_foot_of_a_page(data: BookletData, pictures: Pictures) -> None:
    """However much stands before it: its heading goes to the next page with its first step, whole."""
    long = replace(data.stages[1].steps[0], do=words_of(*(f"w{n}" for n in range(90)), "end."))
    work = replace(data.stages[1], title="Headed", light="Lamp", steps=(long,))
    for needs in range(2, 40, 3):
        sheet = replace(
            data.sheet, needs=tuple(f"Thing {n}" for n in range(needs)), batches=(), preflights=(), layers=()
        )
        some = replace(data, sheet=sheet, stages=(work,), troubles=())
        found = [plain(text) for text in pages(booklet_pdf(some, "a4", THEME.print, pictures))]
        (headed,) = [text for text in found if "1.HeadedLightLamp" in text]
        assert "w0w1" in headed
        assert "w89end." in headed


def test_what_closes_a_stage_stands_with_its_last_step(data: BookletData, pictures: Pictures) -> None:
    """However much stands before it: nobody ticks off a stage whose end lies overleaf."""
    steps = tuple(
        replace(data.stages[1].steps[0], do=words_of(f"s{n}begins", "and"), picture=None, remarks=()) for n in range(12)
    )
    work = replace(data.stages[0], steps=steps, card=0)
    for needs in range(2, 40, 3):
        sheet = replace(
            data.sheet, needs=tuple(f"Thing {n}" for n in range(needs)), batches=(), preflights=(), layers=()
        )
        some = replace(data, sheet=sheet, stages=(work,), troubles=())
        found = pages(booklet_pdf(some, "a4", THEME.print, pictures))
        (closed,) = [text for text in found if "The coating is dry." in text]
        assert "s11begins" in closed


def test_the_steps_of_a_stage_count_on_where_its_last_one_is_a_list_of_its_own(
    data: BookletData, pictures: Pictures
) -> None:
    step = replace(data.stages[1].steps[0], picture=None, remarks=())
    work = replace(data.stages[0], steps=tuple(replace(step, do=words_of(f"s{n}begins")) for n in (1, 2, 3)), card=0)
    text = text_of(booklet_pdf(replace(data, stages=(work,), troubles=()), "a4", THEME.print, pictures))
    for n in (1, 2, 3):
        assert f"{n}s{n}begins" in text


def test_an_address_of_a_claim_is_printed_short_and_leads_there_whole(data: BookletData, pictures: Pictures) -> None:
    long = "https://mill.example/" + "a" * 90
    claims = (
        ("Green.", "A book", "https://doi.org/10.1098/rstl.1842.0013", "doi.org/10.1098/rstl.1842.0013"),
        ("Brown.", "A page", long, "mill.example/…"),
        ("Both.", "A printer", "", ""),
    )
    content = booklet_pdf(
        replace(data, disputes=(BookletDispute(about="Salt", claims=claims, here=""),)), "a4", THEME.print, pictures
    )
    text = text_of(content)
    for words in ("Green. (A book, doi.org/10.1098/rstl.1842.0013)", "(A page, mill.example/…)", "Both. (A printer)"):
        assert plain(words) in text
    ways = [
        note.get_object().get("/A", {}).get("/URI")
        for page in pypdf.PdfReader(io.BytesIO(content)).pages
        for note in page.get("/Annots", ())
    ]
    assert long in ways


def words_of(*words: str) -> tuple[Node, ...]:
    return (Node(kind="paragraph", nodes=(Node(kind="text", text=" ".join(words)),)),)


HOSTILE = r'#eval("1+1") $x^2$ *a* _b_ @ref <label> \ [x] `y` // z /* q */ = h #{panic()} ]] "'


def test_nothing_an_author_types_is_run_as_markup(data: BookletData, pictures: Pictures) -> None:
    assert data.opening
    shown = replace(data.opening, alt=HOSTILE, caption=HOSTILE)
    step = replace(
        data.stages[1].steps[1], do=words_of(HOSTILE), remarks=(("Take care", HOSTILE),), pair=(shown, shown)
    )
    assert step.moving
    step = replace(step, moving=replace(step.moving, title=HOSTILE, address=HOSTILE, marks=((HOSTILE, HOSTILE),)))
    cause = replace(data.troubles[0].causes[0], cause=HOSTILE, facts=((HOSTILE, HOSTILE),), place=HOSTILE)
    hostile = replace(
        data,
        edition=HOSTILE,
        takes=HOSTILE,
        about=words_of(HOSTILE),
        opening=shown,
        stages=(replace(data.stages[0], title=HOSTILE, layer=HOSTILE), replace(data.stages[1], steps=(step, step))),
        troubles=(replace(data.troubles[0], symptom=HOSTILE, seen=HOSTILE, causes=(cause, cause)),),
    )
    content = booklet_pdf(hostile, "a4", THEME.print, pictures)
    assert text_of(content).count(plain(HOSTILE)) >= 24
    assert [e["/Alt"] for e in elements(content) if e["/S"] == "/Figure"].count(HOSTILE) == 5


def test_a_character_that_no_font_holds_is_boxed_and_named(data: BookletData, pictures: Pictures) -> None:
    odd = replace(data, about=words_of("Blue 漢 😀"))
    text = text_of(booklet_pdf(odd, "a4", THEME.print, pictures))
    assert plain("Blue ▯ ▯") in text
    assert plain("U+6F22, U+1F600") in text


def test_a_picture_of_any_file_name_is_found(data: BookletData, pictures: Pictures) -> None:
    assert data.opening
    odd = "a b/ä#'\"(1).png"
    named: Mapping[str, Any] = {**pictures, odd: pictures["opening.png"]}
    content = booklet_pdf(replace(data, opening=replace(data.opening, source=odd)), "a4", THEME.print, named)
    assert "Grasses at low tide" in [e.get("/Alt") for e in elements(content)]


def test_equal_data_gives_equal_bytes(data: BookletData, pictures: Pictures, pdf: bytes) -> None:
    booklet_pdf(replace(data, takes="5 h"), "letter", THEME.print, pictures)
    assert booklet_pdf(data, "a4", THEME.print, pictures) == pdf


def test_the_file_says_its_title_author_language_and_date(pdf: bytes) -> None:
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    assert reader.metadata is not None
    assert reader.metadata.title == "IB-07 Blue print"
    assert reader.metadata.author == "The studio at the mill"
    assert reader.metadata.creation_date is not None
    assert reader.metadata.creation_date.date().isoformat() == "2026-03-02"
    assert reader.trailer["/Root"]["/Lang"] == "en-GB"


def test_a_recipe_without_stages_has_a_sheet_and_no_booklet(computed: Computed, pictures: Pictures) -> None:
    found = list(booklets(computed, THEME, "public", pictures))
    assert [p.path for p in found] == ["recipes/blue/booklet-a4.pdf", "recipes/blue/booklet-letter.pdf"]


def test_a_step_longer_than_a_page_does_not_run_off_the_paper(data: BookletData, pictures: Pictures) -> None:
    step = replace(data.stages[1].steps[0], do=words_of(*(f"w{n}" for n in range(3000))))
    content = booklet_pdf(
        replace(data, stages=(replace(data.stages[1], steps=(step,)),), troubles=()), "a4", THEME.print, pictures
    )
    assert all(0 < height < 297 / 25.4 * 72 for _, __, height in placed(content))
    assert "w2999" in text_of(content)


def test_pictures_of_every_kind_are_set_small_and_whole(data: BookletData) -> None:
    large = {
        "jpeg": photograph("JPEG", (3000, 2000)),
        "webp": photograph("WEBP", (1500, 1000)),
        "png": photograph("PNG", (1500, 1000)),
    }
    base = data.stages[1].steps[0]
    assert base.picture
    for kind, content in large.items():
        name = f"large.{kind}"
        step = replace(base, picture=replace(base.picture, source=name))
        one = replace(data, opening=None, stages=(replace(data.stages[1], steps=(step,)),), troubles=())
        made = booklet_pdf(one, "a4", THEME.print, {name: published(content, name)})
        (image,) = [image for page in pypdf.PdfReader(io.BytesIO(made)).pages for image in page.images]
        assert Image.open(io.BytesIO(image.data)).size == (1200, 800), kind
        assert len(image.data) < 120_000, kind


def test_what_shines_through_is_set_on_white() -> None:
    out = io.BytesIO()
    clear = Image.new("RGBA", (300, 200), (255, 0, 0, 0))
    clear.paste(Image.radial_gradient("L").convert("RGBA"), (0, 0))
    clear.save(out, "WEBP", lossless=True)
    from_svg = printed_picture(published(out.getvalue(), "clear.webp"))
    data = base64.b64decode(from_svg.partition(b"base64,")[2].partition(b'"')[0])
    corner = Image.open(io.BytesIO(data)).getpixel((295, 195))
    assert isinstance(corner, tuple)
    assert min(corner) > 250
