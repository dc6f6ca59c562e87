"""What a recipe sheet says: every word and figure of it, ready to set, nothing left to compute.

As written, every mixture that the recipe needs or works with stands at the size its author gave it, those of other
recipes, too: nobody at the tray goes for another sheet. The recipe's hazard block covers them all (checked); of the
others' blocks stands what it is not checked for. A scaled sheet has every batch that the answers need, across
recipes, what they take all in all, and the whole hazard block of each recipe it mixes from.
"""

from collections.abc import Iterable, Iterator
from typing import Final

from sitegen.compute.scale import Scaled, ScaledMixture
from sitegen.compute.together import Together
from sitegen.compute.whole import Computed
from sitegen.labels.archive import labels_of
from sitegen.labels.label import NOTICE
from sitegen.model.archive import Archive
from sitegen.model.layers import Layer
from sitegen.model.origin import Credit
from sitegen.model.recipe import Recipe, Stage, Step
from sitegen.model.reference import find_link, resolve_amount, split_scheme
from sitegen.problems import Refusal
from sitegen.render.address import address_of
from sitegen.render.exposing import ExposureViews, exposure_views, strip_line
from sitegen.render.links import recipe_path, sheet_place
from sitegen.render.mixture import needed
from sitegen.render.preflight import Preflight, preflights
from sitegen.render.sheet_batch import batch_of, in_one_piece, owner_of
from sitegen.render.sheet_label import sign_drawings
from sitegen.render.sheet_model import Caution, SheetData, SheetPreflight, SheetStage, SheetStep
from sitegen.render.sheet_text import Follow, prose
from sitegen.render.sheet_total import stock_rows, thing_rows
from sitegen.render.timeline_view import timeline_view
from sitegen.render.warned import left_to_say, sheet_caution
from sitegen.render.water_sheet import with_water
from sitegen.render.wording import NO_BREAK, shown_text, spoken
from sitegen.render.written import written_amounts

COMES_FIRST: Final = "The supplier's safety data sheets, your local rules and licensed practice come first."
STANDING_LINE: Final = f"{COMES_FIRST} This sheet is how one studio works."

_EPOCH: Final = 719_163  # the ordinal of 1970-01-01


def sheet_data(computed: Computed, recipe: Recipe, answer: Together | None = None) -> SheetData:
    """The sheet of a recipe as written, or of the answer to questions about it, with what that takes all in all.

    Sentences follow the amounts of the batches on the sheet; an amount that no batch gives is left out of the
    sentence.
    """
    archive, settings = computed.archive, computed.archive.settings
    as_is = answer is None
    found = tuple(_needed(computed, recipe)) if answer is None else answer.batches
    shown = _amounts(found)
    follow = _follow(recipe, archive, shown)
    exposures = exposure_views(recipe)
    find = labels_of(computed)
    labels = {m.plan.id: find(m.plan.id) for m in found}
    said = [*computed.warnings.get(recipe.slug, ()), *(answer.warnings if answer else ())]
    return SheetData(
        language=settings.language,
        code=recipe.code,
        title=recipe.title,
        summary=recipe.summary,
        revision=str(recipe.revision),
        revised=recipe.revised.isoformat(),
        dated=(recipe.revised.toordinal() - _EPOCH) * 86_400,
        status="" if recipe.status == "settled" else recipe.status,
        studio=settings.studio,
        address=address_of(settings, recipe_path(recipe.slug)),
        lookup=address_of(settings, sheet_place(recipe.code, recipe.revision)),
        asked=tuple(_asked(s) for s in answer.answers) if answer else ("Amounts as written",),
        standing=STANDING_LINE,
        cautions=tuple(_cautions(found, recipe, archive, as_is=as_is)),
        warnings=tuple(dict.fromkeys(said)),
        needs=recipe.needs,
        batches=tuple(
            batch_of(
                m,
                recipe,
                archive,
                (_follow(owner_of(m.plan.id, archive), archive, shown), labels[m.plan.id]),
                as_is=as_is,
            )
            for m in found
        ),
        as_written=as_is,
        stocks=stock_rows(answer) if answer else (),
        things=thing_rows(answer) if answer else (),
        layers=tuple(_layer(layer) for layer in recipe.layers),
        preflights=tuple(_preflight(card, exposures) for card in preflights(recipe)),
        timeline=timeline_view(recipe),
        stages=with_water(
            tuple(_stage(n, s, follow, exposures) for n, s in enumerate(recipe.stages, start=1)), recipe, archive
        ),
        disputes=tuple(dispute.about for dispute in recipe.disputes),
        credits=tuple(_credits(recipe, archive)),
        licence=settings.licence,
        signs=sign_drawings(one.label for one in labels.values()),
        notice=NOTICE,
    )


def spoken_behind(computed: Computed, recipe: Recipe) -> Follow:
    """What to say behind a link in the recipe's prose: amounts as written, and codes of other recipes."""
    return _follow(recipe, computed.archive, _amounts(_needed(computed, recipe)))


def _needed(computed: Computed, recipe: Recipe) -> Iterator[ScaledMixture]:
    """Every mixture that the recipe needs or works with, as its author wrote it, each before what is mixed from it."""
    return map(written_amounts(computed), needed(computed.targets[recipe.slug]))


_Amounts = dict[tuple[str, str | None], str]


