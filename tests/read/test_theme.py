"""Reading a theme: what is taken, what is left, what is refused."""

from pathlib import Path

import pytest

from sitegen.problems import Refusal
from sitegen.read.theme import read_theme


def made(folder: Path) -> Path:
    for name, text in {
        "templates/a.html": "\N{BYTE ORDER MARK}<p>",
        "templates/notes.txt": "no",
        "assets/b.css": "b",
        "assets/a.js": "a",
        "assets/.hidden.css": "no",
        "assets/deep/c.css": "no",
        "print/s.typ": "s",
    }.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder


def test_files_are_taken_by_their_ending_in_order_of_name(tmp_path: Path) -> None:
    theme = read_theme(made(tmp_path))
    assert theme.templates == {"a.html": "<p>"}
    assert list(theme.assets) == ["a.js", "b.css"]
    assert theme.print == {"s.typ": b"s"}


def test_a_folder_without_templates_is_no_theme(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match="there is no theme in"):
        read_theme(tmp_path)


def test_a_template_that_is_not_utf_8_is_refused(tmp_path: Path) -> None:
    made(tmp_path).joinpath("templates", "a.html").write_bytes(b"\xff\xfe")
    with pytest.raises(Refusal, match=r"`a.html` is not UTF-8"):
        read_theme(tmp_path)


def test_the_theme_that_comes_with_the_tool_is_whole() -> None:
    theme = read_theme()
    assert {"frame.html", "recipe.html", "calculator.html"} <= set(theme.templates)
    assert {"tokens.css", "print.css", "calculator.js", "mark.svg"} <= set(theme.assets)
