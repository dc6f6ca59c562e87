"""Troubles: the archive's own files of them, and how they are drawn into every recipe of a process.

A recipe that has the same symptom keeps its own.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from sitegen.check.documents import RecipeDoc
from sitegen.check.faults import read_document
from sitegen.check.ingredients import unknown_mixture
from sitegen.check.names import check_file_name
from sitegen.check.places import Places
from sitegen.check.settings import Known, check_processes, unknown_edition
from sitegen.check.trouble_documents import CauseDoc, SharedTroubleDoc, TroubleDoc
from sitegen.check.values import parse_flag, slug_of
from sitegen.model.recipe import Cause, Recipe, Trouble
from sitegen.model.steps import find_step
from sitegen.problems import Problem, Problems, Refusal, Span, did_you_mean
from sitegen.read.nodes import MapNode

Stages = tuple[tuple[str, int], ...]
"""The titles of a recipe's stages, and how many steps each has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedTrouble:
    """A trouble of the archive, with its document and where it stands."""

    trouble: Trouble
    doc: SharedTroubleDoc
    places: Places


def trouble_of(doc: TroubleDoc, id_: str, *, shared: bool = False) -> Trouble:
    """The domain's trouble of a document."""
    return Trouble(
        id=id_,
        symptom=doc.symptom,
        causes=tuple(_cause(cause) for cause in doc.causes),
        seen=doc.stage,
        words=doc.words,
        shared=shared,
        edition=doc.edition or "",
    )


def _cause(doc: CauseDoc) -> Cause:
    return Cause(
        cause=doc.cause,
        remedy=doc.remedy,
        check=doc.check or "",
        save=doc.save or "",
        steps=doc.step,
        old_stock=_old_stock(doc.old_stock or ""),
        edition=doc.edition or "",
    )


def _old_stock(written: str) -> str:
    said = written.casefold()
    return "yes" if said in ("yes", "true") else "" if said in ("no", "false") else written


def check_old_stock(
    doc: TroubleDoc, mixtures: Iterable[str], places: Places, problems: Problems, *at: str | int
) -> None:
    """What may be old is a mixture of the recipe; `at` is the trouble's place."""
    known = dict.fromkeys(mixtures)
    for n, cause in enumerate(doc.causes):
        stock = _old_stock(cause.old_stock or "")
        if stock not in ("", "yes") and stock not in known:
            problems.add(unknown_mixture(stock, known, places.value(*at, "causes", n, "old stock")))


def _old_stock_told(doc: SharedTroubleDoc, places: Places, _: Known, problems: Problems) -> None:
    """Which mixture is old differs from recipe to recipe, so a shared trouble only says that one is."""
    for n, cause in enumerate(doc.causes):
        with problems.at(places.value("causes", n, "old stock")):
            parse_flag(cause.old_stock or "no")


def shared_troubles(roots: Mapping[str, MapNode | None], known: Known, problems: Problems) -> tuple[SharedTrouble, ...]:
    """The sound troubles of `troubles/*.yaml`, by file name."""
    found = []
    for name, root in roots.items():
        sound = check_file_name(f"troubles/{name}.yaml", problems)
        doc = read_document(SharedTroubleDoc, root, problems) if root else None
        if root is None or doc is None or not sound:
            continue
        places = Places(root=root)
        check_processes(doc.processes, known, places, problems)
        for rule in (_editions_known, _old_stock_told):
            rule(doc, places, known, problems)
        _named_after_symptom(name, doc, places, problems)
        found.append(SharedTrouble(trouble=trouble_of(doc, name, shared=True), doc=doc, places=places))
    return tuple(found)


def _named_after_symptom(name: str, doc: SharedTroubleDoc, places: Places, problems: Problems) -> None:
    """A recipe overrides a trouble by its symptom, so the file must have that name."""
    wanted = slug_of(doc.symptom)
    if wanted and wanted != name:
        problems.add(
            Problem(
                code="trouble-file-name",
                at=places.value("symptom"),
                message=f"the file is called `{name}.yaml`, but the symptom makes `{wanted}`",
                help=f"rename the file to `{wanted}.yaml`, or word the symptom as before",
                notes=("a recipe overrides it by writing the same symptom",),
            )
        )


def _editions_known(doc: SharedTroubleDoc, places: Places, known: Known, problems: Problems) -> None:
    marks: list[tuple[tuple[str | int, ...], str | None]] = [(("edition",), doc.edition)]
    marks += [(("causes", n, "edition"), cause.edition) for n, cause in enumerate(doc.causes)]
    for loc, name in marks:
        if name and known.editions and name not in known.editions:
            problems.add(unknown_edition(name, known.editions, places, *loc))


def stages_of(doc: RecipeDoc) -> Stages:
    """The stages of a recipe, for their names."""
    return tuple((stage.title, len(stage.steps)) for stage in doc.stages)


def check_steps(doc: TroubleDoc, among: Iterable[Stages], places: Places, problems: Problems, *at: str | int) -> None:
    """Each `step` is one of a recipe's, of those whose stages are given; `at` is the trouble's place."""
    recipes = tuple(among)
    for n, cause in enumerate(doc.causes):
        for m, step in enumerate(cause.step if recipes else ()):
            _check_step(step, recipes, places.value(*at, "causes", n, "step", m), problems)


def _check_step(step: str, recipes: tuple[Stages, ...], at: Span, problems: Problems) -> None:
    refused = []
    for stages in recipes:
        refusal = _refused(step, stages)
        if refusal is None:
            return
        refused.append(refusal)
    if len(recipes) == 1:
        problems.refuse(refused[0], at)
        return
    titles = dict.fromkeys(title for stages in recipes for title, _ in stages)
    problems.add(
        Problem(
            code=refused[0].code,
            at=at,
            message=f"no recipe of these processes has the step `{step}`",
            help=did_you_mean(step, titles) or "write the title of a stage that one of them has, or delete `step`",
        )
    )


def _refused(step: str, stages: Stages) -> Refusal | None:
    try:
        find_step(step, stages)
    except Refusal as refusal:
        return refusal
    return None


def draw(recipes: Iterable[Recipe], shared: tuple[SharedTrouble, ...]) -> tuple[Recipe, ...]:
    """Every recipe with its own troubles first, then the archive's for its process that it has no word on."""
    by_process: dict[str, list[Trouble]] = {}
    for found in shared:
        for process in dict.fromkeys(found.doc.processes):
            by_process.setdefault(process, []).append(found.trouble)
    return tuple(_with(recipe, by_process.get(recipe.process, [])) for recipe in recipes)


def _with(recipe: Recipe, troubles: list[Trouble]) -> Recipe:
    own = {trouble.id for trouble in recipe.troubles}
    drawn = tuple(trouble for trouble in troubles if trouble.id not in own)
    return replace(recipe, troubles=(*recipe.troubles, *drawn)) if drawn else recipe
