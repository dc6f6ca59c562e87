"""Usual cautions that no ingredient implies: lamps, dust, kitchen things, children, heat, stains.

They come from a recipe's stages and kit by the words and figures of `data/hazards/cautions.yaml`, which says what
each field means. They stand beside the author's hazard block and never in the place of it; one is left out only
where the block has its word. Labels and dangerous pairs are elsewhere.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Final

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.check.faults import read_document
from sitegen.check.pairs.present import present
from sitegen.check.pairs.texts import named, told
from sitegen.model.amount import Unscaled
from sitegen.model.archive import Archive
from sitegen.model.quantity import Quantity, format_quantity
from sitegen.model.recipe import Hazards, Recipe
from sitegen.problems import Problems
from sitegen.read.compose import compose
from sitegen.read.hazard_tables import hazard_table

FILE: Final = "cautions.yaml"


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualCaution:
    """One caution to print: `because` is what of the recipe brought it up."""

    id: str
    name: str
    says: str
    because: str
    source: str


class CautionDoc(Document):
    """A caution of the table."""

    name: t.Text
    says: t.Text
    words: tuple[t.Text, ...] = ()
    but_not: tuple[t.Text, ...] = ()
    over: t.Temperature | None = None
    standing: t.Time | None = None
    weighed: t.Flag = False
    not_of: tuple[t.Text, ...] = ()
    groups: tuple[t.Text, ...] = ()
    said: tuple[t.Text, ...] = Field(min_length=1)
    source: t.Text


class CautionTable(Document):
    """Everything the file holds."""

    cautions: dict[str, CautionDoc]


@cache
def caution_table() -> CautionTable:
    """The table that comes with the program."""
    problems = Problems()
    root = compose(hazard_table(FILE), FILE, problems)
    found = read_document(CautionTable, root, problems) if root else None
    assert found is not None, problems.in_order()
    return found


def usual_cautions(recipe: Recipe, archive: Archive) -> tuple[UsualCaution, ...]:
    """The cautions of a recipe, in the order of the table, without those that its own block has the word of."""
    found = []
    texts = tuple(_texts(recipe))
    block = _guarding(recipe.hazards)
    for id_, doc in caution_table().cautions.items():
        if named(block, _small(doc.said)):
            continue
        if because := next(_reasons(doc, texts, recipe, archive), ""):
            found.append(UsualCaution(id=id_, name=doc.name, says=doc.says, because=because, source=doc.source))
    return tuple(found)


def _guarding(block: Hazards) -> tuple[str, ...]:
    """What a block says ahead of an accident: first aid for scalds is no warning of heat."""
    return (*block.wear, *block.air, *block.never, *block.note)


def _texts(recipe: Recipe) -> Iterator[str]:
    """Where words are looked for: not in what is looked for in a print, nor in troubles."""
    yield from recipe.needs
    for layer in recipe.layers:
        yield layer.expose.to if layer.expose else ""
    for mixture in recipe.mixtures:
        yield from (prose.text for prose in mixture.mixing)
    for stage in recipe.stages:
        yield from (stage.title, stage.light)
        for step in stage.steps:
            yield from (step.do.text, step.light, step.caution)


def _small(words: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(word.casefold() for word in words)


def _reasons(doc: CautionDoc, texts: tuple[str, ...], recipe: Recipe, archive: Archive) -> Iterator[str]:
    """Everything that brings a caution up, in words."""
    if doc.words and (word := told(texts, _small(doc.words), _small(doc.but_not))):
        yield f"the recipe says “{word}”"
    if doc.over:
        yield from _warm(doc.over, recipe)
    if doc.standing:
        yield from _standing(doc.standing, recipe)
    if doc.weighed and (names := _powders(recipe, archive, doc.not_of)):
        yield f"weighed here: {', '.join(names)}"
    held = (one for mixture in recipe.mixtures for one in present(mixture, archive) if one.groups & set(doc.groups))
    if names := tuple(dict.fromkeys(one.name for one in held)):
        yield f"it holds {', '.join(names)}"


def _warm(limit: Quantity, recipe: Recipe) -> Iterator[str]:
    for stage in recipe.stages:
        for step in stage.steps:
            if step.temperature and step.temperature.base()[1] > limit.base()[1]:
                yield f"a step is at {format_quantity(step.temperature)}"


def _standing(limit: Quantity, recipe: Recipe) -> Iterator[str]:
    least = limit.base()[0]
    for stage in recipe.stages:
        if stage.then_wait and stage.then_wait.base()[1] >= least:
            yield f"“{stage.title}” ends in a wait of {format_quantity(stage.then_wait)}"
        for step in stage.steps:
            if step.lasts and step.lasts.base()[1] >= least:
                yield f"a step takes {format_quantity(step.lasts)}"
    for mixture in recipe.mixtures:
        if mixture.keeps and mixture.keeps.base()[1] >= least:
            yield f"{mixture.name} is kept"


def _powders(recipe: Recipe, archive: Archive, not_of: tuple[str, ...]) -> tuple[str, ...]:
    """Solids that this recipe itself weighs out; those of other recipes' bottles are weighed there."""
    lines = (line for mixture in recipe.mixtures for line in mixture.lines if line.form)
    forms = (
        archive.forms[line.form]
        for line in lines
        if not isinstance(line.amount, Unscaled) and archive.substance_of[line.form].id not in not_of
    )
    return tuple(dict.fromkeys(form.name for form in forms if form.state == "solid"))
