"""Reading: an archive's folder to texts and trees of nodes with places."""

from sitegen.read.compose import compose
from sitegen.read.folder import read_folder
from sitegen.read.sources import Sources, compose_sources

__all__ = ["Sources", "compose", "compose_sources", "read_folder"]
