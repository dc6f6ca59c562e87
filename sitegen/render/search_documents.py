"""What can be found of one edition: its recipes, substances, processes, troubles, trials and pages as plain texts.

Everything is taken from what was computed for that edition, so no word of a higher one can be filed.
"""

import re
from collections.abc import Iterable, Iterator, Mapping
from typing import Final

from sitegen.compute.whole import Computed
from sitegen.model.dispute import Dispute
from sitegen.model.recipe import Prose, Recipe, Trouble
from sitegen.model.substance import Substance
from sitegen.model.trial import VERDICTS, Trial, newest_first
from sitegen.render.links import process_path, recipe_path, substance_path, trial_path, troubles_path
from sitegen.render.page_documents import page_documents
from sitegen.render.trial_words import changes, water_words
from sitegen.render.water_documents import water_documents
from sitegen.render.wording import dilution_text
from sitegen.search.document import Document
from sitegen.search.facets import Traits
from sitegen.search.synonyms import Groups, beside
from sitegen.search.traits import choices

_LINK: Final = re.compile(r"\[([^\]]*)\]\([^)]*\)")
_MARKS: Final = re.compile(r"[*_`#>]+(?=\w)|(?<=\w)[*_`]+|\s+")
_WATER: Final = "water"
Text = tuple[str, str]


def documents(computed: Computed, synonyms: Groups) -> Iterator[Document]:
    """Every document in the order of its number: recipes by code, then the other kinds."""
    names = {p.id: p.name for p in computed.archive.settings.processes}
    recipes = in_order(computed)
    for recipe in recipes:
        yield _with_synonyms(_recipe(recipe, computed, names[recipe.process]), synonyms)
    for card in sorted(computed.archive.substances, key=lambda s: s.id):
        yield _substance(card)
    held = {recipe.process for recipe in recipes}
    for process in computed.archive.settings.processes:
        if process.id in held:
            summary = (("summary", process.summary),)
            found = Document(kind="process", title=process.name, path=process_path(process.id), texts=summary)
            yield _with_synonyms(found, synonyms)
    yield from _troubles(recipes, names)
    yield from water_documents(computed.archive.settings.waters)
    for trial in newest_first(computed.archive.trials):
        yield _trial(trial, computed)
    yield from page_documents(computed.archive)


def in_order(computed: Computed) -> tuple[Recipe, ...]:
    """The recipes by their numbers in the index."""
    return tuple(sorted(computed.archive.recipes, key=lambda r: r.code))


def traits(recipe: Recipe, computed: Computed) -> Traits:
    """What a recipe can be narrowed by."""
    cards = ingredients(recipe, computed, optional=True)
    needed = ingredients(recipe, computed, optional=False)
    return Traits(choices=choices(recipe, cards), holds=tuple(c.id for c in needed if c.id != _WATER))


def ingredients(recipe: Recipe, computed: Computed, *, optional: bool) -> tuple[Substance, ...]:
    """Every card that is weighed out here or for a mixture this recipe takes, once each."""
    archive = computed.archive
    lines = (line for t in computed.targets[recipe.slug] for m in t.mixtures for line in m.lines)
    forms = (line.of for line in lines if line.of in archive.forms and (optional or not line.optional))
    return tuple({archive.substance_of[form].id: archive.substance_of[form] for form in forms}.values())


def plain(prose: Prose | str | None) -> str:
    """Markdown without its marks: what is read aloud of it."""
    if prose is None:
        return ""
    text = prose if isinstance(prose, str) else prose.text
    return _MARKS.sub(lambda m: " " if m.group().isspace() else "", _LINK.sub(r"\1", text)).strip()


def _recipe(recipe: Recipe, computed: Computed, process: str) -> Document:
    cards = ingredients(recipe, computed, optional=True)
    texts = [
        ("summary", recipe.summary),
        ("keywords", " · ".join(recipe.keywords)),
        ("process", process),
        ("mixtures", " · ".join(m.name for m in recipe.mixtures)),
        ("strengths", " · ".join(_strengths(recipe, computed))),
        *(("holds", _called(card, computed, recipe)) for card in cards if card.id != _WATER),
        ("about", plain(recipe.about)),
        *(("troubles", t.symptom) for t in recipe.troubles),
        *(("about", text) for dispute in recipe.disputes for text in _disputed(dispute)),
        *_work(recipe),
        ("needs", " · ".join(recipe.needs)),
        *(("credits", credit.work) for credit in recipe.credits),
        *(("hazards", text) for text in _cautions(recipe)),
    ]
    held = tuple(c.id for c in ingredients(recipe, computed, optional=False) if c.id != _WATER)
    return Document(
        kind="recipe",
        title=recipe.title,
        code=recipe.code,
        path=recipe_path(recipe.slug),
        texts=_filled(texts),
        holds=held,
    )


def _strengths(recipe: Recipe, computed: Computed) -> Iterator[str]:
    """Dilutions and strengths in percent, as people ask for them: `1+9`, `10 % w/v citric acid`."""
    for mixture in recipe.mixtures:
        yield from (f"{mixture.name} {dilution_text(d)}" for d in mixture.dilute)
        for strength in computed.strengths.get(mixture.id, ()):
            yield from (f"{shown} {strength.name}" for shown in strength.shown if "%" in shown)


