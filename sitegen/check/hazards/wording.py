"""Wording: lines for a hazard block that lacks a field, ready to paste and to be reworded.

Sober and general on purpose: what gloves, what mask and what first aid are right stands on the
supplier's safety data sheet, and where waste goes is decided by local rules.
"""

from collections.abc import Iterable, Iterator, Sequence
from typing import Final, assert_never

from sitegen.check.hazards.asks import FOR_COLLECTION, KEPT_FROM, Ask, BlockField, Ingredient, read_class

Asking = Sequence[tuple[Ingredient, tuple[Ask, ...]]]

# How do warnings begin that name no partner but something done?
_DEEDS: Final = ("dust", "breathing", "eating", "heating")
_BURNING: Final = frozenset({"skin corr.", "eye dam."})


def lines_to_paste(field: BlockField, asking: Asking) -> str:
    """The field as YAML, indented as in the block."""
    texts = list(dict.fromkeys(_texts(field, asking)))
    if len(texts) == 1:
        return f"  {field}: {_quoted(texts[0])}"
    return "\n".join((f"  {field}:", *(f"    - {_quoted(text)}" for text in texts)))


def _quoted(text: str) -> str:
    """A text that YAML reads as it stands."""
    plain = ": " not in text and " #" not in text and text[:1].isalnum()
    return text if plain else '"{}"'.format(text.replace("\\", "\\\\").replace('"', '\\"'))


def _texts(field: BlockField, asking: Asking) -> Iterator[str]:
    names = {read_class(ask.why).name for _, asks in asking for ask in asks}
    match field:
        case "wear":
            yield _wear(names)
        case "air":
            yield from _air(ingredient for ingredient, _ in asking)
        case "first aid":
            yield from _first_aid(names)
        case "disposal":
            yield from _disposal(ingredient for ingredient, _ in asking)
        case "never":
            for ingredient, _ in asking:
                yield from _never(ingredient)
        case _:
            assert_never(field)


def _wear(names: set[str]) -> str:
    gear = "Long chemical-resistant gloves, goggles and an apron" if names & _BURNING else "Gloves and eye protection"
    return f"{gear}, of the kind the safety data sheet names."


def _air(ingredients: Iterable[Ingredient]) -> Iterator[str]:
    for ingredient in ingredients:
        if ingredient.form.state in ("solid", "plant"):
            yield "Weigh powders in still air, raise no dust and do not breathe it."
        else:
            yield "Work with good ventilation and do not breathe vapour or mist."


def _first_aid(names: set[str]) -> Iterator[str]:
    if names & {"eye dam.", "eye irrit.", "skin corr."}:
        yield "Eyes. Rinse with running water for at least fifteen minutes, lenses out. Get medical help."
    if any(name.startswith("skin") for name in names):
        yield "Skin. Take off splashed clothing and rinse with plenty of water."
    if names - {"eye dam.", "eye irrit.", "skin corr.", "skin irrit.", "skin sens."}:
        yield "Swallowed or breathed in. Fresh air, no forced vomiting, and a call to the poison centre."
    yield "The safety data sheet says more. Have it at hand when you call the poison centre or a doctor."


def _disposal(ingredients: Iterable[Ingredient]) -> Iterator[str]:
    poison = [i.card.name for i in ingredients if FOR_COLLECTION & set(i.card.hazards.groups)]
    if poison:
        names = ", ".join(dict.fromkeys(poison))
        yield f"Collect {names} with rinses and residue for a licensed collector. Local rules decide."
    else:
        yield "Keep leftovers out of drains and streams. Local rules and the waste point say where they go."


def _never(ingredient: Ingredient) -> Iterator[str]:
    """What the card warns of, else what its groups are kept from, else heat: its class then asks alone."""
    name = ingredient.card.name[:1].upper() + ingredient.card.name[1:]
    own = ingredient.card.hazards.never
    groups = () if own else ingredient.card.hazards.groups
    warnings = own or tuple(KEPT_FROM[group] for group in groups if group in KEPT_FROM)
    for text in warnings or ("heat, flames and sparks",):
        what, colon, why = text.partition(": ")
        how = "Never" if what.startswith(_DEEDS) else "Keep it from"
        yield f"{name}. {how} {what}{f' ({why})' if colon else ''}."
