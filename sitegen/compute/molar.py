"""Molar masses from formulas, by the library molmass (IUPAC/CIAAW atomic weights)."""

import re
from fractions import Fraction
from functools import cache
from typing import Final

from molmass import Formula, FormulaError

from sitegen.problems import Refusal

# The library drops spaces (`Na2CO3 10H2O` would weigh 5036) and knows isotopes, charges and peptides too.
_PLAIN: Final = re.compile(r"[A-Z(\[][A-Za-z0-9()\[\].]{0,99}")


@cache
def molar_mass(formula: str) -> Fraction:
    """Grams per mole, to four decimals: more than any balance or any atomic weight deserves.

    A raised dot before water of crystallisation is taken as the full stop the library reads.
    `Refusal` when the text is no formula.

    >>> float(molar_mass("Na2CO3.10H2O"))
    286.1414
    """
    text = formula.replace("·", ".").strip()
    try:
        if not _PLAIN.fullmatch(text):
            raise _not_a_formula(formula)
        mass = Formula(text).mass
        return Fraction(round(mass * 10_000), 10_000)
    except (FormulaError, ValueError, KeyError, IndexError, OverflowError) as error:
        raise _not_a_formula(formula) from error


def _not_a_formula(formula: str) -> Refusal:
    return Refusal(
        "formula-not-read",
        f"`{formula}` is not a chemical formula",
        "write it with element symbols, a full stop before water: `Na2CO3.10H2O`",
    )
