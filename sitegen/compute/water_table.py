"""The table of waters: rules and acids as types, read from `data/water.yaml`, which says what each field means.

Also how much of an acid takes up a litre's alkalinity. Whether a rule holds for a water is `water`.
"""

from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Annotated, Final, Literal

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.check.faults import read_document
from sitegen.compute.molar import molar_mass
from sitegen.model.quantity import parse_number
from sitegen.model.water import Measure, Role
from sitegen.problems import Problems
from sitegen.read.compose import compose

FILE: Final = "water.yaml"
Figure = Annotated[Fraction, t.leaf(parse_number)]
_DIGITS: Final = 10**6


class AcidDoc(Document):
    """An acid: `pK` from the first to the last, and grams of it in one `unit`."""

    name: t.Text
    formula: t.FormulaText
    pk: tuple[Figure, ...] = Field(alias="pK", min_length=1)
    unit: Literal["g", "ml"]
    each_holds: Figure = Fraction(1)
    note: t.Text | None = None


class AimDoc(Document):
    """The pH to which acids are reckoned, and the first pK of carbonic acid."""

    ph: Figure = Field(alias="pH")
    carbonic: Figure
    source: t.Text


class TakesDoc(Document):
    """What is made useless, mole for mole."""

    formula: t.FormulaText
    name: t.Text
    by: t.FormulaText


class RuleDoc(Document):
    """What a water does, and the advice."""

    title: t.Text
    uses: tuple[Role, ...] = Field(min_length=1)
    groups: tuple[t.Text, ...] = ()
    substances: tuple[t.Text, ...] = ()
    words: tuple[t.Text, ...] = ()
    measure: Measure | None = None
    over: t.Text | None = None
    says: t.Text
    brief: t.Text
    acid: t.Text | None = None
    carried: t.Text | None = None
    longest: t.Time | None = None
    measured: Measure | None = None
    takes: TakesDoc | None = None
    source: t.Text


class WaterTable(Document):
    """Everything the file holds."""

    aim: AimDoc
    no_acid_with: tuple[t.Text, ...]
    acids: dict[str, AcidDoc]
    rules: dict[str, RuleDoc]


@cache
def water_table() -> WaterTable:
    """The table that comes with the program."""
    problems = Problems()
    text = files("sitegen").joinpath("data", FILE).read_text(encoding="utf-8")
    root = compose(text, FILE, problems)
    found = read_document(WaterTable, root, problems) if root else None
    assert found is not None, problems.in_order()
    return found


@cache
def acid_per_mmol(acid: str) -> Fraction:
    """Units (g or ml) of an acid for each mmol/l of alkalinity in a litre, to reach the aim of the table.

    A mole of acid gives away as many protons as it is dissociated at that pH; they are taken up by the bicarbonate
    that is carbonic acid there. All alkalinity counts as bicarbonate, which it is below pH 8.3. Six decimals.
    """
    doc, aim = water_table().acids[acid], water_table().aim
    grams = float(molar_mass(doc.formula)) / 1000 / float(doc.each_holds)
    taken = 1 - 1 / (1 + 10 ** float(aim.carbonic - aim.ph))
    return Fraction(round(grams * taken / _given_away(doc.pk, aim.ph) * _DIGITS), _DIGITS)


def _given_away(pk: tuple[Fraction, ...], ph: Fraction) -> float:
    """Protons that a molecule has lost on average at a pH: each step's share in the mass-action sum."""
    terms = [1.0]
    for step in pk:
        terms.append(terms[-1] * 10 ** float(ph - step))
    return sum(n * term for n, term in enumerate(terms)) / sum(terms)


def lost_per_mg(takes: TakesDoc) -> Fraction:
    """Milligrams made useless by a milligram of the measure."""
    return molar_mass(takes.formula) / molar_mass(takes.by)
