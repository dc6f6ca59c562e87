"""Origin: which fields say where a recipe comes from, whose it is, and what its revisions changed.

How these hang together is `origin`.
"""

from typing import Annotated, Any, Final

from pydantic import BeforeValidator, Field, GetJsonSchemaHandler
from pydantic_core import CoreSchema

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.model.origin import Relation


class CreditDoc(Document):
    """Where a recipe comes from."""

    work: t.Text = Field(description="Author, work, year.")
    relation: Relation = Field(description="How close this recipe is to it.")
    licence: t.Text | None = Field(None, description="On what ground it is used: facts in our own words.")
    address: t.Address | None = Field(None, description="Where it can be read.")


class OwnOrListed:
    """A recipe's credits: the one word `own`, or a list."""

    @staticmethod
    def spread(value: object) -> object:
        """The short form as the long one."""
        return [{"work": OWN_WORK, "relation": "own"}] if value == "own" else value

    @classmethod
    def __get_pydantic_json_schema__(cls, core: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        return {"anyOf": [{"const": "own"}, handler(core)]}


OWN_WORK: Final = "Worked out for this archive"
CreditDocs = Annotated[tuple[CreditDoc, ...], BeforeValidator(OwnOrListed.spread), OwnOrListed]


class ParentDoc(Document):
    """The recipe this one varies."""

    recipe: t.Text = Field(description="File name of that recipe, without .yaml.")
    changes: t.Text = Field(description="What was changed, in a sentence.")
    compare: dict[t.Key, t.Id] = Field(
        {}, description="A mixture of this recipe, and the parent's it stands for, where names do not tell."
    )


class BeforeDoc(Document):
    """Figures as they were before a revision."""

    amounts: dict[str, t.AmountOrNone] = Field(
        {}, description="By what an `amount:` link names: `part-a/salt: 20 g`, or `none` for what was not there."
    )
    times: dict[str, t.TimeOrNone] = Field(
        {}, description="By stage and step: `Expose/1: 8 min`, or `none` for a step without a time."
    )


class ChangeDoc(Document):
    """What one revision changed."""

    revision: t.Revision = Field(description="The revision that changed it.")
    what: t.Text = Field(description="What is different, in a sentence; feeds and posts say it.")
    corrects: t.Text | None = Field(None, description="The mistake in the sheets before it, if there was one.")
    before: BeforeDoc = Field(
        default_factory=lambda: BeforeDoc.model_validate({}),
        description="Amounts and times as they were before it.",
    )
