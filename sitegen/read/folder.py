"""Reading a folder: the only place where an archive's files are opened.

Whatever the operating system reports becomes a problem that names the file.
"""

from dataclasses import dataclass, field
from importlib.resources import files
from pathlib import Path
from typing import Final

from sitegen.problems import Problem, Problems, Span
from sitegen.read.sources import SETTINGS, Sources, compose_sources

MAX_BYTES: Final = 1_000_000
"""Of one text file: a long recipe holds some 15,000."""

_FOLDERS: Final = ("recipes", "substances", "troubles", "disputes", "journal")


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
            if path.suffix.casefold() == ".yml":
                self._refuse(path, "file-ending", f"`{path.name}` is not read", f"rename it to `{path.stem}.yaml`")
            elif path.is_dir() and any(self._yaml_below(path)):
                self._refuse(
                    path,
                    "folder-too-deep",
                    f"the files in the folder `{path.name}` are not read",
                    f"move them up into `{folder.name}`",
                )
            elif path.suffix == ".yaml" and not path.is_dir():
                self.text(path)

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
        return [folder / name for name in found if not name.startswith((".", "~")) and not name.endswith("~")]

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

    def _refuse(self, path: Path, code: str, message: str, remedy: str) -> None:
        name = path.absolute()
        for root in (self.root, path.parent.parent.absolute()):
            if name.is_relative_to(root):
                name = name.relative_to(root)
                break
        self.unreadable.add(name.as_posix())
        self.problems.add(Problem(code=code, at=Span(file=name.as_posix()), message=message, help=remedy))


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
