"""Hazards: what a recipe's ingredients ask of its hazard block, and whether the block says it."""

from sitegen.check.hazards.check import check_hazards

__all__ = ["check_hazards"]
