"""What a bath does before it is spent, in words: its capacity, never without the caution that belongs to it."""

from sitegen.compute.needed import UNTESTED
from sitegen.model.recipe import Mixture

_THEN = {"replace": ", then replace it whole", "replenish": "; replenish it as it is used", None: ""}


def capacity_words(mixture: Mixture) -> str:
    """`20 sheets of 20x25 cm per l, then replace it whole. Caution: …`, or '' where nothing is said."""
    if mixture.capacity is None:
        return ""
    written = mixture.capacity.written.replace("x", "×")
    return f"{written}{_THEN[mixture.when_spent]}. Caution: {UNTESTED}."
