"""A preview keeps pages from save to save: after any edit its files are those of a fresh compile, byte for byte."""

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image

from sitegen.cli.building import prepare
from sitegen.cli.preview import Desk
from sitegen.cli.shell import this_day
from sitegen.read.theme import read_theme
from sitegen.render.edition import edition_pages, editions
from sitegen.render.manifest import with_manifest

CONTENT = Path(__file__).parents[2] / "content"
GONE = "recipes/onion-skin-dye.yaml"

Edit = Callable[[Path], None]


def saying(path: str, old: str, new: str) -> Edit:
    def edit(folder: Path) -> None:
        text = (folder / path).read_text(encoding="utf-8")
        assert old in text, f"{path} no longer holds {old!r}"
        (folder / path).write_text(text.replace(old, new, 1), encoding="utf-8")

    return edit


def another_picture(folder: Path) -> None:
    Image.new("RGB", (640, 400), "navy").save(folder / "images" / "grass-print.png")


def restored(folder: Path) -> None:
    shutil.copy(CONTENT / GONE, folder / GONE)


EDITS: dict[str, Edit] = {
    "nothing": lambda _: None,
    "an amount": saying("recipes/gall-ink.yaml", "amount: 4 g", "amount: 4.2 g"),
    "a card's hazard": saying("substances/clove.yaml", "groups: [phenol]", "groups: [phenol, aldehyde]"),
    "a title that other recipes show": saying("recipes/iron-blue.yaml", "title: Iron-blue print", "title: Tide blue"),
    "a shared trouble": saying("troubles/weak-blacks.yaml", "two to three stops too dark", "three stops too dark"),
    "how a stock is stored": saying("recipes/stocks.yaml", "Any clean, closed bottle", "Any clean bottle, closed"),
    "a recipe is deleted": lambda folder: (folder / GONE).unlink(),
    "the settings": saying("archive.yaml", "title: ", "title: The other "),
    "a trial": saying("journal/2026-11-21-half-bath-left-out.yaml", "title: The half-bath left out", "title: Left out"),
    "a picture": another_picture,
    "the recipe is back": restored,
    "the title is back": saying("recipes/iron-blue.yaml", "title: Tide blue", "title: Iron-blue print"),
}


def written(desk: Desk) -> dict[str, bytes]:
    root = desk.out / desk.edition
    return {path.relative_to(root).as_posix(): path.read_bytes() for path in root.rglob("*") if path.is_file()}


def fresh(folder: Path) -> dict[str, bytes]:
    """The last edition's files, compiled with nothing kept."""
    ready = prepare(folder, this_day())
    assert ready.loaded.archive
    edition = editions(ready.loaded.archive, this_day())[-1]
    return {p.path: p.content for p in with_manifest(edition_pages(edition, read_theme(), ready.pictures))}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    shutil.copytree(CONTENT, tmp_path / "mine")
    return Desk(folder=tmp_path / "mine", out=tmp_path / "out")


def test_after_every_edit_the_files_are_those_of_a_fresh_compile(desk: Desk) -> None:
    last: dict[str, bytes] = {}
    for name, edit in EDITS.items():
        edit(desk.folder)
        desk.rebuild()
        assert not desk.broken, f"{name}: {[p.message for p in desk.problems if p.level == 'error']}"
        now, wanted = written(desk), fresh(desk.folder)
        assert now.keys() == wanted.keys(), name
        assert [path for path in now if now[path] != wanted[path]] == [], name
        assert now != last or name == "nothing", f"{name} changed nothing: it proves nothing"
        last = now
