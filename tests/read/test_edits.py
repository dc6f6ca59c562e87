"""Edits of a YAML text: the value changes and no other byte."""

import difflib

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from sitegen.problems import Problems, Refusal
from sitegen.read import compose
from sitegen.read.edits import quoted, replaced, with_entry, with_field
from sitegen.read.nodes import to_data

TEXT = """\
# The head stays.
title: 'Soda bath'   # quoted
revision: 3
revised: 2026-03-02
mixtures:
  bath: {name: Bath, contains: {soda: 10 g, water: to make 1 l}}   # in one line
changes:
  - revision: 2
    what: >-
      Folded
      over lines.

  # A comment below the list.
stages: []
"""


def changed(after: str, before: str = TEXT) -> list[str]:
    lines = difflib.ndiff(before.splitlines(keepends=True), after.splitlines(keepends=True))
    return [line.rstrip("\r\n") for line in lines if line[0] in "+-"]


def test_only_the_value_changes_and_its_quotes_stay() -> None:
    assert changed(replaced(TEXT, ("title",), "Soda's bath")) == [
        "- title: 'Soda bath'   # quoted",
        "+ title: 'Soda''s bath'   # quoted",
    ]
    assert "soda: 12 g, water" in replaced(TEXT, ("mixtures", "bath", "contains", "soda"), "12 g")


def test_a_field_is_added_to_a_group_of_either_shape() -> None:
    inline = with_field(TEXT, ("mixtures", "bath"), "keeps", "2 days")
    assert "water: to make 1 l}, keeps: 2 days}   # in one line" in inline
    assert changed(with_field(TEXT, ("changes", 0), "corrects", "a: b")) == ['+     corrects: "a: b"']


def test_an_entry_comes_after_the_last_and_before_the_comment_below() -> None:
    text = with_entry(TEXT, "changes", ["revision: 3", "what: More."])
    assert text.index("revision: 3\n    what: More.") < text.index("# A comment below")
    assert changed(text) == ["+   - revision: 3", "+     what: More."]


def test_a_list_that_is_not_there_is_begun_after_its_field() -> None:
    text = with_entry(TEXT.replace("changes:", "altered:"), "changes", ["revision: 3", "what: More."], after="revised")
    assert "revised: 2026-03-02\nchanges:\n  - revision: 3\n    what: More.\nmixtures:" in text


def test_the_line_ends_of_the_file_are_kept() -> None:
    windows = TEXT.replace("\n", "\r\n")
    assert with_entry(windows, "changes", ["revision: 3", "what: x"]).count("\n") == TEXT.count("\n") + 2
    assert "\n" not in with_field(windows, (), "became", "4").replace("\r\n", "")


@pytest.mark.parametrize("path", [("changes", 0, "what"), ("mixtures",), ("none",), ("changes", 7)])
def test_what_has_another_shape_is_refused(path: tuple[str | int, ...]) -> None:
    with pytest.raises(Refusal, match="not written in a way"):
        replaced(TEXT, path, "x")
    with pytest.raises(Refusal, match="not written in a way"):
        with_entry(TEXT, "stages", ["title: x"])


@given(
    st.text(
        st.characters(blacklist_categories=("Cs", "Cc"), blacklist_characters="\u2028\u2029\ufeff\ufffe\uffff"),
        min_size=1,
    )
)
def test_any_words_read_back(words: str) -> None:
    text = with_field(TEXT, (), "note", words)
    root = compose(text, "x.yaml", Problems())
    assert root is not None
    data = to_data(root)
    assert isinstance(data, dict)
    assert data.pop("note") == words
    assert data == to_data(compose(TEXT, "x.yaml", Problems()) or root)
    assert yaml.safe_load(f"x: {quoted('a' + words)}") == {"x": "a" + words} or not words.isascii()
