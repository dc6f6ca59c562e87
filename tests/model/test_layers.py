"""Layers: which side of a film is down, its size, its shrink, and which way its print reads."""

from fractions import Fraction

import pytest

from sitegen.model.layers import Facing, Negative, parse_facing, parse_shrink, parse_size
from sitegen.problems import Refusal

DOWN, UP = Facing(written="ink down", down=True), Facing(written="ink up", down=False)


@pytest.mark.parametrize(
    ("text", "down"),
    [
        ("ink side to the coating", True), ("ink down", True), ("Emulsion side down", True),
        ("emulsion  to the paper", True), ("ink side up", False), ("ink to the light", False),
    ],
)  # fmt: skip
def test_the_side_with_the_ink_is_read_in_the_usual_words(text: str, down: bool) -> None:
    facing = parse_facing(text)
    assert (facing.down, facing.written) == (down, text)


@pytest.mark.parametrize("text", ["down", "shiny side down", "ink sideways", "ink"])
def test_what_does_not_name_side_and_way_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as said:
        parse_facing(text)
    assert said.value.code == "bad-facing"


@pytest.mark.parametrize("text", ["180 x 240 mm", "18×24 cm", "18 × 24 cm"])
def test_a_size_is_width_and_height_in_one_unit(text: str) -> None:
    size = parse_size(text)
    assert (size.width, size.height, size.written) == (180, 240, text)


@pytest.mark.parametrize("text", ["180 mm", "180 x 240", "180 by 240 mm", "x 240 mm", "180 x 240 g", "1,5 x 2 m"])
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(Refusal):
        parse_size(text)


def test_a_shrink_is_one_percent_up_to_ten() -> None:
    assert parse_shrink("0.33 %") == Fraction(33, 10_000)
    assert parse_shrink("0%") == 0
    for wrong in ("0.33", "11 %", "-1 %", "1 % w/v", "1-2 %"):
        with pytest.raises(Refusal):
            parse_shrink(wrong)


@pytest.mark.parametrize(
    ("faces", "mirrored", "right"),
    [
        (DOWN, True, True),
        (DOWN, False, False),
        (UP, False, True),
        (UP, True, False),
        (None, True, None),
        (UP, None, None),
    ],
)
def test_a_contact_print_reads_as_the_film_does_from_the_light(
    faces: Facing | None, mirrored: bool | None, right: bool | None
) -> None:
    assert Negative(label="W", faces=faces, mirrored=mirrored).reads_right is right
