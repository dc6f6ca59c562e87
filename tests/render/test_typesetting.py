"""Setting PDFs from files and data in memory."""

import io

import pypdf
import pytest
import typst

from sitegen.render.typesetting import set_pdf

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
