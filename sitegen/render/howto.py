"""A recipe as schema.org HowTo in JSON-LD: supplies, tools, steps and times, for programs that read pages.

Vocabulary: https://schema.org/HowTo. A time that is a range is given as its upper end, so that nobody who plans by it
comes too short. Cautions come as tips, the hazard block as a section before the first step.
"""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any, Final

from sitegen.compute.rounding import to_step
from sitegen.compute.scale import ScaledLine
from sitegen.model.origin import Credit
from sitegen.model.quantity import Quantity, exact_text
from sitegen.model.recipe import Hazards, Recipe, Stage, Step
from sitegen.render.address import address_of, tag_of
from sitegen.render.frame import Frame
from sitegen.render.links import picture_path, recipe_path
from sitegen.render.sheet_data import STANDING_LINE, spoken_behind
from sitegen.render.sheet_text import Follow, prose, said
from sitegen.render.wording import NO_BREAK, unit_word

Json = dict[str, Any]

_CALENDAR: Final = {"months": "M", "years": "Y"}
"""Units without a fixed length: they are written as they are."""


def how_to(recipe: Recipe, frame: Frame) -> Json:
    """The recipe as data; addresses only where the archive has one."""
    settings, path = frame.computed.archive.settings, recipe_path(recipe.slug)
    follow = spoken_behind(frame.computed, recipe)
    found: Json = {
        "@context": "https://schema.org",
        "@type": "HowTo",
        "@id": tag_of(settings, "recipe", recipe.code) if settings.address else "",
        "name": recipe.title,
        "identifier": recipe.code,
        "description": recipe.summary,
        "inLanguage": settings.language,
        "dateModified": recipe.revised.isoformat(),
        "version": recipe.revision,
        "keywords": list(recipe.keywords),
        "url": address_of(settings, path),
        "image": _image(recipe, frame),
        # A licence is a URL or a work in this vocabulary, never plain text.
        "license": {"@type": "CreativeWork", "name": settings.licence} if settings.licence else None,
        "author": {"@type": "Organization", "name": settings.studio} if settings.studio else None,
        "citation": [_credit(credit) for credit in recipe.credits if credit.relation != "own"],
        "totalTime": duration(recipe.takes) if recipe.takes else "",
        "supply": list(_supplies(recipe, frame)),
        "tool": [{"@type": "HowToTool", "name": need} for need in recipe.needs],
        "step": [_precautions(recipe.hazards), *(_section(stage, follow) for stage in recipe.stages)],
    }
    return {key: value for key, value in found.items() if value}


def duration(quantity: Quantity) -> str:
    """A time as an ISO 8601 duration; of a range, the upper end.

    >>> duration(Quantity(low=Fraction(90), high=Fraction(100), unit="min"))
    'PT1H40M'
    >>> duration(Quantity(low=Fraction(2), high=Fraction(2), unit="months"))
    'P2M'
    """
    if quantity.unit in _CALENDAR and quantity.high.denominator == 1:
        return f"P{quantity.high}{_CALENDAR[quantity.unit]}"
    days, left = divmod(quantity.base()[1], 1440)
    hours, left = divmod(left, 60)
    minutes, left = divmod(left, 1)
    seconds = exact_text(to_step(left * 60, Fraction(1, 10))) if left else ""
    time = "".join(f"{count}{sign}" for count, sign in ((hours, "H"), (minutes, "M"), (seconds, "S")) if count)
    text = "P" + (f"{days}D" if days else "") + (f"T{time}" if time else "")
    return text if text != "P" else "PT0S"


def _image(recipe: Recipe, frame: Frame) -> Json | None:
    settings = frame.computed.archive.settings
    if not (recipe.image and settings.address):
        return None
    where = address_of(settings, picture_path(recipe.image.file))
    return {"@type": "ImageObject", "contentUrl": where, "caption": recipe.image.alt}


def _credit(credit: Credit) -> Json:
    found = {"@type": "CreativeWork", "name": credit.work, "url": credit.address}
    return {key: value for key, value in found.items() if value}


def _supplies(recipe: Recipe, frame: Frame) -> Iterator[Json]:
    """What is weighed out here, line by line as written; what is taken from another bottle of the recipe is not."""
    for mixture in recipe.mixtures:
        for line in frame.written(mixture.id).lines:
            if line.line.of in frame.computed.archive.forms:
                yield {
                    "@type": "HowToSupply",
                    "name": line.line.name,
                    "description": f"for {mixture.name}",
                    "requiredQuantity": _amount(line),
                }


def _amount(line: ScaledLine) -> Json | str:
    shown = line.shown
    if shown is None:
        return line.line.written
    unit = unit_word(shown.unit, shown.high)
    size = {"value": shown.high} if shown.low == shown.high else {"minValue": shown.low, "maxValue": shown.high}
    return {"@type": "QuantitativeValue", **{key: float(value) for key, value in size.items()}, "unitText": unit}


def _precautions(hazards: Hazards) -> Json:
    """The hazard block; the standing line first."""
    named = (
        ("Never", hazards.never),
        ("Wear", hazards.wear),
        ("Air", hazards.air),
        ("First aid", hazards.first_aid),
        ("Disposal", hazards.disposal),
        ("Note", hazards.note),
    )
    texts = [STANDING_LINE, *(f"{name}: {text}" for name, texts in named for text in texts)]
    tips = [{"@type": "HowToTip", "text": text} for text in texts]
    step = {"@type": "HowToStep", "name": "Read the hazards", "itemListElement": tips}
    return {"@type": "HowToSection", "name": "Before you begin", "itemListElement": [step]}


def _section(stage: Stage, follow: Follow) -> Json:
    steps = [_step(step, follow) for step in stage.steps]
    if stage.then_wait:
        wait = {"@type": "HowToDirection", "text": "Wait.", "performTime": duration(stage.then_wait)}
        steps.append({"@type": "HowToStep", "itemListElement": [wait]})
    return {"@type": "HowToSection", "name": stage.title, "itemListElement": steps}


def _step(step: Step, follow: Follow) -> Json:
    direction: Json = {"@type": "HowToDirection", "text": said(prose(step.do.text, follow)).replace(NO_BREAK, " ")}
    if step.lasts:
        direction["performTime"] = duration(step.lasts)
    remarks = (("", step.caution), ("Look for: ", step.look_for))
    tips = [{"@type": "HowToTip", "text": lead + text} for lead, text in remarks if text]
    return {"@type": "HowToStep", "itemListElement": [direction, *tips]}
