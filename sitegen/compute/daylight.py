"""Daylight: which stages ask for it, by their own words for light. Not here: when the sky is bright.

A false yes costs the reader a look at the clock, a false no a print: every word for the sun or for daylight counts
that is not said to be kept away.
"""

import re
from collections.abc import Iterator
from typing import Final

from sitegen.model.recipe import Recipe, Stage

_BRIGHT: Final = re.compile(
    r"(?<!no )(?<!not )(?<!not direct )(?<!out of )(?<!out of the )"
    r"(?:\bsun(?:light|shine)?\b|\bdaylight\b|\bopen shade\b)",
    re.IGNORECASE,
)
_EXPOSES: Final = re.compile(r"\bexpose\b", re.IGNORECASE)


def asks_for_daylight(recipe: Recipe, stage: Stage) -> bool:
    """Whether a stage is done, exposed or judged by the light of the sky."""
    return any(_BRIGHT.search(text) for text in _said(recipe, stage))


def _said(recipe: Recipe, stage: Stage) -> Iterator[str]:
    yield stage.light
    exposes = False
    for step in stage.steps:
        yield from (step.light, step.look_in)
        if _EXPOSES.search(step.do.text):
            exposes = True
            yield step.do.text
    if exposes:
        yield from (layer.expose.to for layer in recipe.layers if layer.expose and layer.name == stage.layer)
