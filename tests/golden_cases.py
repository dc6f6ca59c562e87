"""Golden cases: folders of faulty files, each with a mark on the faulty line and the full text expected.

A case holds `recipe.yaml`, `archive.yaml` or `substance.yaml`, with what else it needs under its place
in an archive; `_shelf` holds a sound archive to put them in. A case of one file replaces that file.
"""

import re
from dataclasses import dataclass
from pathlib import Path

from sitegen.check import check_archive
from sitegen.model.archive import Archive
from sitegen.problems import Problem, Problems
from sitegen.read import compose_sources

ROOT = Path(__file__).parent / "golden"
SHELF = ROOT / "_shelf"
MARK = re.compile(r"#! ([a-z0-9-]+)")
_PLACES = {"recipe.yaml": "recipes/recipe.yaml", "substance.yaml": "substances/substance.yaml"}


def sound() -> dict[str, str]:
    """A small archive without any problem."""
    texts = {f"base/{card.name}": _read(card) for card in SHELF.glob("*.yaml")}
    texts["archive.yaml"] = texts.pop("base/archive.yaml")
    texts["recipes/recipe.yaml"] = texts.pop("base/recipe.yaml")
    return texts


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A case's own files, by their place in the archive."""

    folder: Path
    own: dict[str, str]
    pictures: frozenset[str]

    @property
    def texts(self) -> dict[str, str]:
        """The whole archive with the case in it."""
        return sound() | self.own


def cases() -> list[Case]:
    """All cases that are texts; those that need a folder on a disk are in tests/read."""
    found = []
    for folder in sorted(ROOT.iterdir()):
        files = sorted(folder.rglob("*.yaml"))
        if folder == SHELF or not files:
            continue
        names = {file: file.relative_to(folder).as_posix() for file in files}
        own = {_PLACES.get(name, name): _read(file) for file, name in names.items()}
        listed = folder / "pictures.txt"
        pictures = frozenset(_read(listed).split()) if listed.exists() else frozenset()
        found.append(Case(folder=folder, own=own, pictures=pictures))
    return found


def run(texts: dict[str, str], pictures: frozenset[str] = frozenset()) -> tuple[Archive | None, tuple[Problem, ...]]:
    """Compose and check texts; the archive and its problems in order."""
    problems = Problems()
    sources = compose_sources(texts, problems, pictures=pictures)
    return check_archive(sources, problems), problems.in_order()


def _read(path: Path) -> str:
    return path.read_bytes().decode("utf-8")
