"""Rows of the table of check values, each worked out by the program's public functions.

`tests/data/check-values.csv` holds what a row expects and where it comes from; `rows_*.py` hold how the
program is asked; `test_check_values.py` brings both together.
"""

from collections.abc import Callable
from fractions import Fraction

Figures = tuple[Fraction, ...]
Row = Callable[[], Figures]


class Rows(dict[str, Row]):
    """Rows by id; `@rows("A01")` adds one."""

    def __call__(self, id_: str) -> Callable[[Row], Row]:
        """A decorator that adds a row under its id."""

        def add(row: Row) -> Row:
            assert id_ not in self, id_
            self[id_] = row
            return row

        return add
