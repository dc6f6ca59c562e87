"""Density of an aqueous solution, estimated from what is dissolved: the model of Laliberté (2009).

M. Laliberté, J. Chem. Eng. Data 54 (2009) 1725-1760, doi 10.1021/je8008123; the density model is that of
Laliberté and Cooper, J. Chem. Eng. Data 49 (2004) 1141, eq. 5, 8, 9. Each solute has an apparent density;
mass over the sum of the volumes is the density of the solution. An estimate, never a measurement.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import exp
from typing import Final

from sitegen.compute.molar import molar_mass
from sitegen.problems import Problem, Problems, Refusal
from sitegen.read.compose import compose
from sitegen.read.nodes import ListNode, MapNode, TextNode, text_at

MODEL: Final = "density estimated by the model of Laliberté (2009)"
ROOM: Final = 20.0  # °C
NEGLIGIBLE: Final = 10.0
"""g/l of all solutes without coefficients that may be left out: they change the third digit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Coefficients:
    """One solute: `formula` without water of crystallisation, c0 to c4, °C, highest mass fraction."""

    formula: str
    c: tuple[float, float, float, float, float]
    t: tuple[float, float]
    most: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Density:
    """g/ml of a solution at 20 °C, and the small solutes that were left out."""

    value: Fraction
    left_out: tuple[str, ...]


DensityTable = Mapping[str, Coefficients]


def solution_density(grams_per_litre: Mapping[str, float], table: DensityTable) -> Density | None:
    """The density, or None where the model cannot tell: a solute is not in the table or too strong.

    Keys are substance ids, grams those of the table's formulas (`dry_share`).
    """
    left_out = tuple(sorted(k for k, g in grams_per_litre.items() if g > 0 and k not in table))
    if sum(grams_per_litre[k] for k in left_out) > NEGLIGIBLE:
        return None
    known = {k: g for k, g in sorted(grams_per_litre.items()) if g > 0 and k in table}
    value = 1000.0
    for _ in range(100):
        shares = {k: g / value for k, g in known.items()}
        following = _density(shares, table)
        if abs(following - value) < 1e-6:
            if any(share > table[k].most for k, share in shares.items()) or sum(shares.values()) > 1:
                return None
            return Density(value=Fraction(round(value * 10), 10_000), left_out=left_out)
        value = (value + following) / 2
    return None


def _density(shares: Mapping[str, float], table: DensityTable) -> float:
    """kg/m³ at mass fractions of the solutes."""
    solutes = sum(shares.values())
    volume = (1 - solutes) / water_density(ROOM)
    for key, share in shares.items():
        volume += share / _apparent(table[key], solutes)
    return 1 / volume


def _apparent(of: Coefficients, solutes: float) -> float:
    """Apparent density of a solute in kg/m³; outside its range, at the nearest temperature inside."""
    t = min(max(ROOM, of.t[0]), of.t[1])
    c0, c1, c2, c3, c4 = of.c
    return (c0 * solutes + c1) * exp(1e-6 * (t + c4) ** 2) / (solutes + c2 + c3 * t)


def water_density(celsius: float) -> float:
    """kg/m³ of water from 0 to 150 °C: Kell, J. Chem. Eng. Data 20 (1975) 97.

    >>> round(water_density(20), 2)
    998.2
    """
    t = celsius
    top = ((((-2.8054253e-10 * t + 1.0556302e-7) * t - 4.6170461e-5) * t - 0.0079870401) * t + 16.945176) * t
    return (top + 999.83952) / (1 + 0.01687985 * t)


def dry_share(formula: str, dry: str) -> Fraction:
    """Grams of the dry substance in one gram of a hydrate; 1 where the formula is already dry.

    `Refusal` (`density-other-substance`) where the one is no hydrate of the other.

    >>> round(float(dry_share("Na2CO3.10H2O", "Na2CO3")), 4)
    0.3704
    """
    water = molar_mass(formula) - molar_mass(dry)
    molecules = water / molar_mass("H2O")
    if molecules < -Fraction(1, 100) or abs(molecules - round(molecules * 2) / Fraction(2)) > Fraction(1, 100):
        raise Refusal(
            "density-other-substance",
            f"`{formula}` is not `{dry}` with water",
            "give the solution's density on the mixture instead",
        )
    return molar_mass(dry) / molar_mass(formula)


def read_densities(text: str, file: str, problems: Problems) -> dict[str, Coefficients] | None:
    """The table of `data/hazards/density.yaml`, or None when a problem was added."""
    root = compose(text, file, problems)
    if root is None:
        return None
    before = len(problems.found)
    found: dict[str, Coefficients] = {}
    for key, fields in root.maps():
        one = _coefficients(fields)
        if one is None:
            message = f"the coefficients of `{key.text}` are incomplete"
            remedy = "write `formula`, `c` with five numbers, `t` with two, `most`"
            problems.add(Problem(code="density-not-read", at=key.at, message=message, help=remedy))
        else:
            found[key.text] = one
    return found if len(problems.found) == before else None


def _coefficients(fields: MapNode) -> Coefficients | None:
    formula, most = text_at(fields, "formula"), text_at(fields, "most")
    c, t = _numbers(fields, "c"), _numbers(fields, "t")
    if not formula or not most or len(c) != 5 or len(t) != 2:
        return None
    return Coefficients(formula=formula.text, c=(c[0], c[1], c[2], c[3], c[4]), t=(t[0], t[1]), most=float(most.text))


def _numbers(fields: MapNode, name: str) -> list[float]:
    node = fields.get(name)
    if not isinstance(node, ListNode):
        return []
    return [float(item.text) for item in node.items if isinstance(item, TextNode)]
