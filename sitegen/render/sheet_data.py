"""What a recipe sheet says: every word and figure of it, ready to set, nothing left to compute.

As written, each of the recipe's own mixtures stands at the size its author gave it, and a mixture of
another recipe is named by that recipe's code: it is mixed from its own sheet. A scaled sheet has every
batch that the answers need, across recipes, and the hazards of each recipe it mixes from.
"""

from collections.abc import Iterable, Iterator
from typing import Final

from sitegen.compute.scale import Scaled, ScaledLine, ScaledMixture
from sitegen.compute.whole import Computed
from sitegen.labels.archive import Labelled, labels_of
from sitegen.labels.label import NOTICE
from sitegen.model.amount import Absolute, FillUp
from sitegen.model.archive import Archive
from sitegen.model.layers import Layer
from sitegen.model.origin import Credit
from sitegen.model.recipe import Mixture, Recipe, Stage, Step
from sitegen.model.reference import resolve_amount, resolve_link, split_scheme
from sitegen.problems import Refusal
from sitegen.render.address import address_of
from sitegen.render.exposing import ExposureViews, exposure_views, strip_line
from sitegen.render.links import recipe_path, sheet_place
from sitegen.render.preflight import Preflight, preflights
from sitegen.render.sheet_label import label_in_short, sign_drawings
from sitegen.render.sheet_model import Batch, Caution, Row, SheetData, SheetPreflight, SheetStage, SheetStep
from sitegen.render.sheet_text import Follow, prose
from sitegen.render.spent import capacity_words
from sitegen.render.timeline_view import timeline_view
from sitegen.render.warned import sheet_caution
from sitegen.render.water_sheet import with_water
from sitegen.render.wording import (
    NO_BREAK,
    dilution_text,
    measure_of,
    shown_text,
    spoken,
    written_apart,
)
from sitegen.render.written import written_amounts

COMES_FIRST: Final = "The supplier's safety data sheets, your local rules and licensed practice come first."
STANDING_LINE: Final = f"{COMES_FIRST} This sheet is how one studio works."

_EPOCH: Final = 719_163  # the ordinal of 1970-01-01


def sheet_data(computed: Computed, recipe: Recipe, scaled: tuple[Scaled, ...] | None = None) -> SheetData:
    """The sheet of a recipe as written, or of the answers to questions about it.

    Sentences follow the amounts of the batches on the sheet; an amount that no batch gives, or that two
    batches give differently, is left out of the sentence.
    """
    archive, settings = computed.archive, computed.archive.settings
    found = tuple(_own(computed, recipe)) if scaled is None else tuple(m for s in scaled for m in s.mixtures)
    shown = _amounts(found)
    follow = _follow(recipe, archive, shown)
    exposures = exposure_views(recipe)
    find = labels_of(computed)
    labels = {m.plan.id: find(m.plan.id) for m in found}
    said = [*computed.warnings.get(recipe.slug, ()), *(w for s in scaled or () for w in s.warnings)]
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
        asked=tuple(_asked(s) for s in scaled or ()) or ("Amounts as written",),
        standing=STANDING_LINE,
        cautions=tuple(_cautions(found, recipe, archive)),
        warnings=tuple(dict.fromkeys(said)),
        needs=recipe.needs,
        batches=tuple(_batch(m, recipe, archive, (shown, labels[m.plan.id]), as_is=scaled is None) for m in found),
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
    return _follow(recipe, computed.archive, _amounts(_own(computed, recipe)))


def _own(computed: Computed, recipe: Recipe) -> Iterator[ScaledMixture]:
    """The recipe's mixtures as written, each before what is mixed from it."""
    written = written_amounts(computed)
    order = dict.fromkeys(m.id for t in computed.targets[recipe.slug] for m in t.mixtures)
    return (written(mixture) for mixture in order if mixture.startswith(f"{recipe.slug}/"))


_Amounts = dict[tuple[str, str | None], str]


def _amounts(found: Iterable[ScaledMixture]) -> _Amounts:
    """What a sentence may say of each batch and line; nothing where two batches differ."""
    given: dict[tuple[str, str | None], set[str]] = {}
    for mixture in found:
        given.setdefault((mixture.plan.id, None), set()).add(_kept(shown_text(mixture.shown)))
        for line in mixture.lines:
            text = _kept(shown_text(line.shown)) if line.shown else line.line.written
            lead = f"up to{NO_BREAK}" if line.line.fill else ""
            given.setdefault((mixture.plan.id, line.line.key), set()).add(lead + text)
    return {key: texts.pop() for key, texts in given.items() if len(texts) == 1}


