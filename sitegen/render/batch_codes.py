"""Batch codes on a recipe's page: what is pencilled on the bottle of a mixture that keeps, and until when it is good.

The day is put in by `assets/batch-code.js`, which is handed whole days or months and adds them like `compute.use_by`.
"""

from dataclasses import dataclass
from typing import Final

from sitegen.model.batch_code import batch_code_before
from sitegen.model.recipe import Mixture, Recipe
from sitegen.render.bottle_sheet import kept

_DAYS: Final = {"days": 1, "weeks": 7}
_MONTHS: Final = {"months": 1, "years": 12}


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchField:
    """The code up to the day, and the shorter keeping time in whole days or months; 0 where it is in the other."""

    before: str
    days: int
    months: int


def batch_fields(*recipes: Recipe) -> dict[str, BatchField]:
    """By mixture id, for every mixture of these recipes that is bottled."""
    return {m.id: _field(m, owner) for owner in recipes for m in kept(owner)}


def _field(mixture: Mixture, recipe: Recipe) -> BatchField:
    keeps = mixture.keeps
    assert keeps, "only what keeps is bottled"
    return BatchField(
        before=batch_code_before(recipe.code, recipe.revision, mixture.local),
        days=int(keeps.low * _DAYS.get(keeps.unit, 0)),
        months=int(keeps.low * _MONTHS.get(keeps.unit, 0)),
    )
