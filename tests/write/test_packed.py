"""A zip is written whole or not at all."""

import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from sitegen.render.page import Page
from sitegen.write import WriteError
from sitegen.write.packed import write_zip

PAGES = (Page(path="start.html", content=b"old"),)


def test_writes_every_page_and_leaves_nothing_else(tmp_path: Path) -> None:
    assert write_zip(tmp_path / "b.zip", PAGES) == 1
    assert [p.name for p in tmp_path.iterdir()] == ["b.zip"]
    assert zipfile.ZipFile(tmp_path / "b.zip").read("start.html") == b"old"


def test_a_failure_while_pages_are_made_keeps_the_old_file(tmp_path: Path) -> None:
    def broken() -> Iterator[Page]:
        yield PAGES[0]
        raise RuntimeError("half way")

    write_zip(tmp_path / "b.zip", PAGES)
    before = (tmp_path / "b.zip").read_bytes()
    with pytest.raises(RuntimeError, match="half way"):
        write_zip(tmp_path / "b.zip", broken())
    assert (tmp_path / "b.zip").read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["b.zip"]


def test_a_full_disk_keeps_the_old_file(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_zip(tmp_path / "b.zip", PAGES)
    before = (tmp_path / "b.zip").read_bytes()

    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(zipfile.ZipFile, "writestr", full)
    with pytest.raises(WriteError, match="no space left on device"):
        write_zip(tmp_path / "b.zip", (Page(path="start.html", content=b"new"),))
    assert (tmp_path / "b.zip").read_bytes() == before
    assert [p.name for p in tmp_path.iterdir()] == ["b.zip"]


def test_a_folder_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(WriteError, match="no such file or directory"):
        write_zip(tmp_path / "nowhere" / "b.zip", PAGES)
