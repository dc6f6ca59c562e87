"""A build is replaced whole or not at all."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from sitegen.render.page import Page
from sitegen.write import WriteError, write_edition
from sitegen.write.single import write_new, write_several, write_single


def page(path: str, text: str = "x") -> Page:
    return Page(path=path, content=text.encode())


GOOD = (page("archive.json", "{}"), page("index.html", "old"), page("recipes/a/index.html"))


def files(folder: Path) -> dict[str, str]:
    return {p.relative_to(folder).as_posix(): p.read_text() for p in folder.rglob("*") if p.is_file()}


def test_writes_every_page_and_leaves_nothing_else(tmp_path: Path) -> None:
    assert write_edition(GOOD, tmp_path / "out" / "public") == 3
    assert set(files(tmp_path / "out")) == {f"public/{p.path}" for p in GOOD}


def test_a_second_build_takes_away_what_is_gone(tmp_path: Path) -> None:
    write_edition(GOOD, tmp_path / "public")
    write_edition((page("archive.json"), page("index.html", "new")), tmp_path / "public")
    assert files(tmp_path) == {"public/archive.json": "x", "public/index.html": "new"}


def test_a_failure_while_pages_are_made_keeps_the_old_build(tmp_path: Path) -> None:
    def broken() -> Iterator[Page]:
        yield page("archive.json")
        raise RuntimeError("half way")

    write_edition(GOOD, tmp_path / "public")
    before = files(tmp_path)
    with pytest.raises(RuntimeError, match="half way"):
        write_edition(broken(), tmp_path / "public")
    assert files(tmp_path) == before


def test_a_full_disk_keeps_the_old_build(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    write_edition(GOOD, tmp_path / "public")
    before = files(tmp_path)

    def full(self: Path, data: bytes) -> int:
        raise OSError(28, "No space left on device", str(self))

    monkeypatch.setattr(Path, "write_bytes", full)
    with pytest.raises(WriteError, match="no space left on device"):
        write_edition(GOOD, tmp_path / "public")
    assert files(tmp_path) == before


def test_never_replaces_a_folder_that_is_not_a_build(tmp_path: Path) -> None:
    mine = tmp_path / "public"
    mine.mkdir()
    (mine / "letters.txt").write_text("mine")
    with pytest.raises(WriteError, match="not a build of ours"):
        write_edition(GOOD, mine)
    assert files(tmp_path) == {"public/letters.txt": "mine"}


def test_leftovers_of_an_interrupted_build_do_not_stand_in_the_way(tmp_path: Path) -> None:
    (tmp_path / ".public.new").mkdir()
    (tmp_path / ".public.new" / "half.html").write_text("half")
    write_edition(GOOD, tmp_path / "public")
    assert set(files(tmp_path)) == {f"public/{p.path}" for p in GOOD}


def test_no_page_is_written_outside_the_build(tmp_path: Path) -> None:
    with pytest.raises(WriteError, match="outside the build"):
        write_edition((page("../../evil.html"),), tmp_path / "deep" / "public")
    assert not (tmp_path / "evil.html").exists()


def test_one_file_is_written_whole(tmp_path: Path) -> None:
    write_single(tmp_path / "sheet.pdf", b"%PDF")
    assert files(tmp_path) == {"sheet.pdf": "%PDF"}


def test_one_file_into_a_folder_that_is_not_there_says_so(tmp_path: Path) -> None:
    with pytest.raises(WriteError, match="no such file"):
        write_single(tmp_path / "nowhere" / "sheet.pdf", b"%PDF")


def test_a_new_archive_fills_an_empty_folder(tmp_path: Path) -> None:
    (tmp_path / "mine").mkdir()
    assert write_new(tmp_path / "mine", {"archive.yaml": b"a", "recipes/b.yaml": b"b"}) == 2
    assert files(tmp_path) == {"mine/archive.yaml": "a", "mine/recipes/b.yaml": "b"}


def test_a_place_that_refuses_even_the_clearing_up_gives_the_first_reason(tmp_path: Path) -> None:
    (tmp_path / "journal").write_text("a file where a folder should be", encoding="utf-8")
    with pytest.raises(WriteError):
        write_single(tmp_path / "journal/sheet.pdf", b"x")
    with pytest.raises(WriteError):
        write_several({tmp_path / "journal/2026-11-28-blue.yaml": b"x"})
    assert files(tmp_path) == {"journal": "a file where a folder should be"}
