"""Containers: nothing shows, nothing can be changed."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.sealing.container import SMALLEST, Content, Damaged, name_of, padded_size, seal, unseal
from sitegen.sealing.keys import Keys, new_keys
from tests.sealing.test_keys import repeatable

KEYS = new_keys(repeatable())
PAGE = Content(path="recipes/plantedslug/index.html", type="text/html", data=b"<p>plantedtext</p>" * 40)


def sealed(content: Content = PAGE, keys: Keys = KEYS, seed: int = 1) -> bytes:
    return seal(content, keys, repeatable(seed))


@given(path=st.text(min_size=1, max_size=60), data=st.binary(max_size=20_000))
def test_what_is_sealed_comes_back(path: str, data: bytes) -> None:
    content = Content(path=path, type="text/html", data=data)
    assert unseal(sealed(content), name_of(path, KEYS), KEYS) == content


@given(st.integers(0, 8_000_000))
def test_a_padded_size_holds_the_content_and_is_one_of_few(size: int) -> None:
    padded = padded_size(size)
    assert padded >= size
    assert padded <= max(2 * size, SMALLEST)
    assert padded % SMALLEST == 0
    sizes = {padded_size(n) for n in range(0, 8_000_001, 1000)}
    assert len(sizes) <= 15


def test_containers_of_pages_of_one_class_have_one_size() -> None:
    lengths = {len(sealed(Content(path=f"p{n}", type="text/html", data=b"x" * n))) for n in range(0, 7_000, 500)}
    assert lengths == {12 + SMALLEST + 16}


def test_nothing_of_a_file_shows_in_its_container_or_its_name() -> None:
    name = name_of(PAGE.path, KEYS)
    assert re.fullmatch("[a-z2-7]{24}", name)
    assert b"planted" not in sealed() + name.encode()


def test_names_are_others_under_other_keys() -> None:
    assert name_of(PAGE.path, KEYS) != name_of(PAGE.path, new_keys(repeatable(9)))


def test_the_same_file_sealed_twice_is_not_the_same_bytes() -> None:
    assert sealed(seed=1)[:12] != sealed(seed=2)[:12]
    assert sealed(seed=1)[12:] != sealed(seed=2)[12:]


@given(st.integers(0, len(sealed()) * 8 - 1))
def test_a_changed_bit_is_refused(bit: int) -> None:
    changed = bytearray(sealed())
    changed[bit // 8] ^= 1 << bit % 8
    with pytest.raises(Damaged):
        unseal(bytes(changed), name_of(PAGE.path, KEYS), KEYS)


@pytest.mark.parametrize("length", [0, 5, 12, 20, 28, 1000, len(sealed()) - 1])
def test_a_cut_container_is_refused(length: int) -> None:
    with pytest.raises(Damaged):
        unseal(sealed()[:length], name_of(PAGE.path, KEYS), KEYS)


def test_a_container_under_another_name_is_refused() -> None:
    with pytest.raises(Damaged):
        unseal(sealed(), name_of("index.html", KEYS), KEYS)


def test_a_container_of_another_compile_is_refused() -> None:
    with pytest.raises(Damaged):
        unseal(sealed(), name_of(PAGE.path, KEYS), new_keys(repeatable(9)))
