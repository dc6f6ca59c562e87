"""Checking: trees of nodes to the domain's archive, with every problem at its place."""

from sitegen.check.archive import check_archive

__all__ = ["check_archive"]
