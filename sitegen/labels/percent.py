"""Percent by weight from grams per litre: exact with a measured density, else an estimate that says so.

The limits of the rules are percent by weight, recipes are grams per litre. Where a solution is heavier than
water, taking the one for the other errs on the cautious side; where it may be lighter (alcohol, ammonia) it
would understate: the density is then estimated from the light liquids alone, and where the model does not know
them the share is not known.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from sitegen.labels.density import MODEL, DensityTable, dry_share, solution_density
from sitegen.labels.ingredient import Share
from sitegen.problems import Refusal

Pair = tuple[Fraction, Fraction]
How = Literal["measured", "model", "liquids", "cautious", "unknown"]
LIGHT_MATTERS: Final = Fraction(10)
"""g/l of a light liquid from which a solution may be lighter than water."""
SAYS: Final[dict[How, str]] = {
    "measured": "percent by weight from the mixture's own density",
    "model": f"percent by weight are estimates: {MODEL}",
    "liquids": f"percent by weight are estimates: {MODEL} from the light liquids and water alone; what is dissolved "
    "beside them makes it heavier, so that the shares are too high rather than too low",
    "cautious": "percent by weight are estimates: the density is not known, grams per 100 ml were taken for them, "
    "which for a solution heavier than water is the cautious side",
    "unknown": "percent by weight are not known: the mixture may be lighter than water; give its density",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Dissolved:
    """One pure substance in a litre of the mixture. `light`: a liquid or gas that may lower the density."""

    name: str
    substance: str
    formula: str
    grams_per_litre: Pair
    light: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """Percent by weight of each substance by name, on what density, and how that is known."""

    percent: dict[str, Share | None]
    density: Fraction | None
    how: How

    @property
    def estimate(self) -> bool:
        """Whether anything but a measured density stands behind the figures."""
        return self.how != "measured"

    @property
    def note(self) -> str:
        """How the shares are known, to be shown beside them."""
        return SAYS[self.how]


def shares(solution: Sequence[Dissolved], table: DensityTable, *, density: Fraction | None = None) -> Shares:
    """The share of each substance; `density` in g/ml when somebody measured it."""
    if density is not None:
        return _with(solution, (density, density), "measured")
    low, high = (_model(solution, table, end) for end in (0, 1))
    if low is not None and high is not None:
        return _with(solution, (low, high), "model")
    light = sum((s.grams_per_litre[1] for s in solution if s.light), Fraction(0))
    if light >= LIGHT_MATTERS:
        liquids = [s for s in solution if s.light]
        low, high = (_model(liquids, table, end) for end in (0, 1))
        if low is not None and high is not None and all(s.substance in table for s in liquids):
            return _with(solution, (low, high), "liquids")
        return Shares(percent=dict.fromkeys((s.name for s in solution), None), density=None, how="unknown")
    return _with(solution, (Fraction(1), Fraction(1)), "cautious")


def _with(solution: Sequence[Dissolved], density: Pair, how: How) -> Shares:
    found: dict[str, Share | None] = {}
    for one in solution:
        low, high = (g / (10 * d) for g, d in zip(one.grams_per_litre, density, strict=True))
        found[one.name] = Share(low=min(low, high), high=max(low, high))
    return Shares(percent=found, density=None if how == "cautious" else density[1], how=how)


def _model(solution: Sequence[Dissolved], table: DensityTable, end: int) -> Fraction | None:
    grams: dict[str, float] = {}
    for one in solution:
        weighed = one.grams_per_litre[end]
        key = one.substance
        if key in table and one.formula:
            try:
                weighed *= dry_share(one.formula, table[key].formula)
            except Refusal:
                key = one.name
        elif key in table:
            key = one.name
        grams[key] = grams.get(key, 0.0) + float(weighed)
    found = solution_density(grams, table)
    return found.value if found else None
