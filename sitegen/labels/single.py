"""The reason of rules by which one ingredient alone decides: sensitisers and CMR substances are never added up."""

from fractions import Fraction

from sitegen.labels.classes import HazardClass
from sitegen.labels.ingredient import Ingredient
from sitegen.labels.reason import Reason, percent, term


def at_limit(part: Ingredient, hazard: HazardClass, *, limit: Fraction, source: str, reached: bool) -> Reason:
    """One ingredient (percent by weight) against the limit of one class, as the table in `source` gives it."""
    return Reason(
        family=hazard.family,
        rule=f"one ingredient of {hazard.text} at its limit",
        source=source,
        terms=(term(part.name, part.high),),
        value=part.high,
        unit="%",
        threshold=f"≥ {percent(limit)}",
        result=hazard.text if reached else f"not {hazard.text}",
    )
