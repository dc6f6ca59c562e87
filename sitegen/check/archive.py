"""The check: trees of nodes in, the archive and all its problems out.

Settings and cards first, then each recipe alone, then the recipes among each other. A recipe with
problems is left out of the archive, and so is what draws on it; nothing is said about it twice.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from itertools import chain

from sitegen.check import between, origin, rules
from sitegen.check.cards import check_cards
from sitegen.check.descent import check_descent, check_rings
from sitegen.check.disputes import draw_disputes, shared_disputes
from sitegen.check.documents import RecipeDoc
from sitegen.check.editions import check_editions
from sitegen.check.faults import read_document
from sitegen.check.ingredients import Pantry, Reference, references
from sitegen.check.layers import layer_references
from sitegen.check.names import check_file_name
from sitegen.check.places import Places
from sitegen.check.recipes import Draft, build
from sitegen.check.settings import Known, check_settings
from sitegen.check.trials import check_trials
from sitegen.check.troubles import Stages, check_steps, draw, shared_troubles, stages_of
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.problems import Problems
from sitegen.read.nodes import MapNode
from sitegen.read.sources import Sources


def check_archive(sources: Sources, problems: Problems) -> Archive | None:
    """The archive, of everything that is sound; None when archive.yaml itself is not.

    Every mistake of every file is added to `problems`, once. Write nothing when `problems.failed`.
    """
    settings, known = check_settings(sources, problems)
    shelf = check_cards(sources, problems)
    roots = sources.below("recipes")
    for slug in roots:
        check_file_name(f"recipes/{slug}.yaml", problems)
    pantry = Pantry(shelf=shelf, recipes=roots)
    found = {slug: _references(slug, root, pantry, problems) for slug, root in roots.items() if root}
    drafts = _drafts(roots, found, known, problems)
    mates = between.Shelfmates(
        roots=roots,
        references=tuple(reference for slug in found for reference in found[slug]),
        known=known,
        pictures=sources.pictures,
    )
    for among in between.RULES:
        among(mates, problems)
    check_editions(mates, problems)
    check_rings(mates, problems)
    shared = shared_troubles(sources.below("troubles"), known, problems)
    staged: dict[str, list[Stages]] = {}
    for draft in drafts:
        staged.setdefault(draft.doc.process, []).append(stages_of(draft.doc))
    for trouble in shared:
        concerned = chain.from_iterable(staged.get(process, ()) for process in dict.fromkeys(trouble.doc.processes))
        check_steps(trouble.doc, concerned, trouble.places, problems)
    disputes = shared_disputes(sources.below("disputes"), known, problems)
    if settings is None:
        return None
    recipes = draw_disputes(draw(_standing(drafts, mates), shared), disputes)
    archive = Archive(settings=settings, recipes=recipes, substances=shelf.substances)
    check_descent(archive, problems)
    return replace(archive, trials=check_trials(sources, archive, known, problems))


def _references(slug: str, root: MapNode, pantry: Pantry, problems: Problems) -> tuple[Reference, ...]:
    return (*references(slug, root, pantry, problems), *layer_references(slug, root, pantry, problems))


def _drafts(
    roots: Mapping[str, MapNode | None],
    found: Mapping[str, tuple[Reference, ...]],
    known: Known,
    problems: Problems,
) -> tuple[Draft, ...]:
    drafts = []
    for slug, root in roots.items():
        if root is None:
            continue
        doc = read_document(RecipeDoc, root, problems, context={"percent means": known.percent_means})
        if doc is None:
            continue
        draft = Draft(
            slug=slug,
            doc=doc,
            places=Places(root=root),
            edition=doc.edition or known.default_edition or "",
            references={(r.owner, r.key): r for r in found[slug]},
        )
        for rule in (*rules.RULES, *origin.RULES):
            rule(draft, problems)
        drafts.append(draft)
    return tuple(drafts)


def _standing(drafts: Iterable[Draft], mates: between.Shelfmates) -> tuple[Recipe, ...]:
    """The recipes all of whose references lead to something that stands, too."""
    ringed = {id_ for ring in mates.rings for id_ in ring}
    processes = mates.known.processes or frozenset()
    kept = {
        draft.slug: draft
        for draft in drafts
        if draft.doc.process in processes
        and draft.slug in mates.editions
        and all((r.form or r.mixture) and r.owner not in ringed for r in draft.references.values())
    }
    while fallen := {slug for slug, draft in kept.items() if not _supported(draft, kept)}:
        kept = {slug: draft for slug, draft in kept.items() if slug not in fallen}
    recipes = (build(draft) for draft in kept.values())
    return tuple(
        recipe if not recipe.derived_from or recipe.derived_from.recipe in kept else replace(recipe, derived_from=None)
        for recipe in recipes
    )


def _supported(draft: Draft, kept: Mapping[str, Draft]) -> bool:
    needed = {r.mixture.partition("/")[0] for r in draft.references.values() if r.mixture}
    return needed <= kept.keys()
