"""The JSON Schema takes what the check takes, also as plain tools read it, and refuses shapes alike."""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
import yaml
from jsonschema import Draft202012Validator

from sitegen.problems import Problems
from sitegen.read import compose
from sitegen.read.nodes import to_data
from sitegen.schema import (
    archive_schema,
    dispute_schema,
    recipe_schema,
    substance_schema,
    trial_schema,
    trouble_schema,
)
from tests.golden_cases import Case, cases, sound

CONTENT = Path(__file__).parents[1] / "content"
CARDS = Path(__file__).parents[1] / "sitegen/data/substances"
Make = Callable[[], dict[str, Any]]

# Which mistakes lie in one value or one group of fields? These the schema must see, too.
STRUCTURAL = {
    "amount-not-read", "bad-address", "bad-batch-code", "bad-code", "bad-dilution", "bad-facing", "bad-formula",
    "bad-id", "bad-language", "bad-revision", "bad-size", "bad-time-mark", "bad-vessel", "field-missing",
    "fields-expected",
    "hazards-missing", "list-empty", "list-expected", "not-yes-or-no", "nothing-here", "number-comma",
    "number-exponent", "number-two-readings", "percent-not-read", "picture-alt-missing", "ratio-two-readings",
    "text-expected", "time-two-readings", "unit-not-measured", "unit-two-readings", "unknown-choice", "unknown-field",
    "unknown-unit", "wrong-dimension",
}  # fmt: skip


class _Core(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):  # type: ignore[misc]
    """The core schema of YAML 1.2, as plain tools read it: numbers, true and false, null; no dates."""


_Core.yaml_implicit_resolvers = {}
for _tag, _pattern, _first in (
    ("null", r"~|null|Null|NULL|", ["~", "n", "N", ""]),
    ("bool", "true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+", list("-+0123456789")),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", list("-+.0123456789")),
):
    _Core.add_implicit_resolver(f"tag:yaml.org,2002:{_tag}", re.compile(f"^(?:{_pattern})$"), _first)


def as_text(text: str) -> Any:
    root = compose(text, "x.yaml", Problems())
    return to_data(root) if root else None


def as_core(text: str) -> Any:
    return _with_text_keys(yaml.load(text, Loader=_Core))  # noqa: S506  # derived from the safe loader


def _with_text_keys(value: Any) -> Any:
    """As JSON has it: names of fields are texts, even `28: {…}`."""
    if isinstance(value, list):
        return [_with_text_keys(item) for item in value]
    return {str(k): _with_text_keys(v) for k, v in value.items()} if isinstance(value, dict) else value


MAKES: tuple[Make, ...] = (
    recipe_schema,
    substance_schema,
    archive_schema,
    trouble_schema,
    dispute_schema,
    trial_schema,
)
FILES: list[tuple[Path, Make]] = [
    *((path, recipe_schema) for path in sorted((CONTENT / "recipes").glob("*.yaml"))),
    *((path, substance_schema) for path in sorted((CONTENT / "substances").glob("*.yaml"))),
    *((path, substance_schema) for path in sorted(CARDS.glob("*.yaml"))),
    *((path, trouble_schema) for path in sorted((CONTENT / "troubles").glob("*.yaml"))),
    *((path, dispute_schema) for path in sorted((CONTENT / "disputes").glob("*.yaml"))),
    *((path, trial_schema) for path in sorted((CONTENT / "journal").glob("*.yaml"))),
    (CONTENT / "archive.yaml", archive_schema),
]


@pytest.mark.parametrize("read", [as_text, as_core])
def test_every_file_that_comes_with_the_program_is_valid(read: Callable[[str], Any]) -> None:
    validators = {make: Draft202012Validator(make()) for make in MAKES}
    wrong = [
        f"{path.name}: {error.json_path} {error.message[:200]}"
        for path, make in FILES
        for error in validators[make].iter_errors(read(path.read_text(encoding="utf-8")))
    ]
    assert wrong == []


@pytest.mark.parametrize("make", MAKES)
def test_the_schemas_are_schemas(make: Make) -> None:
    Draft202012Validator.check_schema(make())
    assert make()["additionalProperties"] is False


@pytest.mark.parametrize("make", MAKES)
def test_every_field_is_described(make: Make) -> None:
    made = make()
    groups = [made, *made["$defs"].values()]
    fields = [(name, field) for group in groups for name, field in group["properties"].items()]
    assert [n for n, f in fields if not f.get("description") and "$ref" not in f] == []
    assert all(group["additionalProperties"] is False and group["description"] for group in groups)


def schema_of(case: Case) -> tuple[str, Make]:
    names: dict[str, Make] = {
        "recipes/recipe.yaml": recipe_schema,
        "archive.yaml": archive_schema,
        "substances/substance.yaml": substance_schema,
    }
    names |= {name: trial_schema for name in case.own if name.startswith("journal/")}
    return next((case.own[name], make) for name, make in names.items() if name in case.own)


@pytest.mark.parametrize(
    "case", [c for c in cases() if c.folder.name in STRUCTURAL], ids=lambda case: str(case.folder.name)
)
def test_mistakes_of_shape_are_refused_by_schema_and_check(case: Case) -> None:
    text, make = schema_of(case)
    assert not Draft202012Validator(make()).is_valid(as_text(text))
    assert not Draft202012Validator(make()).is_valid(as_core(text))


def test_every_mistake_of_shape_is_a_case() -> None:
    assert {case.folder.name for case in cases()} >= STRUCTURAL


def test_numbers_and_texts_are_taken_alike() -> None:
    text = sound()["recipes/recipe.yaml"]
    validator = Draft202012Validator(recipe_schema())
    assert as_core(text)["revision"] == 3
    assert validator.is_valid(as_core(text))
    assert as_text(text)["revision"] == "3"
    assert validator.is_valid(as_text(text))
