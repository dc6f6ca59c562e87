"""What a recipe page knows of its baths, for the sums of many prints: plain numbers that `assets/session.js` reads."""

from typing import Any

from sitegen.compute.plan import Target
from sitegen.model.recipe import Mixture, Recipe
from sitegen.render.frame import Frame, data_block

Json = dict[str, Any]


def session_fields(recipe: Recipe, frame: Frame) -> dict[str, Any]:
    """What `session.html` shows; `session` is None where the recipe has no bath that a print lies in."""
    archive = frame.computed.archive
    baths = [
        _bath(target, mixture)
        for target in frame.computed.targets[recipe.slug]
        if _is_bath(target, mixture := archive.mixtures[target.id], recipe)
    ]
    return {"session": data_block(baths) if baths else None}


def _is_bath(target: Target, mixture: Mixture, recipe: Recipe) -> bool:
    """Made by volume, not brushed on, and not only a part of something else of the recipe."""
    part = any(line.mixture == mixture.id for other in recipe.mixtures for line in other.lines)
    by_volume = target.size == "volume" or (target.size == "mass" and target.density is not None)
    return by_volume and (mixture.capacity is not None or (mixture.coverage is None and not part))


def _bath(target: Target, mixture: Mixture) -> Json:
    return {
        "mix": target.local,
        "name": mixture.name,
        "capacity": str(mixture.capacity.area) if mixture.capacity else None,
        "keeps": str(mixture.keeps.base()[0]) if mixture.keeps else None,
        "spent": mixture.when_spent,
    }
