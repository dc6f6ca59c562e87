"""Every row of the table of check values: run through the public functions, or listed with its reason.

`tests/data/check-values.csv`: what was asked, what the named source prints (`figures`, each `within` a
tolerance, `0` for exact), the source and how it is known: READ in it, COMPUTED, or from MEMORY. Rows
whose verdict is DIFFERS FROM PRINT hold the right figure; `test_traps` keeps the printed one out.
"""

import csv
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

import pytest

from tests.compute import rows_moles, rows_strength, rows_swap, rows_units
from tests.compute.rows import Figures

TABLE = Path(__file__).parents[1] / "data" / "check-values.csv"
ROWS = {**rows_strength.ROWS, **rows_swap.ROWS, **rows_moles.ROWS, **rows_units.ROWS}

_EXPOSURE = "exposure: checked with its own figures in test_exposure and test_strip"
_CAMERA = "apertures, bellows and enlargers are no part of contact printing: not computed"
_SHRINKS = "volumes that do not add: marked an estimate or `make up to`, never computed (test_traps)"
_BAUME = "Baumé is not a unit here: several scales share the name, so it is unknown (test_traps)"
_SPOON = "spoons are refused as measures (test_traps)"

# Which rows are not run, and why?
NOT_RUN = {
    "E14": "a card holds one density, at 20 °C; other temperatures are not computed",
    "E15": _BAUME,
    "E17": _BAUME,
    "E18": "peroxide volumes are no strength here: cards name them, the arithmetic refuses them (test_traps)",
    "F01": _SHRINKS,
    "F04": "percent by volume is never turned into percent by weight without densities (test_traps)",
    "F06": _SHRINKS,
    "F08": _SHRINKS,
    "F09": "percent by volume is not diluted by weight: refused (test_traps)",
    "G02": "grams of hydrate per 100 g of water are not computed: hydrates are compared as the table's form "
    "(test_traps)",
    "G04": "solubility is judged by the figure nearest 20 °C; no curve is drawn between figures",
    "H06": _SPOON,
    "H18": "drops are counted, never turned into ml (test_traps)",
    "H20": _SPOON,
    "K01": _EXPOSURE,
    "K02": _EXPOSURE,
    "K04": _CAMERA,
    "K06": _CAMERA,
    "K08": _CAMERA,
    "K09": _EXPOSURE,
    "K10": _EXPOSURE,
    "K12": _EXPOSURE,
    "K13": _CAMERA,
    "K15": _EXPOSURE,
    "L02": "ml are not turned into drops: drops differ twofold (test_traps)",
    "L06": "coverage is asked per area; counting drops and brush losses is not computed",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One row as the table holds it."""

    id: str
    figures: Figures
    within: Figures
    source: str


def _read() -> tuple[list[str], list[Check]]:
    with TABLE.open(encoding="utf-8", newline="") as file:
        found = list(csv.DictReader(file))
    checks = []
    for row in found:
        if not row["figures"]:
            continue
        figures = tuple(Fraction(text) for text in row["figures"].split("; "))
        said = row["within"].split("; ")
        texts = said if len(said) == len(figures) else said * len(figures)
        within = tuple(_tolerance(t, f) for t, f in zip(texts, figures, strict=True))
        checks.append(Check(id=row["id"], figures=figures, within=within, source=row["source"]))
    return [row["id"] for row in found], checks


def _tolerance(text: str, figure: Fraction) -> Fraction:
    return Fraction(text.removesuffix(" %")) * figure / 100 if text.endswith("%") else Fraction(text)


IDS, CHECKS = _read()


@pytest.mark.parametrize("check", CHECKS, ids=lambda c: f"{c.id}-{ROWS[c.id].__name__}" if c.id in ROWS else c.id)
def test_agrees_with_its_source(check: Check) -> None:
    got = ROWS[check.id]()
    assert len(got) == len(check.figures), check.source
    for figure, expected, within in zip(got, check.figures, check.within, strict=True):
        assert abs(figure - expected) <= within, f"{float(figure)} is not {float(expected)}: {check.source}"


def test_every_row_is_run_or_listed_with_a_reason() -> None:
    assert sorted([*ROWS, *NOT_RUN]) == sorted(IDS)
    assert sorted(ROWS) == sorted(check.id for check in CHECKS)
    assert all(NOT_RUN.values())
