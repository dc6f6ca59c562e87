"""What lies in a bundle."""

import io
from collections.abc import Iterator

import pytest
from bs4 import BeautifulSoup
from PIL import Image

from sitegen.compute.whole import compute
from sitegen.model.archive import Archive, Settings
from sitegen.problems import Problems, Refusal
from sitegen.read.theme import Theme
from sitegen.render.bundle import bundle, bundle_name, edition_named
from sitegen.render.edition import Edition, editions
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures, published


@pytest.fixture(scope="module")
def pictures() -> Pictures:
    """Every picture of the small archive."""
    out = io.BytesIO()
    Image.new("RGB", (30, 20), "navy").save(out, format="PNG")
    return {name: published(out.getvalue(), name) for name in ("grass.png", "coat.png", "plantedfile.png")}


def edition_of(archive: Archive, name: str) -> Edition:
    return Edition(name=name, computed=compute(archive.edition(name), Problems()))


@pytest.fixture(scope="module")
def files(archive: Archive, theme: Theme, pictures: Pictures) -> dict[str, bytes]:
    """The public bundle by path."""
    return {page.path: page.content for page in bundle(edition_of(archive, "public"), theme, pictures, "a4")}


ROOT = "the-mill-script-alert-title-script-public"


def test_everything_lies_in_one_folder_named_after_archive_and_edition(
    archive: Archive, files: dict[str, bytes]
) -> None:
    assert bundle_name(archive, "public") == ROOT
    assert {path.partition("/")[0] for path in files} == {ROOT}


def test_every_link_of_the_start_page_leads_to_a_file(files: dict[str, bytes]) -> None:
    page = BeautifulSoup(files[f"{ROOT}/start.html"], "html.parser")
    ways = [str(link["href"]) for link in page.find_all(["a", "link"])]
    assert {f"{ROOT}/{way}" for way in ways} <= set(files)
    assert {"archive/index.html", "sheets.pdf", "contents.pdf", f"{ROOT}.epub"} <= set(ways)


def test_the_start_page_names_the_booklet_of_every_recipe_that_has_one(files: dict[str, bytes]) -> None:
    page = BeautifulSoup(files[f"{ROOT}/start.html"], "html.parser")
    named = {str(link["href"]) for link in page.find_all("a") if "booklet" in str(link["href"])}
    assert named
    assert {f"{ROOT}/{way}" for way in named} == {path for path in files if path.endswith("booklet-a4.pdf")}


def test_nothing_of_a_higher_edition_is_in_it(files: dict[str, bytes]) -> None:
    assert not [path for path, content in files.items() if "planted" in path or b"Plantedsummary" in content]


def test_it_begins_with_the_start_page_and_is_the_same_every_time(
    archive: Archive, theme: Theme, pictures: Pictures, files: dict[str, bytes]
) -> None:
    again: Iterator[Page] = bundle(edition_of(archive, "public"), theme, pictures, "a4")
    assert [(page.path, page.content) for page in again] == list(files.items())
    assert next(iter(files)) == f"{ROOT}/start.html"


def test_an_unknown_edition_is_refused_with_the_near_one(archive: Archive) -> None:
    with pytest.raises(Refusal, match="no edition `suporters`") as refused:
        edition_named(editions(archive), "suporters")
    assert "`supporters`" in refused.value.help


def test_an_edition_without_recipes_is_refused() -> None:
    empty = Archive(settings=Settings(title="Mill"), recipes=(), substances=())
    with pytest.raises(Refusal, match="holds no recipe"):
        edition_named(editions(empty), "public")
