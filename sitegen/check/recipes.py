"""Recipes: a checked document, with its ingredients resolved, to the domain's recipe."""

from collections.abc import Mapping
from dataclasses import dataclass

from sitegen.check import documents as d
from sitegen.check.disputes import dispute_id, dispute_of
from sitegen.check.ingredients import Reference
from sitegen.check.layers import layer_of
from sitegen.check.origins import change_of, parent_of
from sitegen.check.picture_documents import MovingPictureDoc, PairDoc, PictureDoc
from sitegen.check.places import Places
from sitegen.check.troubles import trouble_of
from sitegen.check.values import slug_of
from sitegen.model.origin import Credit
from sitegen.model.recipe import (
    Answer,
    Hazards,
    Line,
    Mixture,
    Moment,
    MovingPicture,
    Pair,
    Picture,
    Prose,
    Recipe,
    Stage,
    Step,
)
from sitegen.read.nodes import TextNode


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A recipe whose fields are sound; how they hang together is for `rules`."""

    slug: str
    doc: d.RecipeDoc
    places: Places
    edition: str
    references: Mapping[tuple[str, str], Reference]
    """By mixture (`recipe/mixture`) and key."""


def trouble_id(symptom: str, position: int) -> str:
    """The symptom as a short name; by position where it has no Latin letters or digits."""
    return slug_of(symptom) or f"trouble-{position + 1}"


def build(draft: Draft) -> Recipe:
    """The domain's recipe. Every reference of the draft must be resolved."""
    doc, places = draft.doc, draft.places
    return Recipe(
        slug=draft.slug,
        title=doc.title,
        code=doc.code,
        summary=doc.summary,
        process=doc.process,
        edition=draft.edition,
        revision=doc.revision,
        revised=doc.revised,
        mixtures=tuple(_mixture(draft, key, mixture) for key, mixture in doc.mixtures.items()),
        hazards=_hazards(draft),
        about=_prose(draft, doc.about, "about"),
        keywords=doc.keywords,
        teaser=doc.teaser or "",
        publish_from=doc.publish_from,
        publish_from_at=places.value("publish from") if doc.publish_from else None,
        status=doc.status,
        credits=tuple(
            Credit(work=c.work, relation=c.relation, licence=c.licence or "", address=c.address or "")
            for c in doc.credits
        ),
        derived_from=parent_of(doc.derived_from, places),
        changes=tuple(change_of(change, places, n) for n, change in enumerate(doc.changes)),
        takes=doc.takes,
        image=_picture(draft, doc.image, "image"),
        needs=doc.needs,
        intends=doc.intends,
        answers=tuple(
            Answer(pair=a.pair, reason=a.reason, at=places.value("answers", n, "pair"))
            for n, a in enumerate(doc.answers)
        ),
        layers=tuple(layer_of(draft.slug, n, layer, draft.references) for n, layer in enumerate(doc.layers)),
        stages=tuple(_stage(draft, n, stage) for n, stage in enumerate(doc.stages)),
        troubles=tuple(trouble_of(trouble, trouble_id(trouble.symptom, n)) for n, trouble in enumerate(doc.troubles)),
        disputes=tuple(dispute_of(dispute, dispute_id(dispute.about, n)) for n, dispute in enumerate(doc.disputes)),
        at=places.value("title"),
    )


def _prose(draft: Draft, text: str | None, *loc: str | int) -> Prose | None:
    return Prose(text=text, at=draft.places.value(*loc)) if text else None


def _picture(draft: Draft, image: PictureDoc | None, *loc: str | int) -> Picture | None:
    return _shown(draft, image, *loc) if image else None


def _shown(draft: Draft, image: PictureDoc, *loc: str | int) -> Picture:
    return Picture(file=image.file, alt=image.alt, edition=image.edition or "", at=draft.places.value(*loc, "file"))


def _pair(draft: Draft, pair: PairDoc | None, *loc: str | int) -> Pair | None:
    if pair is None:
        return None
    return Pair(
        before=_shown(draft, pair.before, *loc, "before"),
        after=_shown(draft, pair.after, *loc, "after"),
    )


def _moving(draft: Draft, doc: MovingPictureDoc | None, *loc: str | int) -> MovingPicture | None:
    if doc is None:
        return None
    return MovingPicture(
        title=doc.title,
        address=doc.address,
        poster=_shown(draft, doc.poster, *loc, "poster"),
        marks=tuple(Moment(seconds=mark.at, says=mark.says) for mark in doc.marks),
    )


def _mixture(draft: Draft, key: str, doc: d.MixtureDoc) -> Mixture:
    here = ("mixtures", key)
    lines = [(line.add == "last", _line(draft, key, name, line)) for name, line in doc.contains.items()]
    return Mixture(
        id=f"{draft.slug}/{key}",
        name=doc.name,
        lines=tuple(line for last, line in sorted(lines, key=lambda pair: pair[0])),
        makes=doc.makes,
        keeps=doc.keeps,
        store=doc.store or "",
        coverage=doc.coverage,
        density=doc.density,
        dilute=doc.dilute,
        per_person=doc.per_person,
        capacity=doc.capacity,
        when_spent=doc.when_spent,
        mixing=tuple(Prose(text=text, at=draft.places.value(*here, "mixing", n)) for n, text in enumerate(doc.mixing)),
        note=_prose(draft, doc.note.text if doc.note else None, *here, "note", "text"),
        note_edition=(doc.note.edition or "") if doc.note else "",
        at=draft.places.key(*here),
    )


def _line(draft: Draft, mixture: str, key: str, doc: d.LineDoc) -> Line:
    reference = draft.references[f"{draft.slug}/{mixture}", key]
    node = draft.places.found(("mixtures", mixture, "contains", key, "amount"))[1]
    return Line(
        key=key,
        amount=doc.amount,
        written=" ".join(node.text.split()) if isinstance(node, TextNode) else "",
        form=reference.form,
        mixture=reference.mixture,
        why=doc.why or "",
        optional=doc.optional,
        at=reference.at,
    )


def _hazards(draft: Draft) -> Hazards:
    doc = draft.doc.hazards
    return Hazards(
        wear=doc.wear,
        air=doc.air,
        never=doc.never,
        first_aid=doc.first_aid,
        disposal=doc.disposal,
        note=doc.note,
        at=draft.places.key("hazards"),
    )


def _stage(draft: Draft, n: int, doc: d.StageDoc) -> Stage:
    return Stage(
        title=doc.title,
        steps=tuple(_step(draft, step, "stages", n, "steps", m) for m, step in enumerate(doc.steps)),
        light=doc.light or "",
        then_wait=doc.then_wait,
        checks=doc.checks,
        layer=doc.layer or "",
        edition=doc.edition or "",
    )


def _step(draft: Draft, doc: d.StepDoc, *here: str | int) -> Step:
    return Step(
        do=Prose(text=doc.do, at=draft.places.value(*here, "do")),
        lasts=doc.for_,
        temperature=doc.at,
        light=doc.light or "",
        look_for=doc.look_for or "",
        look_in=doc.look_in or "",
        caution=doc.caution or "",
        water=doc.water,
        image=_picture(draft, doc.image, *here, "image"),
        compare=_pair(draft, doc.compare, *here, "compare"),
        moving=_moving(draft, doc.moving_picture, *here, "moving picture"),
    )
