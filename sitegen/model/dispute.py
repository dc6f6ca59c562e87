"""Disputes: a point on which sources disagree, with every claim and the author's own result. None is settled here."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Claim:
    """What one source says; `address` is where it can be read, or ''."""

    says: str
    source: str
    address: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dispute:
    """At least two claims about one point. `id` is the slug of what it is about."""

    id: str
    about: str
    claims: tuple[Claim, ...]
    here: str = ""
    """What the author found; '' where it was not tried."""
    shared: bool = False
    """Whether it was drawn from the archive's own disputes, for all recipes of a process."""
    edition: str = ""
