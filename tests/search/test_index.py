"""The index: found by every way a thing is called, in an order that is always the same."""

from bisect import bisect_right
from collections.abc import Mapping
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.whole import Computed
from sitegen.render.search_index import script, shards
from sitegen.search.document import KINDS, TOGETHER
from sitegen.search.index import place, places, starts_of
from sitegen.search.query import parse_query
from sitegen.search.rank import Finder
from sitegen.search.shards import Shard, cut
from tests.search.conftest import count_of, recipe, small


def test_the_same_archive_gives_the_same_shards(computed: Computed) -> None:
    assert [script(s) for s in shards(computed)] == [script(s) for s in shards(computed)]


def test_no_shard_is_large(shards: Mapping[str, Any]) -> None:
    assert max(len(script(Shard(name=name, data=data))) for name, data in shards.items()) < 16_000


def test_every_document_is_shown_at_its_number(finder: Finder, shards: Mapping[str, Any]) -> None:
    kinds = [finder.document(n)[0] for n in range(count_of(shards))]
    assert sorted(kinds, key=KINDS.index) == kinds
    assert set(kinds) == set(KINDS)


@given(st.lists(st.integers(0, 40), min_size=len(KINDS), max_size=len(KINDS)))
def test_places_are_filled_one_after_the_other(sizes: list[int]) -> None:
    counts = dict(zip(KINDS, sizes, strict=True))
    taken = [place(n, places(counts)) for n in range(sum(sizes))]
    assert taken == sorted(set(taken))
    assert [shard for shard, at in taken if at == 0] == list(range(taken[-1][0] + 1 if taken else 0))
    assert all(at < max(TOGETHER.values()) for _, at in taken)


def test_what_an_author_types_is_not_markup_in_a_shard() -> None:
    assert b"<" not in script(Shard(name="d0", data=["</script><script>alert(1)</script>"]))


def test_a_word_in_the_title_says_more_than_one_in_a_step() -> None:
    found = small(recipe("Ink", ("steps", "tea")), recipe("Bath", ("keywords", "tea")), recipe("Tea"))
    assert [found.document(n)[1] for n, _ in found.rank(parse_query("tea ")).order] == ["Tea", "Bath", "Ink"]


def test_length_counts_against_a_word() -> None:
    found = small(recipe("A", ("about", "tea " + "word " * 300)), recipe("B", ("about", "tea")))
    assert [found.document(n)[1] for n, _ in found.rank(parse_query("tea ")).order] == ["B", "A"]


def test_of_a_common_word_an_ordinary_search_sees_the_weightiest_and_a_quoted_one_all(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("sitegen.search.index.WEIGHTIEST", 2)
    found = small(recipe("A", ("steps", "tea")), recipe("Tea B"), recipe("C", ("steps", "tea")), recipe("Tea D"))
    for typed, titles in (("tea ", "BD"), ('"tea"', "ABCD"), ("b -tea ", ""), ('"tea" -b ', "ACD")):
        order = found.rank(parse_query(typed)).order
        assert sorted(found.document(n)[1][-1] for n, _ in order) == list(titles), typed


@given(st.lists(st.text("abé", min_size=1), unique=True).map(sorted), st.integers(1, 20))
def test_a_shard_is_found_by_the_little_of_its_first_word_that_is_kept(words: list[str], size: int) -> None:
    shards = list(cut(words, size))
    starts = list(starts_of(shards))
    assert [shards[bisect_right(starts, word) - 1].count(word) for word in words] == [1] * len(words)
    assert all(start == shard[0][: len(start)] for start, shard in zip(starts, shards, strict=True))
