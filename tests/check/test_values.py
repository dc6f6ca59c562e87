"""Short names: what is offered for a file's name can be read by who wrote the words."""

import pytest

from sitegen.check.values import slug_of


@pytest.mark.parametrize(
    ("text", "slug"),
    [
        ("Mühle", "muehle"),
        ("Mu\u0308hle", "muehle"),
        ("Größere ÜBUNG", "groessere-uebung"),
        ("Crème brûlée, nº 2", "creme-brulee-no-2"),
        ("Blaa\u030ar", "blaaar"),
        ("Don’t rub", "dont-rub"),
        ("海", ""),
    ],
)
def test_letters_with_marks_are_spelt_out(text: str, slug: str) -> None:
    assert slug_of(text) == slug
