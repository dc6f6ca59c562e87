"""The check of dangerous pairs: what must not meet, and where in a recipe it would."""

from sitegen.check.pairs.check import check_pairs
from sitegen.check.pairs.lines import PairLine, pair_lines

__all__ = ["PairLine", "check_pairs", "pair_lines"]
