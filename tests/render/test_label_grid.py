"""Grids of labels: inside their paper, by their size, and any other size as often as it fits."""

from fractions import Fraction

import pytest

from sitegen.problems import Refusal
from sitegen.render.label_grid import GRIDS, MM, Grid, common, parse_size


@pytest.mark.parametrize("grid", GRIDS, ids=lambda g: f"{g.paper} {g.name}")
def test_every_grid_lies_within_its_paper(grid: Grid) -> None:
    whole = MM[grid.paper]
    assert grid.left >= 0
    assert grid.top >= 0
    assert grid.left + (grid.columns - 1) * grid.across + grid.width <= whole[0]
    assert grid.top + (grid.rows - 1) * grid.down + grid.height <= whole[1]


@pytest.mark.parametrize("text", ["70x37", "70 x 37 mm", "70×37", "70.0x37"])
def test_a_common_size_is_its_grid(text: str) -> None:
    grid = parse_size(text)
    assert (grid.paper, grid.columns, grid.rows, grid.name) == ("a4", 3, 8, "70x37")


def test_letter_sheets_go_by_their_size_in_millimetres() -> None:
    grid = parse_size("66.7x25.4")  # 2 5/8 by 1 inch
    assert (grid.paper, grid.columns, grid.rows) == ("letter", 3, 10)


def test_any_other_size_is_laid_out_as_often_as_it_fits() -> None:
    grid = parse_size("60x30")
    assert (grid.columns, grid.rows) == (3, 9)
    assert grid.left == Fraction(15)


@pytest.mark.parametrize("text", ["70", "70x", "ax37", "70x37 in", "", "70,5x37"])
def test_what_is_no_size_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        parse_size(text)
    assert (refused.value.code, refused.value.help) == (
        "size-not-read",
        "write width and height in mm, such as `70x37`",
    )


@pytest.mark.parametrize("text", ["300x20", "20x300", "0x10"])
def test_what_fits_no_paper_is_refused(text: str) -> None:
    with pytest.raises(Refusal, match="does not fit on A4"):
        parse_size(text)


def test_common_grids_come_smallest_first() -> None:
    areas = [grid.area for grid in common("a4")]
    assert areas == sorted(areas)
    assert {grid.paper for grid in common("a4")} == {"a4"}
