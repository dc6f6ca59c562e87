"""Setting PDFs from files and data in memory."""

import io
from collections.abc import Callable

import pypdf
import pytest
import typst

from sitegen.render.typesetting import Memory, set_pdf

PLAIN = b'#let it = json("it.json")\n#set document(title: "x")\n#it.words #it.lacking'


def text_of(content: bytes) -> str:
    return "".join(page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages)


def test_what_an_author_types_is_never_run_as_markup() -> None:
    content = set_pdf({"main.typ": PLAIN}, {"it.json": {"words": '#panic("x") *b* $1$', "lacking": ""}}, 0)
    assert '#panic("x") *b* $1$' in text_of(content)


def test_a_character_no_font_holds_becomes_a_box_and_is_named() -> None:
    content = set_pdf(
        {"main.typ": PLAIN}, {"it.json": {"words": "a \U0001fa9f b", "lacking": "", "n": 1, "no": None}}, 0
    )
    assert "U+1FA9F" in text_of(content)


def test_a_fault_of_the_theme_is_not_hidden() -> None:
    with pytest.raises(typst.TypstError, match="unknown variable"):
        set_pdf({"main.typ": b"#nothing"}, {"it.json": {"words": "x", "lacking": ""}}, 0)


def test_files_in_folders_read_the_data_beside_them() -> None:
    files = {"main.typ": b'#set document(title: "x")\n#include "a/it.typ"\n#pagebreak()\n#include "b/it.typ"'}
    files |= {f"{name}/it.typ": PLAIN for name in "ab"}
    data = {f"{name}/it.json": {"words": f"word-{name}", "lacking": ""} for name in "ab"}
    text = text_of(set_pdf(files, data, 0))
    assert "word-a" in text
    assert "word-b" in text


def test_the_first_that_are_set_are_remembered_as_long_as_there_is_room() -> None:
    made: list[str] = []

    def work(name: str) -> Callable[[], bytes]:
        def make() -> bytes:
            made.append(name)
            return name.encode() * 10

        return make

    memory = Memory(room=25)
    for _ in range(2):
        for name in "abc":
            assert memory.found(name.encode(), work(name)) == name.encode() * 10
    assert made == ["a", "b", "c", "c"]


def test_what_is_set_from_other_data_or_on_another_day_is_set_again() -> None:
    def of(words: str, day: int) -> bytes:
        return set_pdf({"main.typ": PLAIN}, {"it.json": {"words": words, "lacking": ""}}, day)

    assert of("one", 0) is of("one", 0)
    assert len({of("one", 0), of("one", 86_400), of("two", 0)}) == 3
