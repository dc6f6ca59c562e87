"""Reading a folder: the only place where an archive's files are opened.

Whatever the operating system reports becomes a problem that names the file.
"""

import re
from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from typing import Final

from sitegen.problems import Problem, Problems, Span
from sitegen.read.sources import SETTINGS, Sources, compose_sources

MAX_BYTES: Final = 1_000_000
"""Of one text file: a long recipe holds some 15,000."""

_FOLDERS: Final = ("recipes", "substances", "troubles", "disputes", "journal")

# By which field does one tell what a file is, wherever it was saved? The folder it belongs in.
_TELLS: Final = {
    "mixtures": "recipes",
    "state": "substances",
    "symptom": "troubles",
    "claims": "disputes",
    "verdict": "journal",
}
_FIELD: Final = re.compile(rf"^({'|'.join(_TELLS)})[ \t]*:", re.MULTILINE)


def read_folder(folder: Path, problems: Problems) -> Sources:
    """Everything an archive's folder holds, composed; problems for what cannot be read."""
    texts = base_cards()
    if not folder.is_dir():
        problems.add(
            Problem(
                code="folder-missing",
                at=Span(file=str(folder)),
                message=f"there is no folder `{folder}`",
                help="name the folder that holds archive.yaml, or start a new one: `trayside start DIR`",
            )
        )
        return compose_sources(texts, problems)
    reader = _Reader(root=folder.resolve(), problems=problems)
    if (folder / SETTINGS).exists() or (folder / SETTINGS).is_symlink():
        reader.text(folder / SETTINGS)
    else:
        problems.add(
            Problem(
                code="archive-missing",
                at=Span(file=SETTINGS),
                message=f"there is no archive.yaml in `{folder}`",
                help="name the folder that holds it, or make a new archive with `trayside start DIR`",
            )
        )
    reader.strays(folder)
    for name in _FOLDERS:
        reader.cards(folder / name)
    pictures = reader.pictures(folder / "images")
    return compose_sources(texts | reader.texts, problems, pictures=pictures, unreadable=frozenset(reader.unreadable))


def base_cards() -> dict[str, str]:
    """The built-in substance cards, as `base/<id>.yaml`."""
    shelf = files("sitegen").joinpath("data", "substances")
    if not shelf.is_dir():
        return {}
    cards = sorted((card for card in shelf.iterdir() if card.name.endswith(".yaml")), key=lambda c: c.name)
    return {f"base/{card.name}": card.read_text(encoding="utf-8") for card in cards}


