"""Near words: slips counted as a typist makes them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.search.near import FAR, slips, slips_allowed

LETTERS = st.text(alphabet="abcd", max_size=7)


@pytest.mark.parametrize(
    ("typed", "meant", "count"),
    [
        ("ferricianide", "ferricyanide", 1),
        ("tumeric", "turmeric", 1),
        ("onoin", "onion", 1),
        ("bettroot", "beetroot", 1),
        ("abcd", "badc", 2),
        ("tea", "toner", FAR),
    ],
)
def test_slips_are_counted(typed: str, meant: str, count: int) -> None:
    assert slips(typed, meant, 2, unfinished=False) == count


def test_an_unfinished_word_is_held_against_beginnings() -> None:
    assert slips("feric", "ferricyanide", 1, unfinished=True) == 1
    assert slips("feric", "ferricyanide", 1, unfinished=False) == FAR


def distance(one: str, other: str) -> int:
    """Optimal string alignment, by its recursion (Boytsov 2011)."""
    if not one or not other:
        return len(one) + len(other)
    best = min(
        distance(one[:-1], other) + 1,
        distance(one, other[:-1]) + 1,
        distance(one[:-1], other[:-1]) + (one[-1] != other[-1]),
    )
    if len(one) > 1 and len(other) > 1 and one[-1] == other[-2] and one[-2] == other[-1]:
        best = min(best, distance(one[:-2], other[:-2]) + 1)
    return best


@given(st.text(alphabet="abc", max_size=5), st.text(alphabet="abc", max_size=5), st.integers(0, 2))
def test_the_bounded_count_is_the_whole_count(one: str, other: str, most: int) -> None:
    far = distance(one, other)
    assert slips(one, other, most, unfinished=False) == (far if far <= most else FAR)


@given(LETTERS, LETTERS)
def test_an_unfinished_word_is_as_far_as_its_nearest_beginning(typed: str, meant: str) -> None:
    counts = [slips(typed, meant[:end], 2, unfinished=False) for end in range(len(meant) + 1)]
    assert slips(typed, meant, 2, unfinished=True) == min(counts)


def test_short_words_and_figures_have_no_slips() -> None:
    assert [slips_allowed(w) for w in ("tea", "fixe", "cyanide", "cyanotype", "1234", "na2co3")] == [0, 1, 1, 2, 0, 0]
