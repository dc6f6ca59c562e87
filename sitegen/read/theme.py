"""Reading a theme: templates, assets and print files, as text and bytes. What they mean is `render`."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from sitegen.problems import Refusal
from sitegen.read.shipped import shipped

DEFAULT: Final = "card"


@dataclass(frozen=True, slots=True, kw_only=True)
class Theme:
    """The files of a theme by name: `templates` are Jinja text, the others bytes as they are."""

    templates: Mapping[str, str]
    assets: Mapping[str, bytes]
    print: Mapping[str, bytes]


def read_theme(folder: Path | None = None) -> Theme:
    """The theme in a folder, or the one that comes with the tool.

    `Refusal` for a folder that holds none, and for a file that cannot be read.
    """
    root = folder or shipped("themes", DEFAULT)
    if not root.joinpath("templates").is_dir():
        raise Refusal(
            "theme-missing",
            f"there is no theme in `{root}`",
            "name a folder that holds `templates`, `assets` and `print`",
        )
    templates = {name: _text(name, raw) for name, raw in _below(root.joinpath("templates"), ".html")}
    return Theme(
        templates=templates,
        assets=dict(_below(root.joinpath("assets"), ".css", ".js", ".svg")),
        print=dict(_below(root.joinpath("print"), ".typ", ".css")),
    )


def _text(name: str, raw: bytes) -> str:
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        message = f"`{name}` is not UTF-8"
        raise Refusal("not-utf-8", message, "save the file as UTF-8 in the editor") from error


def _below(folder: Path, *endings: str) -> Iterator[tuple[str, bytes]]:
    """Files with one of the endings, by name, sorted; folders below and hidden files are not read."""
    listed = sorted(folder.iterdir(), key=lambda path: path.name) if folder.is_dir() else []
    for path in listed:
        if path.name.endswith(endings) and path.is_file() and not path.name.startswith("."):
            try:
                yield path.name, path.read_bytes()
            except OSError as error:
                reason = (error.strerror or "it cannot be opened").casefold()
                raise Refusal(
                    "file-not-read",
                    f"`{path.name}` cannot be read: {reason}",
                    "check the file and its permissions",
                ) from error
