"""Faults: the schema library's errors in our own words, each at its place.

The library finds what is missing, unknown or of the wrong shape; none of its English is shown.
"""

from collections.abc import Sequence
from types import UnionType
from typing import Any, Final, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic_core import ErrorDetails

from sitegen.check.places import Places
from sitegen.problems import Problem, Problems, Refusal, Span, did_you_mean
from sitegen.read.nodes import MapNode, TextNode, to_data

D = TypeVar("D", bound=BaseModel)

_HAZARDS: Final = (
    "paste this block and fill it in from the safety data sheets of your suppliers:\n"
    "hazards:\n"
    "  wear: [nitrile gloves, eye protection]\n"
    "  air: Weigh powders away from draughts.\n"
    "  never: [Never …]\n"
    "  first aid: Rinse with plenty of water; get medical advice.\n"
    "  disposal: Collect it for a hazardous-waste point; local rules decide."
)


def read_document(
    model: type[D], root: MapNode, problems: Problems, *, context: dict[str, Any] | None = None
) -> D | None:
    """The document, or None when problems have been added."""
    try:
        return model.model_validate(to_data(root), context=context)
    except ValidationError as error:
        places = Places(root=root)
        details = error.errors(include_url=False, include_input=False)
        unknown = {tuple(d["loc"]) for d in details if d["type"] == "extra_forbidden"}
        at_fault = {tuple(d["loc"]) for d in details} - unknown
        spilled = {loc: owner for loc in unknown if (owner := _spilled_from(loc, unknown, places)) in at_fault}
        for detail in details:
            if not _told_already(detail, details, unknown, spilled):
                problems.add(_problem(model, detail, places, spilled=tuple(detail["loc"]) in spilled.values()))
        return None


Loc = tuple[str | int, ...]


def _told_already(
    detail: ErrorDetails, details: Sequence[ErrorDetails], unknown: set[Loc], spilled: dict[Loc, Loc]
) -> bool:
    """Whether another problem names the same mistake."""
    loc = tuple(detail["loc"])
    if detail["type"] == "too_short":
        return _holds_faults(loc, details)
    if detail["type"] == "missing":  # its misspelt name is told, with this one offered
        return any(other[:-1] == loc[:-1] and did_you_mean(str(other[-1]), [str(loc[-1])]) for other in unknown)
    return loc in spilled


def _spilled_from(loc: Loc, unknown: set[Loc], places: Places) -> Loc | None:
    """The empty field above, where an unknown one seems to belong below it and is not indented enough."""
    above = places.found(loc[:-1])[1]
    if not isinstance(above, MapNode):
        return None
    names = [key.text for key, _ in above.entries]
    for name in reversed(names[: names.index(str(loc[-1]))]):
        owner = (*loc[:-1], name)
        if owner not in unknown:
            return owner if _is_empty(owner, places) else None
    return None


def _holds_faults(loc: Sequence[str | int], details: Sequence[ErrorDetails]) -> bool:
    """Whether the list seems empty only because the library leaves out its faulty entries."""
    return any(len(d["loc"]) > len(loc) and tuple(d["loc"][: len(loc)]) == tuple(loc) for d in details)


def _problem(model: type[BaseModel], detail: ErrorDetails, places: Places, *, spilled: bool) -> Problem:
    loc, kind = detail["loc"], detail["type"]
    refusal = detail.get("ctx", {}).get("refusal")
    if kind not in ("missing", "extra_forbidden") and _is_empty(loc, places):
        nothing = f"nothing stands after `{_name(loc)}`"
        remedy = (
            "indent the lines that belong to it by two more spaces" if spilled else "write a value or delete the field"
        )
        refusal, at = Refusal("nothing-here", nothing, remedy), places.key(*loc)
    elif isinstance(refusal, Refusal):
        at = _leaf_place(loc, places)
    elif kind == "missing":
        refusal, at = _missing(model, loc), places.key(*loc[:-1])
    elif kind == "extra_forbidden":
        refusal, at = _unknown(model, loc, places), places.key(*loc)
    elif kind == "literal_error":
        refusal, at = _choice(model, loc, places), _leaf_place(loc, places)
    else:
        refusal, at = _shape(kind, _name(loc)), places.value(*loc)
    return Problem(code=refusal.code, at=at, message=refusal.message, help=refusal.help, notes=refusal.notes)


def _shape(kind: str, name: str) -> Refusal:
    """The refusal of a text, list or group of fields where another of the three is needed."""
    if kind == "too_short":
        return Refusal("list-empty", f"`{name}` holds nothing", "write at least one entry")
    if kind in ("tuple_type", "list_type"):
        remedy = f"write `{name}: [first, second]`, or one entry a line, each after `- `"
        return Refusal("list-expected", "a list was expected here", remedy)
    remedy = "write `name: value` on lines of their own, indented by two spaces"
    return Refusal("fields-expected", "fields were expected here", remedy)


