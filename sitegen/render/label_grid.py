"""Label sheets as plain sizes: a grid of equal labels on A4 or Letter paper, in mm.

The common grids go by the size of one label; any other size is laid out as often as it fits. No maker's
numbers: a box of label sheets names its size.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.model.quantity import exact_text, parse_number
from sitegen.problems import Refusal
from sitegen.render.typesetting import Paper

MM: Final[dict[Paper, tuple[Fraction, Fraction]]] = {
    "a4": (Fraction(210), Fraction(297)),
    "letter": (Fraction(2159, 10), Fraction(2794, 10)),
}
EDGE: Final = Fraction(5)
"""mm that most printers leave white: the margin of a grid that is not one of the common ones."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Labels of `width` by `height`; the first at `left`, `top`, the next `across` and `down` from there."""

    paper: Paper
    width: Fraction
    height: Fraction
    columns: int
    rows: int
    left: Fraction
    top: Fraction
    across: Fraction
    down: Fraction

    @property
    def name(self) -> str:
        """As it is asked for: `70x37`."""
        return f"{exact_text(self.width)}x{exact_text(self.height)}"

    @property
    def area(self) -> Fraction:
        """mm² of one label."""
        return self.width * self.height


def _grid(paper: Paper, size: tuple[str, str], count: tuple[int, int], gap: tuple[str, str] = ("0", "0")) -> Grid:
    """A grid in the middle of its paper."""
    (width, height), (columns, rows) = (Fraction(size[0]), Fraction(size[1])), count
    across, down = width + Fraction(gap[0]), height + Fraction(gap[1])
    whole = MM[paper]
    return Grid(
        paper=paper,
        width=width,
        height=height,
        columns=columns,
        rows=rows,
        left=(whole[0] - across * columns + Fraction(gap[0])) / 2,
        top=(whole[1] - down * rows + Fraction(gap[1])) / 2,
        across=across,
        down=down,
    )


# Which label sheets are common, the smaller labels first? Sizes as the boxes print them; Letter in inches:
# 2 5/8 x 1, 4 x 1 1/3, 4 x 2, 4 x 3 1/3. From memory, to be compared with the sheet before a stack is printed.
GRIDS: Final = (
    _grid("a4", ("38.1", "21.2"), (5, 13), ("2.5", "0")),
    _grid("a4", ("48.5", "25.4"), (4, 11)),
    _grid("letter", ("66.675", "25.4"), (3, 10), ("3.175", "0")),
    _grid("a4", ("63.5", "38.1"), (3, 7), ("2.5", "0")),
    _grid("a4", ("70", "37"), (3, 8)),
    _grid("a4", ("70", "42.3"), (3, 7)),
    _grid("letter", ("101.6", "33.867"), (2, 7), ("4.763", "0")),
    _grid("a4", ("99.1", "38.1"), (2, 7), ("2.5", "0")),
    _grid("letter", ("101.6", "50.8"), (2, 5), ("4.763", "0")),
    _grid("a4", ("99.1", "57"), (2, 5), ("2.5", "0")),
    _grid("a4", ("105", "57"), (2, 5)),
    _grid("a4", ("99.1", "67.7"), (2, 4), ("2.5", "0")),
    _grid("a4", ("105", "74"), (2, 4)),
    _grid("letter", ("101.6", "84.667"), (2, 3), ("4.763", "0")),
    _grid("a4", ("99.1", "93.1"), (2, 3), ("2.5", "0")),
    _grid("a4", ("105", "148.5"), (2, 2)),
    _grid("a4", ("210", "148.5"), (1, 2)),
)
USUAL: Final = "70x37"


def parse_size(text: str) -> Grid:
    """`70x37`, `70 x 37 mm`: a common grid, or as many as fit on A4. `Refusal` (`size-not-read`, `size-too-big`)."""
    match = re.fullmatch(r"\s*([\d.]+)\s*[x×]\s*([\d.]+)\s*(?:mm)?\s*", text)
    if not match:
        raise Refusal(
            "size-not-read",
            f"`{text}` is not the size of a label",
            "write width and height in mm, such as `70x37`",
        )
    width, height = parse_number(match[1]), parse_number(match[2])
    for grid in GRIDS:
        if abs(grid.width - width) < Fraction(1, 2) and abs(grid.height - height) < Fraction(1, 2):
            return grid
    whole = MM["a4"]
    columns, rows = (
        int((side - 2 * EDGE) / own) if own > 0 else 0 for side, own in zip(whole, (width, height), strict=True)
    )
    if not columns or not rows:
        raise Refusal(
            "size-too-big",
            f"a label of `{text}` mm does not fit on A4 paper",
            f"write at most {exact_text(whole[0] - 2 * EDGE)} by {exact_text(whole[1] - 2 * EDGE)} mm",
        )
    return _grid("a4", (match[1], match[2]), (columns, rows))


def common(paper: Paper | None = None) -> tuple[Grid, ...]:
    """The common grids, the smallest label first."""
    return tuple(sorted((g for g in GRIDS if paper in (None, g.paper)), key=lambda g: g.area))
