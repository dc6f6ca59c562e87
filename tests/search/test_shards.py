"""Shards: what is written is read back; a list is cut where it says."""

from hypothesis import given
from hypothesis import strategies as st

from sitegen.search.shards import SIGNS, cut, digits, gap, in_gaps, line_of, numbers, spread, spread_to, undigits

ASCENDING = st.lists(st.integers(0, 200_000), unique=True).map(sorted)


@given(ASCENDING)
def test_numbers_read_back(documents: list[int]) -> None:
    assert [n for n, _ in numbers(in_gaps(documents), weighed=False)] == documents


@given(ASCENDING, st.data())
def test_postings_read_back_with_their_weights(documents: list[int], data: st.DataObject) -> None:
    weights = [data.draw(st.integers(0, 63)) for _ in documents]
    last, text = -1, ""
    for document, weight in zip(documents, weights, strict=True):
        text += gap(document - last - 1) + SIGNS[weight]
        last = document
    assert list(numbers(text, weighed=True)) == list(zip(documents, weights, strict=True))


@given(st.integers(0, 64**3 - 1))
def test_digits_read_back(number: int) -> None:
    assert undigits(digits(number, 3)) == number


@given(st.lists(st.text(max_size=9)), st.integers(1, 30))
def test_a_cut_list_keeps_its_lines_and_its_size(lines: list[str], size: int) -> None:
    shards = list(cut(lines, size))
    assert [line for shard in shards for line in shard] == lines
    assert all(len(shard) == 1 or sum(map(len, shard)) <= size for shard in shards)


@given(st.dictionaries(st.text("ab °é", min_size=1), st.text("AB@1"), min_size=1), st.integers(1, 60))
def test_what_is_spread_is_found_by_its_key(said: dict[str, str], size: int) -> None:
    shards = ["\n".join(lines) for lines in spread(said.items(), size)]
    assert len(shards) % 2
    assert {key: line_of(shards[spread_to(key, len(shards))], key) for key in said} == said
    assert all(line_of(shard, "c") is None for shard in shards)
