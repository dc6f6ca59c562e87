"""The tables that labels are derived by, read once: statements, entries, densities, pictograms."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import TypeVar

from sitegen.labels.density import DensityTable, read_densities
from sitegen.labels.entries import Entries
from sitegen.labels.entry_file import read_entries
from sitegen.labels.pictograms import Drawing, read_pictograms
from sitegen.labels.statements import Statements, read_statements
from sitegen.problems import Problems
from sitegen.read.hazard_tables import hazard_table

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """Everything that is not of the archive itself."""

    statements: Statements
    entries: Entries
    densities: DensityTable
    drawings: dict[str, Drawing]


@cache
def tables() -> Tables:
    """The tables that come with the program."""
    return Tables(
        statements=_shipped("statements.yaml", read_statements),
        entries=_shipped("classification.yaml", read_entries),
        densities=_shipped("density.yaml", read_densities),
        drawings=_shipped("pictograms.yaml", read_pictograms),
    )


def _shipped(name: str, read: Callable[[str, str, Problems], T | None]) -> T:
    problems = Problems()
    found = read(hazard_table(name), name, problems)
    assert found is not None, problems.in_order()
    return found
