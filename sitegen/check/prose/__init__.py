"""Prose: what an author's sentences say is held against the structured figures and names."""

from sitegen.check.prose.check import check_prose

__all__ = ["check_prose"]