def _work(recipe: Recipe) -> Iterator[Text]:
    for mixture in recipe.mixtures:
        yield from (("steps", plain(text)) for text in (*mixture.mixing, mixture.note))
        yield from (("steps", plain(line.why)) for line in mixture.lines)
    for stage in recipe.stages:
        yield "steps", stage.title
        for step in stage.steps:
            yield "steps", " ".join(filter(None, (plain(step.do), step.look_for, step.caution)))
        yield from (("steps", check) for check in stage.checks)
    if recipe.derived_from:
        yield "about", recipe.derived_from.changes


def _disputed(dispute: Dispute) -> Iterator[str]:
    yield " ".join(filter(None, (dispute.about, *(claim.says for claim in dispute.claims), dispute.here)))
    yield from (claim.source for claim in dispute.claims)


def _cautions(recipe: Recipe) -> tuple[str, ...]:
    h = recipe.hazards
    return (*h.wear, *h.air, *h.never, *h.disposal)


def _called(card: Substance, computed: Computed, recipe: Recipe) -> str:
    """A substance by all names of the forms that this recipe takes."""
    used = {line.of for t in computed.targets[recipe.slug] for m in t.mixtures for line in m.lines}
    forms = [form for form in card.forms if form.id in used]
    words = [*(f.name for f in forms), *card.other_names]
    words += [word for f in forms for word in (*f.names, f.formula, f.cas) if word]
    return " · ".join(dict.fromkeys(words))


def _substance(card: Substance) -> Document:
    words = [*card.other_names, *(w for f in card.forms for w in (f.name, *f.names, f.formula, f.cas) if w)]
    texts = [
        ("names", " · ".join(name for name in dict.fromkeys(words) if name != card.name)),
        ("about", " ".join(filter(None, (card.note, *(form.note for form in card.forms))))),
        ("steps", card.store),
        ("hazards", " ".join((*card.hazards.classes, *card.hazards.never, card.dispose))),
    ]
    return Document(kind="substance", title=card.name, path=substance_path(card.id), texts=_filled(texts))


def _troubles(recipes: tuple[Recipe, ...], processes: Mapping[str, str]) -> Iterator[Document]:
    """Each recipe's own troubles, and those that recipes share once, on the page of all troubles."""
    happening: dict[str, list[Recipe]] = {}
    for recipe in recipes:
        for trouble in recipe.troubles:
            if trouble.shared:
                happening.setdefault(trouble.id, []).append(recipe)
    for recipe in recipes:
        for trouble in recipe.troubles:
            if not trouble.shared:
                path = f"{troubles_path(recipe.slug)}#{trouble.id}"
                yield _trouble(trouble, path, f"{recipe.code} {recipe.title}", recipe.code)
            elif (among := happening.pop(trouble.id, None)) is not None:
                named = dict.fromkeys(processes[r.process] for r in among)
                yield _trouble(trouble, f"troubles/index.html#{trouble.id}", " · ".join(named))


def _trouble(trouble: Trouble, path: str, where: str, code: str = "") -> Document:
    causes = (" ".join(filter(None, (c.cause, c.remedy, c.check, c.save))) for c in trouble.causes)
    texts = [("names", " · ".join(trouble.words)), ("process", where), *(("about", cause) for cause in causes)]
    return Document(kind="trouble", title=trouble.symptom, code=code, path=path, texts=_filled(texts))


def _trial(trial: Trial, computed: Computed) -> Document:
    """An entry of the journal by all it says; a failure is also found by what is suspected."""
    archive = computed.archive
    recipe, told = archive.recipe_named[trial.recipe], trial.conditions
    seen = next((t.symptom for t in recipe.troubles if t.id == trial.trouble), "")
    texts = [
        ("summary", f"{trial.date.isoformat()}: {VERDICTS[trial.verdict]}. {recipe.code} {recipe.title}"),
        ("troubles", seen),
        *(("tried", text) for text in (plain(trial.outcome), plain(trial.aim), trial.suspected)),
        *(("tried", change.sentence()) for change in changes(trial, archive)),
        *(("tried", text) for text in (*trial.other, told.paper, told.lamp, water_words(trial, archive), *told.other)),
        ("tried", " · ".join(batch.code.written() for batch in trial.batches)),
    ]
    return Document(
        kind="trial", title=trial.title, code=recipe.code, path=trial_path(trial.slug), texts=_filled(texts)
    )


def _filled(texts: Iterable[Text]) -> tuple[Text, ...]:
    return tuple((name, text) for name, text in texts if text)


def _with_synonyms(document: Document, synonyms: Groups) -> Document:
    """The document with the trade's other words for what it says of itself."""
    said = (document.title, *(text for name, text in document.texts if name in ("keywords", "summary", "process")))
    others = beside(" · ".join(said), synonyms)
    if not others:
        return document
    return Document(
        kind=document.kind,
        title=document.title,
        code=document.code,
        path=document.path,
        texts=(*document.texts, ("also", " · ".join(others))),
        holds=document.holds,
    )
