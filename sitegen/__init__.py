"""Trayside: structured recipe files in, a searchable archive of tutorials out."""

from importlib.metadata import version

__all__ = ["__version__"]

__version__ = version("trayside")