def _amounts(found: Iterable[ScaledMixture]) -> _Amounts:
    """What a sentence may say of each batch and line; each mixture is a batch once."""
    given: _Amounts = {}
    for mixture in found:
        given[mixture.plan.id, None] = in_one_piece(shown_text(mixture.shown))
        for line in mixture.lines:
            text = in_one_piece(shown_text(line.shown)) if line.shown else line.line.written
            lead = f"up to{NO_BREAK}" if line.line.fill else ""
            given[mixture.plan.id, line.line.key] = lead + text
    return given


def _follow(recipe: Recipe, archive: Archive, shown: _Amounts) -> Follow:
    """Behind a live amount its figure; behind a link to another recipe that recipe's code."""

    def behind(address: str) -> str:
        scheme, target = split_scheme(address)
        if scheme == "amount":
            try:
                ref = resolve_amount(recipe, archive, target)
            except Refusal:  # this edition does not hold it
                return ""
            return shown.get((ref.mixture, ref.line), "")
        if scheme not in ("recipe", "mixture", "trouble"):
            return ""
        place = find_link(recipe, archive, scheme, target)  # type: ignore[arg-type]  # just checked
        if place is None:
            return ""
        other = archive.recipe_named[place.id.partition("/")[0]]
        return "" if other == recipe else other.code

    return behind


def _asked(scaled: Scaled) -> str:
    size, base, name = in_one_piece(shown_text(scaled.mixtures[-1].shown)), scaled.target.base, scaled.target.name
    return f"{name} for {size} of {base}" if base else f"For {size} of {name}"


def _cautions(found: tuple[ScaledMixture, ...], recipe: Recipe, archive: Archive, *, as_is: bool) -> Iterator[Caution]:
    """The recipe's own block, and what comes from each other recipe that is mixed here; nothing twice as written."""
    own = sheet_caution(recipe, archive)
    yield own
    said = {text for _, texts in own.lines for text in texts}
    for slug in dict.fromkeys(m.plan.id.partition("/")[0] for m in found):
        if slug != recipe.slug:
            other = archive.recipe_named[slug]
            whole = sheet_caution(other, archive, of=f"{other.code} {other.title}")
            caution = left_to_say(whole, said) if as_is else whole
            if caution.lines:
                yield caution
            said |= {text for _, texts in caution.lines for text in texts}


def _layer(layer: Layer) -> tuple[str, ...]:
    """Name, negative and exposure, in words."""
    negative, expose = layer.negative, layer.expose
    marks: list[str] = []
    if negative:
        edge = f"top edge {negative.top_edge}" if negative.top_edge else ""
        faces = negative.faces.written if negative.faces else ""
        turned = {True: "mirrored", False: "not mirrored", None: ""}[negative.mirrored]
        marks = [part for part in (negative.label, faces, edge, turned) if part]
    light: list[str] = []
    if expose:
        distance = f"at {spoken(expose.distance)}" if expose.distance else ""
        light = [part for part in (expose.to, spoken(expose.lasts) if expose.lasts else "", distance) if part]
    return layer.name, ", ".join(marks), ", ".join(light)


def _preflight(card: Preflight, exposures: ExposureViews) -> SheetPreflight:
    film = f", film {card.layer.negative.label}" if card.layer.negative and card.layer.negative.label else ""
    exposure = exposures.of_layer(card.layer.name)
    return SheetPreflight(
        name=f"Before exposure {card.number}: {card.layer.name}{film}",
        stage=exposure.found.place.stage if exposure and exposure.found.place else 0,
        size=card.size,
        strip=strip_line(exposure.found.strip) if exposure and exposure.found.strip else "",
        drawings=tuple((str(d.svg), d.alt, d.width) for d in card.drawings),
        checks=card.checks,
    )


def _stage(number: int, stage: Stage, follow: Follow, exposures: ExposureViews) -> SheetStage:
    return SheetStage(
        title=stage.title,
        light=stage.light,
        steps=tuple(
            _step(step, follow, _strip_at(number, n, exposures)) for n, step in enumerate(stage.steps, start=1)
        ),
        then=spoken(stage.then_wait) if stage.then_wait else "",
        checks=stage.checks,
    )


def _strip_at(stage: int, step: int, exposures: ExposureViews) -> str:
    """The strip of an exposure that no layer tells; a layer's stands on its card."""
    view = exposures.at_step(stage, step)
    return strip_line(view.found.strip) if view and view.found.strip and not view.found.layer else ""


def _step(step: Step, follow: Follow, strip: str) -> SheetStep:
    remarks = (
        ("Strip, half stops", strip),
        ("Light", step.light),
        ("Look for", step.look_for),
        ("Look in", step.look_in),
        ("Caution", step.caution),
    )
    return SheetStep(
        do=prose(step.do.text, follow),
        figures=tuple(spoken(q) for q in (step.lasts, step.temperature) if q),
        remarks=tuple((label, text) for label, text in remarks if text),
    )


def _credits(recipe: Recipe, archive: Archive) -> Iterator[str]:
    parent = recipe.derived_from and archive.recipe_named.get(recipe.derived_from.recipe)
    if parent and recipe.derived_from:
        yield f"Derived from {parent.code} {parent.title}: {recipe.derived_from.changes}"
    for credit in recipe.credits:
        yield _credit(credit)


def _credit(credit: Credit) -> str:
    parts = (f"{credit.relation.capitalize()}: {credit.work}", credit.licence, credit.address)
    return ". ".join(part.rstrip(".") for part in parts if part) + ("" if credit.address else ".")
