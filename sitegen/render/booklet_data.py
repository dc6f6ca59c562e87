"""What a booklet says: the sheet's words as written, its steps with their pictures, and the troubles, ready to set.

A recipe without stages has none: its sheet says everything. Pictures and words are those that the edition's readers
may see, since they come from that edition's recipes.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from sitegen.compute.whole import Computed
from sitegen.model.dispute import Dispute
from sitegen.model.recipe import Cause, MovingPicture, Picture, Recipe, Stage, Step, Trouble
from sitegen.render.address import printed_address
from sitegen.render.booklet_model import (
    BookletCause,
    BookletData,
    BookletDispute,
    BookletStage,
    BookletStep,
    BookletTrouble,
    Figure,
    Moving,
)
from sitegen.render.pictures import Pictures
from sitegen.render.preflight import preflights
from sitegen.render.sheet_data import COMES_FIRST, sheet_data, spoken_behind
from sitegen.render.sheet_model import SheetStage, SheetStep
from sitegen.render.sheet_text import prose
from sitegen.render.trouble_pages import PARTS, step_link
from sitegen.render.warned import whole_caution
from sitegen.render.wording import clock, spoken

STANDING: Final = f"{COMES_FIRST} This booklet is how one studio works."

_PAGE_WORDS: Final = {"Look for": "Until", "Look in": "Judge in", "Caution": "Take care"}
"""What a page calls the remarks of a step that a sheet has less room for."""


def booklet_data(computed: Computed, recipe: Recipe, edition: str, pictures: Pictures) -> BookletData:
    """The booklet of a recipe as written, for the readers of an edition of that name.

    `pictures` hold all that the recipe shows.
    """
    archive, follow = computed.archive, spoken_behind(computed, recipe)
    cards = {card.layer.name: card.number for card in preflights(recipe)}
    sheet = sheet_data(computed, recipe)
    return BookletData(
        sheet=replace(sheet, standing=STANDING, cautions=(whole_caution(recipe, archive), *sheet.cautions[1:])),
        edition=archive.settings.audience(edition).name,
        takes=spoken(recipe.takes),
        about=prose(recipe.about.text, follow) if recipe.about else (),
        opening=_figure(recipe.image, pictures),
        stages=tuple(
            _stage(stage, told, cards.get(stage.layer, 0), pictures)
            for stage, told in zip(recipe.stages, sheet.stages, strict=True)
        ),
        disputes=tuple(_dispute(dispute) for dispute in recipe.disputes),
        troubles=tuple(_trouble(trouble, recipe) for trouble in recipe.troubles),
    )


def figures_of(data: BookletData) -> Iterator[Figure]:
    """Every picture of the booklet, in its order."""
    found = [data.opening]
    for step in (step for stage in data.stages for step in stage.steps):
        found += [step.picture, *step.pair, step.moving.still if step.moving else None]
    return (figure for figure in found if figure)


def _figure(picture: Picture | None, pictures: Pictures) -> Figure | None:
    return _drawn(picture, pictures) if picture else None


def _drawn(picture: Picture, pictures: Pictures, caption: str = "") -> Figure:
    whole = pictures[picture.file].whole
    return Figure(source=picture.file, alt=picture.alt, wide=whole.width, high=whole.height, caption=caption)


def _stage(stage: Stage, told: SheetStage, card: int, pictures: Pictures) -> BookletStage:
    return BookletStage(
        title=stage.title,
        layer=stage.layer,
        card=card,
        light=stage.light,
        steps=tuple(_step(step, said, pictures) for step, said in zip(stage.steps, told.steps, strict=True)),
        then=told.then,
        checks=stage.checks,
    )


def _step(step: Step, told: SheetStep, pictures: Pictures) -> BookletStep:
    pair = ((step.compare.before, "Before"), (step.compare.after, "After")) if step.compare else ()
    return BookletStep(
        do=told.do,
        figures=tuple((label, spoken(q)) for label, q in (("For", step.lasts), ("At", step.temperature)) if q),
        remarks=tuple((_PAGE_WORDS.get(label, label), text) for label, text in told.remarks),
        picture=_figure(step.image, pictures),
        pair=tuple(_drawn(picture, pictures, caption) for picture, caption in pair),
        moving=_moving(step.moving, pictures) if step.moving else None,
    )


def _moving(found: MovingPicture, pictures: Pictures) -> Moving:
    return Moving(
        still=_drawn(found.poster, pictures),
        title=found.title,
        address=found.address,
        marks=tuple((clock(moment), moment.says) for moment in found.marks),
    )


def _dispute(dispute: Dispute) -> BookletDispute:
    return BookletDispute(
        about=dispute.about,
        claims=tuple((c.says, c.source, c.address, printed_address(c.address)) for c in dispute.claims),
        here=dispute.here,
    )


def _trouble(trouble: Trouble, recipe: Recipe) -> BookletTrouble:
    return BookletTrouble(
        symptom=trouble.symptom,
        seen=PARTS[trouble.seen] if trouble.seen else "",
        causes=tuple(_cause(cause, recipe) for cause in trouble.causes),
    )


def _cause(cause: Cause, recipe: Recipe) -> BookletCause:
    facts = (("Look first", cause.check), ("Save this print", cause.save), ("Next time", cause.remedy))
    link = step_link(cause, recipe)
    return BookletCause(
        cause=cause.cause,
        facts=tuple((label, text) for label, text in facts if text),
        stage=link.stage if link else 0,
        step=link.step if link else 0,
        place=link.words if link else "",
    )
