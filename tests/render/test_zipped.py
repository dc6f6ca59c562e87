"""Zip files that come out the same every time."""

import io
import zipfile

from sitegen.render.page import Page
from sitegen.render.zipped import zipped

PAGES = (
    Page(path="mimetype", content=b"application/epub+zip"),
    Page(path="a/page.html", content=b"words " * 100),
    Page(path="a/picture.png", content=b"\x89PNG"),
)


def test_equal_pages_give_equal_bytes() -> None:
    assert zipped(PAGES) == zipped(PAGES)


def test_order_dates_and_rights_are_fixed() -> None:
    infos = zipfile.ZipFile(io.BytesIO(zipped(PAGES))).infolist()
    assert [info.filename for info in infos] == [page.path for page in PAGES]
    assert {info.date_time for info in infos} == {(1980, 1, 1, 0, 0, 0)}
    assert {(info.create_system, info.external_attr >> 16) for info in infos} == {(3, 0o644)}


def test_texts_are_packed_and_what_is_packed_already_is_not() -> None:
    kinds = [info.compress_type for info in zipfile.ZipFile(io.BytesIO(zipped(PAGES))).infolist()]
    assert kinds == [zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED, zipfile.ZIP_STORED]


def test_the_mark_of_an_epub_stands_bare_at_its_fixed_place() -> None:
    # EPUB 3.3, OCF ZIP container: file name at byte 30, content at byte 38, no extra field.
    packed = zipped(PAGES)
    assert packed[30:38] == b"mimetype"
    assert packed[38:58] == b"application/epub+zip"


def test_it_opens_again_whole() -> None:
    packed = zipfile.ZipFile(io.BytesIO(zipped(PAGES)))
    assert packed.testzip() is None
    assert {name: packed.read(name) for name in packed.namelist()} == {p.path: p.content for p in PAGES}