@dataclass(slots=True)
class _Reader:
    """Reads below `root`, which is resolved; collects texts and what could not be read."""

    root: Path
    problems: Problems
    texts: dict[str, str] = field(default_factory=dict)
    unreadable: set[str] = field(default_factory=set)

    def cards(self, folder: Path) -> None:
        """The YAML files of one folder; folders below it are not read, which is said."""
        for path in self._listed(folder):
            if not path.is_dir() and self._ends_wrongly(path):
                plain = path.name.partition(".")[0]
                self._refuse(path, "file-ending", f"`{path.name}` is not read", f"rename it to `{plain}.yaml`")
            elif path.is_dir() and any(self._yaml_below(path)):
                self._refuse(
                    path,
                    "folder-too-deep",
                    f"the files in the folder `{path.name}` are not read",
                    f"move them up into `{folder.name}`",
                )
            elif path.suffix == ".yaml" and not path.is_dir():
                self.text(path)
                self._belongs_here(path)

    def strays(self, root: Path) -> None:
        """Recipes and their like that were saved beside the folders instead of into one, and folders in capitals."""
        for path in self._listed(root):
            if path.is_dir():
                name = path.name.casefold()
                if name in (*_FOLDERS, "images") and name != path.name and not _same_folder(root / name, path):
                    self._refuse(path, "folder-name", f"the folder `{path.name}` is not read", f"rename it to `{name}`")
            elif path.name != SETTINGS and path.suffix.casefold() in (".yaml", ".yml") and (home := _home(path)):
                self._astray(path, home)

    def _ends_wrongly(self, path: Path) -> bool:
        """Whether an author meant it to be read: editors add `.txt`, cameras and old systems write capitals."""
        endings = [suffix.casefold() for suffix in path.suffixes]
        if path.suffix == ".yaml":
            return False
        return endings[-1:] in ([".yaml"], [".yml"]) or (endings[-1:] == [".txt"] and _home(path) != "")

    def _belongs_here(self, path: Path) -> None:
        """Say once that a file lies in another's folder, instead of that each of its fields is unknown."""
        name = f"{path.parent.name}/{path.name}"
        told = {_TELLS[field] for field in _FIELD.findall(self.texts.get(name, ""))}
        if told and path.parent.name not in told:
            del self.texts[name]
            self._astray(path, min(told, key=_FOLDERS.index))

    def pictures(self, folder: Path) -> frozenset[str]:
        """Paths of all files below `images/`."""
        found: set[str] = set()
        waiting = [folder]
        while waiting:
            for path in self._listed(waiting.pop()):
                if not self._inside(path):
                    continue
                if path.is_dir() and not path.is_symlink():
                    waiting.append(path)
                elif path.is_file():
                    found.add(path.relative_to(folder).as_posix())
        return frozenset(found)

    def text(self, path: Path) -> None:
        """Read one file as UTF-8; a byte order mark at its start is dropped."""
        name = path.relative_to(path.parent if path.name == SETTINGS else path.parent.parent).as_posix()
        if not self._inside(path):
            self.unreadable.add(name)
            return
        if path.exists() and not path.is_file():
            # Reading a pipe would wait for ever.
            self._refuse(path, "file-not-read", f"`{name}` is not a file", "move it out of the archive")
            return
        try:
            raw = None if path.stat().st_size > MAX_BYTES else path.read_bytes()
        except OSError as error:
            reason = (error.strerror or "it cannot be opened").casefold()
            self._refuse(
                path,
                "file-not-read",
                f"`{name}` cannot be read: {reason}",
                "check the file and its permissions",
            )
            return
        if raw is None:
            self._refuse(path, "file-too-big", f"`{name}` is over {MAX_BYTES} bytes", "split it into several files")
            return
        try:
            self.texts[name] = raw.decode("utf-8-sig")
        except UnicodeDecodeError as error:
            self.unreadable.add(name)
            self.problems.add(_not_utf8(raw, error.start, name))

    def _listed(self, folder: Path) -> list[Path]:
        """Sorted entries, without hidden and backup files; none when there is no such folder."""
        try:
            found = sorted(path.name for path in folder.iterdir()) if folder.is_dir() else []
        except OSError as error:
            reason = (error.strerror or "it cannot be opened").casefold()
            self._refuse(folder, "file-not-read", f"the folder cannot be read: {reason}", "check its permissions")
            return []
        return [folder / name for name in found if not name.startswith((".", "~", "#")) and not name.endswith("~")]

    def _yaml_below(self, folder: Path) -> list[Path]:
        return [path for path in self._listed(folder) if path.suffix.casefold() in (".yaml", ".yml")]

    def _inside(self, path: Path) -> bool:
        try:
            inside = path.resolve().is_relative_to(self.root)
        except (OSError, RuntimeError):  # a link that runs in a circle
            inside = False
        if not inside:
            self._refuse(
                path,
                "link-outside",
                f"`{path.name}` is a link to a place outside the archive",
                "copy the file into the archive",
            )
        return inside

    def _astray(self, path: Path, home: str) -> None:
        # What names it by its right place is not mistaken, too.
        self.unreadable.add(f"{home}/{path.name}")
        message = f"`{path.name}` is not read here"
        at = Span(file=self._within(path))
        self.problems.add(Problem(code="file-astray", at=at, message=message, help=f"move it into `{home}`"))

    def _refuse(self, path: Path, code: str, message: str, remedy: str) -> None:
        name = self._within(path)
        self.unreadable.add(name)
        self.problems.add(Problem(code=code, at=Span(file=name), message=message, help=remedy))

    def _within(self, path: Path) -> str:
        """The path as an author names it; a folder reached by a link has another one."""
        name = path.absolute()
        root = next((above for above in name.parents if above.resolve() == self.root), None)
        return (name.relative_to(root) if root else name).as_posix()


def _same_folder(one: Path, other: Path) -> bool:
    """Whether both names lead to one folder, as they do where capitals make no difference."""
    return one.is_dir() and one.samefile(other)


def _home(path: Path) -> str:
    """The folder that a file's fields belong in, or ''."""
    try:
        head = path.read_bytes()[:MAX_BYTES] if path.is_file() else b""
    except OSError:
        return ""
    found = _FIELD.search(head.decode("utf-8", errors="replace"))
    return _TELLS[found[1]] if found else ""


def _not_utf8(raw: bytes, position: int, name: str) -> Problem:
    line_start = raw.rfind(b"\n", 0, position) + 1
    column = len(raw[line_start:position].decode("utf-8"))
    wide = raw[:2] in (b"\xff\xfe", b"\xfe\xff")
    return Problem(
        code="not-utf-8",
        at=Span(file=name, line=raw.count(b"\n", 0, position), column=column, end=column + 1),
        message="the file is UTF-16" if wide else f"the byte 0x{raw[position]:02x} here is not UTF-8",
        help="save the file as UTF-8 in the editor",
    )