def _follow(recipe: Recipe, archive: Archive, shown: _Amounts) -> Follow:
    """Behind a live amount its figure; behind a link to another recipe that recipe's code."""

    def behind(address: str) -> str:
        scheme, target = split_scheme(address)
        try:
            if scheme == "amount":
                ref = resolve_amount(recipe, archive, target)
                return shown.get((ref.mixture, ref.line), "")
            if scheme not in ("recipe", "mixture", "trouble"):
                return ""
            place = resolve_link(recipe, archive, scheme, target)  # type: ignore[arg-type]  # just checked
        except Refusal:  # this edition does not hold it
            return ""
        other = archive.recipe_named[place.id.partition("/")[0]]
        return "" if other == recipe else other.code

    return behind


def _asked(scaled: Scaled) -> str:
    size, base, name = _kept(shown_text(scaled.mixtures[-1].shown)), scaled.target.base, scaled.target.name
    return f"{name} for {size} of {base}" if base else f"For {size} of {name}"


def _batch(
    found: ScaledMixture, recipe: Recipe, archive: Archive, said: tuple[_Amounts, Labelled], *, as_is: bool
) -> Batch:
    shown, label = said
    mixture = archive.mixtures[found.plan.id]
    owner = archive.recipe_named[mixture.id.partition("/")[0]]
    follow = _follow(owner, archive, shown)
    return Batch(
        name=mixture.name if owner == recipe else f"{mixture.name} ({owner.code})",
        makes=_makes(found),
        rows=tuple(_row(line, mixture, owner, archive, as_is=as_is) for line in found.lines),
        facts=tuple(_facts(mixture)),
        mixing=tuple(prose(p.text, follow) for p in mixture.mixing),
        note=prose(mixture.note.text, follow) if mixture.note else (),
        label=label_in_short(label),
    )


def _makes(found: ScaledMixture) -> str:
    text = _kept(shown_text(found.shown))
    if found.plan.base:
        return f"for {text} of {found.plan.base}"
    return f"makes about {text}" if found.plan.estimate else f"makes {text}"


def _facts(mixture: Mixture) -> Iterator[tuple[str, str]]:
    if mixture.keeps:
        yield "Keeps", spoken(mixture.keeps)
    if mixture.store:
        yield "Store", mixture.store
    if mixture.coverage:
        yield "Coverage", f"{spoken(mixture.coverage)} each coat"
    if capacity := capacity_words(mixture):
        yield "Capacity", capacity
    if mixture.dilute:
        yield "Dilute", ", ".join(dilution_text(d) for d in mixture.dilute)


def _row(scaled: ScaledLine, mixture: Mixture, owner: Recipe, archive: Archive, *, as_is: bool) -> Row:
    line = next(line for line in mixture.lines if line.key == scaled.line.key)
    notes = [n.text() for n in scaled.notes if n.code != "words"]
    source = archive.recipe_named[line.mixture.partition("/")[0]] if line.mixture else owner
    if source != owner:
        notes.append(f"from {source.code} {source.title}")
    # A share holds at every size; an amount in the author's own unit only at the size it was written for.
    lasting = not isinstance(line.amount, Absolute | FillUp)
    if scaled.shown and (lasting or as_is) and (own := written_apart(line, scaled.shown)):
        notes.append(f"as written: {own.replace('-', '–')}")
    if line.why:
        notes.append(line.why)
    measure = measure_of(scaled.shown) if scaled.shown else None
    return Row(
        whole=measure.whole if measure else "",
        fraction=measure.fraction if measure else "",
        unit=measure.unit if measure else "",
        words="" if measure else line.written,
        name=scaled.line.name,
        notes=tuple(notes),
    )


def _cautions(found: tuple[ScaledMixture, ...], recipe: Recipe, archive: Archive) -> Iterator[Caution]:
    yield sheet_caution(recipe, archive)
    owners = dict.fromkeys(m.plan.id.partition("/")[0] for m in found)
    for slug in owners:
        if slug != recipe.slug:
            other = archive.recipe_named[slug]
            yield sheet_caution(other, archive, of=f"{other.code} {other.title}")


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


def _kept(text: str) -> str:
    """The text on one line."""
    return text.replace(" ", NO_BREAK)
