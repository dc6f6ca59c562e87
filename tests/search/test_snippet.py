"""Snippets: the passage that shows most of the words, with them marked."""

from hypothesis import given
from hypothesis import strategies as st

from sitegen.search.snippet import WIDTH, snippet

FIELDS = ("summary", "steps")


def test_the_passage_with_most_words_wins_and_then_the_weightier_field() -> None:
    texts = [("steps", "Pour the tea."), ("summary", "Cold tea."), ("steps", "Tea and walnut.")]
    best = snippet(texts, [("tea",), ("walnut",)], FIELDS)
    assert best
    assert best.stretches == ("", "Tea", " and ", "walnut", ".")
    best = snippet(texts, [("tea",)], FIELDS)
    assert best
    assert (best.field, best.stretches) == ("summary", ("Cold ", "tea", "."))


def test_nothing_is_shown_of_a_document_that_holds_none_of_the_words() -> None:
    assert snippet([("steps", "Water.")], [("tea",)], FIELDS) is None


@given(st.lists(st.sampled_from(["tea", "brown", "a-much-longer-compound-word", "of"]), min_size=1, max_size=90))
def test_a_snippet_is_a_part_of_the_text_and_not_long(words: list[str]) -> None:
    text = " ".join(words)
    found = snippet([("steps", text)], [("tea",), ("brown",)], FIELDS)
    if found:
        shown = "".join(found.stretches).removeprefix("… ").removesuffix(" …")
        assert shown in text
        assert len(shown) <= WIDTH
        assert set(found.stretches[1::2]) <= {"tea", "brown"}
