"""Words: cut, folded and stemmed the same when filed and when sought."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from snowballstemmer.english_stemmer import EnglishStemmer

from sitegen.search.words import SMALL, SPELLINGS, beginning, composed, fold, pieces, stem, unbent


def words(text: str) -> list[str]:
    return [word for piece in pieces(composed(text)) for word in piece.words]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        pytest.param("Iron-blue print", ["iron", "blue", "print"], id="hyphen"),
        pytest.param("10 %, 10%, 2–5 min", ["10%", "10%", "2min", "5min"], id="measures"),
        pytest.param("20 °C and 3.5 g", ["20°c", "and", "3.5g"], id="units"),
        pytest.param("1+9 or 1+1+8", ["1+9", "or", "1+1+8"], id="ratios"),
        pytest.param("CAS 497-19-8.", ["cas", "497-19-8"], id="cas"),
        pytest.param("K3[Fe(CN)6], Na2CO3", ["k3fecn6", "na2co3"], id="formulas"),
        pytest.param("Écume de mér, don't; the mill’s", ["ecume", "de", "mer", "dont", "the", "mill"], id="accents"),
        pytest.param("sulphite, sensitizer, grey", ["sulfite", "sensitiser", "gray"], id="spellings"),
        pytest.param("step.Then (dry)", ["step", "then", "dry"], id="no space"),
        pytest.param("", [], id="nothing"),
    ],
)
def test_a_text_is_cut_into_what_can_be_sought(text: str, found: list[str]) -> None:
    assert words(text) == found


def test_a_compound_and_a_hydrate_are_also_found_whole_and_dry() -> None:
    assert [p.beside for p in pieces("iron-blue Na2CO3.10H2O")] == [("ironblue",), ("na2co3",)]


@given(st.text())
def test_any_text_is_cut_in_order_and_its_words_stay_when_cut_again(text: str) -> None:
    text = composed(text)
    found = pieces(text)
    assert all(one.end <= other.start for one, other in pairwise(found))
    for piece in found:
        assert all(word and word == word.strip() for word in piece.words)


@given(st.text())
def test_folding_twice_changes_nothing(text: str) -> None:
    assert fold(fold(text)) == fold(text)


def test_stems_are_those_of_the_snowball_stemmer() -> None:
    stemmer = EnglishStemmer()
    for word in ("coating", "solubility", "dry", "dries", "crystallisation", "prints"):
        assert stem(word) == stemmer.stemWord(word)
    assert stem("na2co3") == "na2co3"


@given(st.one_of(st.text(alphabet="adeginorstuyz", max_size=12), st.sampled_from(["dying", "skies", "carefulness"])))
def test_a_word_begins_like_what_it_is_filed_under(word: str) -> None:
    assert stem(word).startswith(beginning(word))


@pytest.mark.parametrize("words", ["coat coats coated coating coatings", "size sizes sized", "tea teas", "bed", "3s"])
def test_endings_are_taken_off_and_short_words_keep_theirs(words: str) -> None:
    assert len({unbent(word) for word in words.split()}) == 1
    assert unbent("bed") == "bed"
    assert unbent("3s") == "3s"


def test_a_spelling_is_not_undone_by_another() -> None:
    for other, own in SPELLINGS:
        assert fold(own) == own
        assert fold(other) == own


def test_small_words_are_folded() -> None:
    assert {fold(word) for word in SMALL} == SMALL
