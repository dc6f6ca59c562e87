"""Keys against published vectors, and what a passphrase opens."""

import hashlib
import secrets
from itertools import count
from typing import NamedTuple

import pytest

from sitegen.sealing import keys as k
from sitegen.sealing.passphrase import normal

WORDS = "rib certain credit cotton cattle program mansion"
OTHER = "tide mill feather sluice river chart walnut"


def repeatable(seed: int = 0) -> k.Randomness:
    """Bytes that look random and come again with the same seed."""
    numbers = count()

    def draw(size: int) -> bytes:
        return hashlib.shake_256(f"{seed} {next(numbers)}".encode()).digest(size)

    return draw


# RFC 7914, section 11: PBKDF2-HMAC-SHA-256. The first three rows have the inputs of RFC 6070 (which is for SHA-1).
@pytest.mark.parametrize(
    ("secret", "salt", "rounds", "derived"),
    [
        (b"password", b"salt", 1, "120fb6cffcf8b32c43e7225256c4f837a86548c92ccc35480805987cb70be17b"),
        (b"password", b"salt", 2, "ae4d0c95af6b46d32d0adff928f06dd02a303f8ef3c251dfd6e2d85a95474c43"),
        (b"password", b"salt", 4096, "c5e478d59288c841aa530db6845c4c8d962893a001ce4e11a4963873aa98134a"),
        (
            b"passwd", b"salt", 1,
            "55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc"
            "49ca9cccf179b645991664b39d77ef317c71b845b1e30bd509112041d3a19783",
        ),
        (
            b"Password", b"NaCl", 80000,
            "4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56"
            "a1d425a1225833549adb841b51c9b3176a272bdebba1d078478f62b397f33c8d",
        ),
    ],
)  # fmt: skip
def test_stretching_agrees_with_rfc_7914(secret: bytes, salt: bytes, rounds: int, derived: str) -> None:
    assert k.pbkdf2(secret, salt, rounds, len(derived) // 2).hex() == derived


# D. McGrew, J. Viega, The Galois/Counter Mode of Operation (submission to NIST, 2004), appendix B, cases 13 to 16.
LONG_KEY = "feffe9928665731c6d6a8f9467308308" * 2
PLAIN = (
    "d9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a72"
    "1c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b391aafd255"
)
SEALED = (
    "522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa"
    "8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662898015ad"
)
BOUND = "feedfacedeadbeeffeedfacedeadbeefabaddad2"


class Vector(NamedTuple):
    """One case, in hexadecimal."""

    number: str
    key: str
    nonce: str
    plain: str
    bound: str
    sealed: str
    tag: str


NONCE = "cafebabefacedbaddecaf888"
GCM = [
    Vector("13", "00" * 32, "00" * 12, "", "", "", "530f8afbc74536b9a963b4f1c4cb738b"),
    Vector(
        "14", "00" * 32, "00" * 12, "00" * 16, "", "cea7403d4d606b6e074ec5d3baf39d18",
        "d0d1c8a799996bf0265b98b5d48ab919",
    ),
    Vector("15", LONG_KEY, NONCE, PLAIN, "", SEALED, "b094dac5d93471bdec1a502270e3cc6c"),
    Vector("16", LONG_KEY, NONCE, PLAIN[:120], BOUND, SEALED[:120], "76fc6ece0f4e1768cddf8853bb2d551b"),
]  # fmt: skip


@pytest.mark.parametrize("case", GCM, ids=lambda case: case.number)
def test_sealing_agrees_with_mcgrew_and_viega(case: Vector) -> None:
    key, nonce, plain, bound = (bytes.fromhex(text) for text in (case.key, case.nonce, case.plain, case.bound))
    assert k.encrypt(key, nonce, plain, bound).hex() == case.sealed + case.tag
    assert k.decrypt(key, nonce, bytes.fromhex(case.sealed + case.tag), bound) == plain


def test_rounds_are_never_fewer_than_six_hundred_thousand() -> None:
    assert k.ROUNDS >= 600_000
    assert all(w.rounds >= 600_000 for w in k.wrap_all(k.new_keys(repeatable()), [WORDS], repeatable(1)))


@pytest.fixture(scope="module")
def keys() -> k.Keys:
    return k.new_keys(repeatable())


@pytest.fixture(scope="module")
def copies(keys: k.Keys) -> tuple[k.Wrapped, ...]:
    return k.wrap_all(keys, [WORDS, OTHER], repeatable(1))


def test_each_of_several_passphrases_opens_the_edition(keys: k.Keys, copies: tuple[k.Wrapped, ...]) -> None:
    assert k.unwrap(copies, WORDS) == keys
    assert k.unwrap(copies, OTHER) == keys


@pytest.mark.parametrize("typed", [WORDS.upper(), f"  {WORDS}\n", WORDS.replace(" ", "-"), WORDS.replace(" ", " – ")])
def test_capitals_blanks_and_hyphens_make_no_difference(typed: str) -> None:
    assert normal(typed) == WORDS


def test_a_wrong_passphrase_opens_nothing(copies: tuple[k.Wrapped, ...]) -> None:
    assert k.unwrap(copies, WORDS + "s") is None


def test_a_passphrase_that_is_withdrawn_does_not_open_the_next_compile() -> None:
    later = k.new_keys(repeatable(2))
    assert k.unwrap(k.wrap_all(later, [OTHER], repeatable(3)), WORDS) is None


def test_every_copy_has_a_salt_and_a_nonce_of_its_own(copies: tuple[k.Wrapped, ...]) -> None:
    assert len({c.salt for c in copies}) == len({c.nonce for c in copies}) == len(copies) == 2
    assert {len(c.salt) for c in copies} == {16}


def test_the_order_of_copies_tells_nothing_of_the_order_given(keys: k.Keys) -> None:
    copies = k.wrap_all(keys, [WORDS, OTHER, WORDS.upper()], repeatable(1))
    assert [c.salt for c in copies] == sorted(c.salt for c in copies)
    assert len(copies) == 2, "the same words twice are one passphrase"


def test_keys_are_new_at_every_compile() -> None:
    assert k.new_keys(secrets.token_bytes) != k.new_keys(secrets.token_bytes)
