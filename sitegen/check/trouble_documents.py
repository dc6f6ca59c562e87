"""Trouble documents: what goes wrong and why, in a recipe or in a file of the archive's own."""

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document, EditionOf
from sitegen.model.recipe import Seen


class CauseDoc(Document):
    """A likely cause of a trouble."""

    cause: t.Text = Field(description="What happened.")
    remedy: t.Text = Field(description="What to do next time.")
    check: t.Text | None = Field(None, description="The first thing to look at.")
    save: t.Text | None = Field(None, description="What can save this print.")
    step: t.Texts = Field((), description="Where it is caused: Coat, or Coat/2 for the second step of it.")
    old_stock: t.Text | None = Field(None, description="Whether old stock causes it: yes, or the mixture that is old.")
    edition: EditionOf = None


class TroubleDoc(Document):
    """What went wrong, and why."""

    symptom: t.Text = Field(description="What is seen: Blues wash away.")
    stage: Seen | None = Field(None, description="In which part of the work it is seen.")
    words: t.Texts = Field((), description="Other words for it, such as a beginner's.")
    causes: tuple[CauseDoc, ...] = Field(min_length=1, description="Likeliest first.")
    edition: EditionOf = None


class SharedTroubleDoc(TroubleDoc):
    """A trouble of all recipes of some processes."""

    processes: tuple[t.Id, ...] = Field(min_length=1, description="Whose recipes it happens in.")
