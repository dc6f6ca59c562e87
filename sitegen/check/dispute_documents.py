"""Dispute documents: on what sources disagree, in a recipe or in a file of the archive's own."""

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document, EditionOf


class ClaimDoc(Document):
    """What one source says."""

    says: t.Text = Field(description="The claim, in your own words.")
    source: t.Text = Field(description="Author, work, year.")
    address: t.Address | None = Field(None, description="Where it can be read.")


class DisputeDoc(Document):
    """A point on which sources disagree."""

    about: t.Text = Field(description="The point in a few words: how long the stock keeps.")
    # One alone is refused by `disputes`, which says why; editors are told by the schema.
    claims: tuple[ClaimDoc, ...] = Field(
        min_length=1, description="What each source says, at least two.", json_schema_extra={"minItems": 2}
    )
    here: t.Text | None = Field(None, description="Your own result, if you tried it.")
    edition: EditionOf = None


class SharedDisputeDoc(DisputeDoc):
    """A dispute of all recipes of some processes."""

    processes: tuple[t.Id, ...] = Field(min_length=1, description="Whose recipes it concerns.")
