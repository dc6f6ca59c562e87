"""A page: bytes and the path they are written to, below one edition's folder. Writing is `write`."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One file of an edition; `path` has forward slashes and never leaves the folder."""

    path: str
    content: bytes