def _is_empty(loc: Sequence[str | int], places: Places) -> bool:
    node = places.found(loc)[1]
    return isinstance(node, TextNode) and not node.text.strip()


def _leaf_place(loc: Sequence[str | int], places: Places) -> Span:
    # The key of a mapping is named by the library with `[key]`.
    return places.key(*loc) if loc[-1:] == ("[key]",) else places.value(*loc)


def _name(loc: Sequence[str | int]) -> str:
    return next((str(part) for part in reversed(loc) if isinstance(part, str)), "this file")


def _missing(model: type[BaseModel], loc: Sequence[str | int]) -> Refusal:
    name = str(loc[-1])
    if loc == ("hazards",) and "mixtures" in model.model_fields:
        notes = ("no recipe is published without one",)
        return Refusal("hazards-missing", "this recipe has no hazard block", _HAZARDS, notes)
    if name == "alt":
        remedy = "say in words what the picture shows: `alt: A hand brushing yellow liquid over paper`"
        return Refusal("picture-alt-missing", "this picture has no `alt`", remedy)
    field = _fields_at(model, loc[:-1]).get(name, "")
    says = (f"it says {field[:1].lower()}{field[1:].rstrip('.')}",) if field else ()
    parent = loc[:-1]
    entry = "this entry of " if parent and isinstance(parent[-1], int) else ""
    where = f" in {entry}`{_name(parent)}`" if parent else ""
    return Refusal("field-missing", f"`{name}` is missing{where}", f"add a line `{name}: …`", says)


def _unknown(model: type[BaseModel], loc: Sequence[str | int], places: Places) -> Refusal:
    name = str(loc[-1])
    known = _fields_at(model, loc[:-1])
    node = places.found(loc)[1]
    if isinstance(node, TextNode) and node.empty and " " in name:
        # `{cause: too hot, too long}`: the comma ends the value.
        return Refusal("unknown-field", f"`{name}` is read as the name of a field", "put a text with commas in quotes")
    listed = ", ".join(f"`{field}`" for field in known)
    remedy = did_you_mean(name, known) or (f"the fields here are {listed}" if known else "")
    return Refusal("unknown-field", f"there is no field `{name}` here", remedy)


def _choice(model: type[BaseModel], loc: Sequence[str | int], places: Places) -> Refusal:
    node = places.found(loc)[1]
    if not isinstance(node, TextNode):
        return Refusal("text-expected", "one word was expected here", "write one text")
    choices = _choices(model, loc)
    listed = " or ".join(f"`{choice}`" for choice in choices)
    remedy = did_you_mean(node.text, choices) or f"write {listed}"
    return Refusal("unknown-choice", f"`{node.text}` is not one of the words known here", remedy)


def _fields_at(model: type[BaseModel], loc: Sequence[str | int]) -> dict[str, str]:
    """Names and descriptions of the fields that the mapping at `loc` may have."""
    found = _model_at(model, loc)
    fields = found.model_fields.values() if found else ()
    return {str(field.alias): field.description or "" for field in fields}


def _model_at(model: type[BaseModel], loc: Sequence[str | int]) -> type[BaseModel] | None:
    here: Any = model
    for part in loc:
        if isinstance(part, int):
            continue  # an entry of a list: `_inner` has gone into it
        if isinstance(here, type) and issubclass(here, BaseModel):
            field = next((f for f in here.model_fields.values() if f.alias == part), None)
            here = field.annotation if field else None
            here = _inner(here) if here is not None and not _is_dict(here) else here
        elif _is_dict(here):
            here = _inner(get_args(here)[1])
    return here if isinstance(here, type) and issubclass(here, BaseModel) else None


def _is_dict(annotation: Any) -> bool:
    return getattr(annotation, "__origin__", None) is dict


def _inner(annotation: Any) -> Any:
    """The model inside `tuple[X, ...]`, `X | None`, `Annotated[X, …]`, if there is one."""
    if isinstance(annotation, type) and not get_args(annotation):
        return annotation
    inside = [_inner(part) for part in get_args(annotation) if part is not type(None)]
    return next((part for part in inside if isinstance(part, type) and issubclass(part, BaseModel)), None)


def _choices(model: type[BaseModel], loc: Sequence[str | int]) -> tuple[str, ...]:
    parent = _model_at(model, loc[:-1])
    fields = parent.model_fields.values() if parent else ()
    field = next((f for f in fields if f.alias == loc[-1]), None)
    return _literals(field.annotation) if field else ()


def _literals(annotation: Any) -> tuple[str, ...]:
    if isinstance(annotation, UnionType) or type(None) in get_args(annotation):
        return tuple(word for part in get_args(annotation) for word in _literals(part))
    return tuple(word for word in get_args(annotation) if isinstance(word, str))
