"""Document: what every group of fields in a file has in common. Which groups there are is in the `*_documents`."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field

from sitegen.check import leaves as t


class Document(BaseModel):
    """Any group of fields: unknown names are refused."""

    model_config = ConfigDict(
        extra="forbid",
        frozen=True,
        alias_generator=lambda name: name.rstrip("_").replace("_", " "),
    )


EditionOf = Annotated[t.Id | None, Field(description="Who may see it, if not all readers of the recipe.")]
