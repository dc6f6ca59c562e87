"""Postcards: read back from the PDF as a reader and a screen reader find them."""

import io
from dataclasses import replace
from pathlib import Path
from typing import Any

import pdfua
import pypdf
import pytest
from PIL import Image

from sitegen.model.archive import Archive
from sitegen.problems import Refusal
from sitegen.read.theme import Theme
from sitegen.render.announce import Post, post
from sitegen.render.pictures import Pictures, published
from sitegen.render.postcard import SIZES, Size, postcard_pdf

INCH = 72


@pytest.fixture(scope="module")
def pictures() -> Pictures:
    """The one picture of the recipe."""
    out = io.BytesIO()
    Image.new("RGB", (300, 200), "navy").save(out, format="PNG")
    return {"grass.png": published(out.getvalue(), "grass.png")}


@pytest.fixture
def said(archive: Archive) -> Post:
    """The post that the card is made of."""
    seen = archive.edition("public")
    return post(seen, seen.recipe_named["blue"], None, teaser="Come and see.", pictured=True)


def page_of(content: bytes) -> pypdf.PageObject:
    read = pypdf.PdfReader(io.BytesIO(content))
    assert len(read.pages) == 1
    return read.pages[0]


@pytest.mark.parametrize(("size", "sides"), [("a6", (105 / 25.4, 148 / 25.4)), ("4x6", (4, 6))])
def test_it_is_one_page_of_its_size_with_picture_and_words(
    said: Post, theme: Theme, pictures: Pictures, size: Size, sides: tuple[float, float]
) -> None:
    page = page_of(postcard_pdf(said, size, theme, pictures))
    assert abs(float(page.mediabox.width) - sides[0] * INCH) < 0.1
    assert abs(float(page.mediabox.height) - sides[1] * INCH) < 0.1
    text = page.extract_text()
    assert "IB-01" in text
    assert "Come and see." in text
    assert "Read the hazards first" in text
    assert len(page.images) == 1


@pytest.mark.parametrize("size", SIZES)
def test_it_is_a_tagged_pdf(said: Post, theme: Theme, pictures: Pictures, size: Size, tmp_path: Path) -> None:
    (tmp_path / "card.pdf").write_bytes(postcard_pdf(said, size, theme, pictures))
    assert pdfua.validate(str(tmp_path / "card.pdf")).findings == ()


def told_aloud(content: bytes) -> list[str]:
    """What a screen reader says in a picture's place."""
    found: list[str] = []

    def below(node: Any) -> None:
        node = node.get_object()
        kids = node.get("/K", []) if isinstance(node, pypdf.generic.DictionaryObject) else []
        found.extend([str(node["/Alt"])] if isinstance(node, pypdf.generic.DictionaryObject) and "/Alt" in node else [])
        for kid in kids if isinstance(kids, list) else [kids]:
            below(kid)

    below(pypdf.PdfReader(io.BytesIO(content)).trailer["/Root"]["/StructTreeRoot"])
    return found


def test_picture_and_code_are_told_in_words(said: Post, theme: Theme, pictures: Pictures) -> None:
    # That the code reads as its address is tested with the sheets, which draw it alike.
    assert told_aloud(postcard_pdf(said, "a6", theme, pictures)) == [
        "Grasses in white on blue",
        "QR code of https://mill.example/recipes/blue/index.html",
    ]


def test_building_again_gives_the_same_bytes(said: Post, theme: Theme, pictures: Pictures) -> None:
    assert postcard_pdf(said, "a6", theme, pictures) == postcard_pdf(said, "a6", theme, pictures)


def test_without_address_or_picture_there_is_still_a_card(said: Post, theme: Theme, pictures: Pictures) -> None:
    page = page_of(postcard_pdf(replace(said, address="", picture=None), "a6", theme, pictures))
    assert "Come and see." in page.extract_text()
    assert len(page.images) == 0


def test_more_words_are_set_smaller_and_still_fit(said: Post, theme: Theme, pictures: Pictures) -> None:
    page = page_of(postcard_pdf(replace(said, text="Some more words. " * 20), "a6", theme, pictures))
    assert " ".join(page.extract_text().split()).count("Some more words") == 20


def test_the_gravest_hazard_and_a_usual_caution_stand_on_it_in_the_authors_and_our_own_words(
    said: Post, theme: Theme, pictures: Pictures
) -> None:
    assert said.cautions[0] == "Never add acid <b>to it</b>."
    text = " ".join(page_of(postcard_pdf(said, "a6", theme, pictures)).extract_text().split())
    for line in said.cautions:
        assert line in text
    assert len(said.cautions) == 2
    assert text.index("Come and see.") < text.index("Never add acid") < text.index("Read the hazards first")


def test_a_caution_that_does_not_fit_is_left_out_whole_and_the_words_stay(
    said: Post, theme: Theme, pictures: Pictures
) -> None:
    long = replace(said, cautions=("Never boil it.", "Far too much of a caution. " * 60))
    text = page_of(postcard_pdf(long, "a6", theme, pictures)).extract_text()
    assert "Never boil it." in text
    assert "Far too much" not in text
    assert "Come and see." in text


def test_too_many_words_are_refused_never_cut(said: Post, theme: Theme, pictures: Pictures) -> None:
    with pytest.raises(Refusal, match="do not fit") as refused:
        postcard_pdf(replace(said, text="Far too many words. " * 100), "a6", theme, pictures)
    assert "shorter `teaser`" in refused.value.help
