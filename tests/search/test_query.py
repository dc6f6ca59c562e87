"""Queries: words, phrases, what is left out; any text is one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.search.query import MOST, parse_query


def test_words_phrases_and_what_is_left_out_are_told_apart() -> None:
    query = parse_query('toner "first baths" -silver -"hot water" 10 %')
    assert [w.text for w in query.words] == ["toner", "10%"]
    assert query.without == ("silver",)
    assert query.phrases == (("first", "baths"),)
    assert query.not_phrases == (("hot", "water"),)


def test_in_quotes_small_words_count_between_others_and_one_word_stands_alone() -> None:
    query = parse_query('"the top of the paper" "a bath" -"the silver" "of the"')
    assert query.phrases == (("top", "of", "the", "paper"),)
    assert [(w.text, w.quoted) for w in query.words] == [("bath", True)]
    assert query.without == ("silver",)


@pytest.mark.parametrize(("typed", "unfinished"), [("iron bl", "bl"), ("iron bl ", ""), ('bl "first bath', "")])
def test_only_a_last_word_without_a_space_is_unfinished(typed: str, unfinished: str) -> None:
    assert [w.text for w in parse_query(typed).words if w.unfinished] == ([unfinished] if unfinished else [])


def test_small_words_are_not_sought_unless_one_is_all_there_is() -> None:
    assert [w.text for w in parse_query("that tea for the blues").words] == ["tea", "blues"]
    assert [w.text for w in parse_query("the").words] == ["the"]
    assert parse_query("the ").words == ()


def test_a_compound_is_left_out_as_one() -> None:
    query = parse_query("tea -iron-blue -silver")
    assert query.not_phrases == (("iron", "blue"),)
    assert query.without == ("silver",)
    assert [(w.text, w.unfinished) for w in query.words] == [("tea", False)]


def test_a_hyphen_between_words_is_no_minus() -> None:
    query = parse_query("iron-blue 2-5 min")
    assert query.without == ()
    assert [w.text for w in query.words] == ["iron", "blue", "2min", "5min"]


@given(st.text())
def test_any_text_is_a_query(text: str) -> None:
    assert len(parse_query(text).words) <= MOST
