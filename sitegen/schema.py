"""JSON Schema of the file formats, for editors. Made from the check's own document models.

The check reads every value as text; plain YAML tools read `revision: 3` as a number. The schema takes
both. It knows single values and fields, not how values hang together: `proof` has the last word.
"""

from typing import Any, Final

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from sitegen.check.card_documents import CardDoc
from sitegen.check.dispute_documents import SharedDisputeDoc
from sitegen.check.documents import RecipeDoc
from sitegen.check.settings_documents import ArchiveDoc
from sitegen.check.trial_documents import TrialDoc
from sitegen.check.trouble_documents import SharedTroubleDoc

DIALECT: Final = "https://json-schema.org/draft/2020-12/schema"


class _Generator(GenerateJsonSchema):
    """Plain schemas: no invented titles, and nothing may be null: an empty field is a mistake."""

    def nullable_schema(self, schema: core_schema.NullableSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        return self.generate_inner(schema["schema"])

    def dict_schema(self, schema: core_schema.DictSchema) -> JsonSchemaValue:
        made = super().dict_schema(schema)
        return made | {"additionalProperties": False} if "patternProperties" in made else made

    def field_title_should_be_set(self, schema: object) -> bool:
        return False


def recipe_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of `recipes/*.yaml`."""
    return _schema(RecipeDoc, "A recipe")


def archive_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of `archive.yaml`."""
    return _schema(ArchiveDoc, "An archive's settings")


def substance_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of `substances/*.yaml`."""
    return _schema(CardDoc, "A substance card")


def trouble_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of `troubles/*.yaml`."""
    return _schema(SharedTroubleDoc, "A trouble that recipes share")


def dispute_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of `disputes/*.yaml`."""
    return _schema(SharedDisputeDoc, "A dispute that recipes share")


def trial_schema() -> dict[str, Any]:
    """JSON Schema (2020-12) of `journal/*.yaml`."""
    return _schema(TrialDoc, "An entry of the journal")


def _schema(model: type[BaseModel], title: str) -> dict[str, Any]:
    made = model.model_json_schema(by_alias=True, schema_generator=_Generator)
    return {"$schema": DIALECT, **_untitled(made), "title": title}


def _untitled(value: Any) -> Any:
    """Without the class names that the library adds as titles; a field may be called `title`."""
    if isinstance(value, list):
        return [_untitled(item) for item in value]
    if not isinstance(value, dict):
        return value
    return {key: _untitled(item) for key, item in value.items() if not (key == "title" and isinstance(item, str))}
