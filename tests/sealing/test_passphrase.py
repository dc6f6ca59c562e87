"""Passphrases: drawn evenly, judged low."""

import math
import secrets
from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.problems import Refusal
from sitegen.read.words import word_list
from sitegen.sealing.passphrase import LEAST_BITS, check_strength, make, normal, strength

WORDS = word_list()


def test_the_list_holds_enough_short_words_that_cannot_be_confused() -> None:
    assert len(WORDS) == len(set(WORDS)) == 2048
    assert all(word.isascii() and word.islower() and 3 <= len(word) <= 8 for word in WORDS)
    assert len({word[:4] for word in WORDS}) == len(WORDS)


def test_a_made_one_has_at_least_77_bits() -> None:
    made = make(WORDS, secrets.token_bytes)
    assert len(made.split(" ")) * math.log2(len(WORDS)) >= 77
    assert len(made.split(" ")) == 7


@pytest.mark.parametrize(("bits", "words"), [(77, 7), (78, 8), (88, 8), (128, 12)])
def test_more_bits_are_more_words(bits: int, words: int) -> None:
    assert len(make(WORDS, secrets.token_bytes, bits=bits).split()) == words


def test_words_are_drawn_evenly_and_draws_beyond_the_last_round_are_drawn_again() -> None:
    numbers = iter(range(65536))
    thousand = WORDS[:1000]
    drawn = Counter(
        word
        for _ in range(65_000 // 10)
        for word in make(thousand, lambda _: next(numbers).to_bytes(2, "big"), bits=90).split()
    )
    assert set(drawn.values()) == {65}
    again = iter([b"\xff\xff"] * 3 + [b"\x00\x05"] * 99)
    assert make(thousand, lambda _: next(again), bits=9) == WORDS[5]


# What each stands, told by hand: words of the list 11 bits each, another word 13 at most, again 1.
@pytest.mark.parametrize(
    ("passphrase", "low", "high"),
    [
        ("abandon", 11, 11),
        ("abandon ability", 22, 22),
        ("abandon abandon abandon abandon abandon abandon abandon", 17, 17),
        ("Abandon-ABILITY", 22, 22),
        ("password", 11, 13),
        ("12345678", 4, 12),
        ("aaaaaaaaaaaaaaaaaaaaaaaa", 4, 13),
        ("Tr0ub4dor&3", 20, 46),
        ("qwertyuiopasdfghjkl", 11, 13),
        ("2026-12-01", 10, 30),
    ],
)
def test_strength_is_estimated_low(passphrase: str, low: float, high: float) -> None:
    assert low <= strength(passphrase, WORDS) <= high


@given(st.lists(st.sampled_from(WORDS), min_size=7, max_size=9, unique=True))
def test_seven_different_words_of_the_list_are_enough(words: list[str]) -> None:
    check_strength(" ".join(words), WORDS)


@given(st.text(max_size=14))
def test_short_texts_never_pass_for_more_than_their_signs_allow(text: str) -> None:
    assert strength(text, WORDS) <= 13 + 6.7 * len(text)
    assert normal(normal(text)) == normal(text)


@pytest.mark.parametrize("weak", ["secret", "six words are not quite enough", "Tr0ub4dor&3", "tide mill 2026"])
def test_a_weak_one_is_refused_with_its_estimate_and_not_repeated(weak: str) -> None:
    with pytest.raises(Refusal) as refused:
        check_strength(weak, WORDS)
    bits = f"{strength(weak, WORDS):.0f} bits"
    assert refused.value.code == "passphrase-weak"
    assert bits in refused.value.message
    assert str(LEAST_BITS) in refused.value.message
    assert weak not in " ".join((refused.value.message, refused.value.help, *refused.value.notes))
