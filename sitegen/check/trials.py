"""Trials: the entries of the journal, checked against the recipes they tried.

What was changed is `trial_changes`. An entry whose recipe has problems of its own is passed over.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from sitegen.check.between import pictures_there
from sitegen.check.faults import read_document
from sitegen.check.ingredients import unknown_mixture
from sitegen.check.patterns import ID
from sitegen.check.places import Places
from sitegen.check.settings import Known, unknown_edition
from sitegen.check.trial_changes import Tried, changed_amounts, changed_coverage, changed_times
from sitegen.check.trial_conditions import conditions
from sitegen.check.trial_documents import ChangedDoc, TrialDoc
from sitegen.check.values import slug_of
from sitegen.model.archive import Archive
from sitegen.model.recipe import Picture, Prose, Recipe
from sitegen.model.trial import Batch, Trial
from sitegen.problems import Problem, Problems, Span, did_you_mean
from sitegen.read.nodes import MapNode
from sitegen.read.sources import Sources

_NAME: Final = re.compile(rf"([0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}})-{ID}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """An entry whose fields are sound, with its recipe and where its values stand."""

    slug: str
    doc: TrialDoc
    places: Places
    recipe: Recipe
    archive: Archive
    slugs: frozenset[str]

    def at(self, *loc: str | int) -> Span:
        """Where a value is written."""
        return self.places.value(*loc)


def check_trials(sources: Sources, archive: Archive, known: Known, problems: Problems) -> tuple[Trial, ...]:
    """The journal's sound entries, in the order of their days."""
    roots = sources.below("journal")
    slugs = frozenset(roots)
    trials = []
    for slug, root in roots.items():
        named = _named_by_its_day(slug, problems)
        doc = read_document(TrialDoc, root, problems, context=_context(known)) if root else None
        if root is None:
            continue
        pictures_there(root, sources.pictures, problems)
        if doc is None or not named:
            continue
        places = Places(root=root)
        recipe = _recipe(doc, places, sources, archive, problems)
        if recipe is None:
            continue
        entry = Entry(slug=slug, doc=doc, places=places, recipe=recipe, archive=archive, slugs=slugs)
        for rule in RULES:
            rule(entry, problems)
        _editions(entry, known, problems)
        trials.append(_trial(entry, problems))
    return tuple(trials)


def _context(known: Known) -> dict[str, object]:
    return {"percent means": known.percent_means}


def _named_by_its_day(slug: str, problems: Problems) -> bool:
    if _NAME.fullmatch(slug):
        return True
    plain = slug_of(re.sub(r"^[0-9-]+", "", slug)) or "what-was-tried"
    problems.add(
        Problem(
            code="trial-file-name",
            at=Span(file=f"journal/{slug}.yaml"),
            message=f"the file name `{slug}.yaml` does not begin with a day",
            help=f"rename it to the day and a few words: `2026-11-03-{plain}.yaml`",
        )
    )
    return False


def _recipe(doc: TrialDoc, places: Places, sources: Sources, archive: Archive, problems: Problems) -> Recipe | None:
    """The recipe that was tried; None, said or not, where there is none to hold the entry against."""
    if found := archive.recipe_named.get(doc.recipe):
        return found
    recipes: Mapping[str, MapNode | None] = sources.below("recipes")
    if doc.recipe not in recipes:
        problems.add(
            Problem(
                code="unknown-recipe",
                at=places.value("recipe"),
                message=f"there is no recipe `{doc.recipe}`",
                help=did_you_mean(doc.recipe, recipes) or "write the recipe's file name without `.yaml`",
            )
        )
    return None


def _day_agrees(entry: Entry, problems: Problems) -> None:
    """The file's name begins with the day that stands in it."""
    if not entry.slug.startswith(entry.doc.date.isoformat()):
        problems.add(
            Problem(
                code="trial-file-name",
                at=entry.at("date"),
                message=f"the file is named after {entry.slug[:10]}, but the trial was on {entry.doc.date}",
                help="rename the file, or correct the date",
            )
        )


def _revision_made(entry: Entry, problems: Problems) -> None:
    """Nothing is tried of a revision that is not made yet, and nothing became one."""
    doc, current = entry.doc, entry.recipe.revision
    for field, revision in (("revision", doc.revision), ("became", doc.became)):
        if revision is not None and revision > current:
            problems.add(
                Problem(
                    code="trial-to-come",
                    at=entry.at(field),
                    message=f"revision {revision} of `{entry.recipe.slug}` is not made yet",
                    help=f"write {current}, or raise the recipe's `revision`",
                )
            )
    if doc.became is not None and doc.became <= doc.revision:
        problems.add(
            Problem(
                code="trial-to-come",
                at=entry.at("became"),
                message=f"a trial of revision {doc.revision} cannot have become revision {doc.became}",
                help="write the later revision that took it over, or delete the line",
            )
        )


def _trouble_known(entry: Entry, problems: Problems) -> None:
    """The trouble it shows is one of its recipe."""
    known = [trouble.id for trouble in entry.recipe.troubles]
    if entry.doc.trouble and entry.doc.trouble not in known:
        problems.add(
            Problem(
                code="unknown-trouble",
                at=entry.at("trouble"),
                message=f"`{entry.recipe.slug}` has no trouble `{entry.doc.trouble}`",
                help=did_you_mean(entry.doc.trouble, known)
                or "write a symptom of the recipe in small letters with hyphens, or add it to its troubles",
            )
        )


def _solution_known(entry: Entry, problems: Problems) -> None:
    """What solved it is another entry."""
    solved = entry.doc.solved_by
    if solved and (solved not in entry.slugs or solved == entry.slug):
        others = entry.slugs - {entry.slug}
        problems.add(
            Problem(
                code="unknown-trial",
                at=entry.at("solved by"),
                message=f"there is no other entry `{solved}`",
                help=did_you_mean(solved, others) or "write another entry's file name without `.yaml`",
            )
        )


RULES: Final[tuple[Callable[[Entry, Problems], None], ...]] = (
    _day_agrees,
    _revision_made,
    _trouble_known,
    _solution_known,
)


def _editions(entry: Entry, known: Known, problems: Problems) -> None:
    """An entry is for no wider readers than its recipe, its picture for no wider ones than the entry."""
    order = list(known.editions or ())
    own, limit = entry.doc.edition, entry.recipe.edition
    picture = entry.doc.image.edition if entry.doc.image else None
    for name, within, loc in ((own, limit, ("edition",)), (picture, own or limit, ("image", "edition"))):
        if not name or not order:
            continue
        if name not in order:
            problems.add(unknown_edition(name, tuple(order), entry.places, *loc))
        elif within in order and order.index(name) < order.index(within):
            whole = "recipe" if loc == ("edition",) else "entry"
            problems.add(
                Problem(
                    code="edition-without-recipe",
                    at=entry.at(*loc),
                    message=f"this is for `{name}`, which does not hold the {whole}: it is for `{within}`",
                    help=f"delete this line, or write `edition: {within}`",
                    notes=("an entry goes where its recipe goes; it can only be kept back from some",),
                )
            )


def _batches(entry: Entry, problems: Problems) -> Iterator[Batch]:
    """The bottles that were used, each a mixture that is known."""
    by_code = entry.archive.recipe_coded
    for n, code in enumerate(entry.doc.batches):
        recipe, at = by_code.get(code.code), entry.at("batches", n)
        if code.mixed > entry.doc.date:
            problems.add(
                Problem(
                    code="batch-after-trial",
                    at=at,
                    message=f"this was mixed on {code.mixed}, after the trial of {entry.doc.date}",
                    help="correct the day on which it was mixed, or the trial's",
                )
            )
        if recipe is None:
            problems.add(
                Problem(
                    code="unknown-batch",
                    at=at,
                    message=f"no recipe has the code `{code.code}`",
                    help=did_you_mean(code.code, by_code) or "write the code that stands at the top of the recipe",
                )
            )
            continue
        mixture = recipe.mixture(code.mixture)
        if mixture is None and (code.revision is None or code.revision >= recipe.revision):
            problems.add(unknown_mixture(code.mixture, {m.local: m for m in recipe.mixtures}, at))
            continue
        yield Batch(code=code, recipe=recipe.slug, mixture=mixture.id if mixture else "")


def _trial(entry: Entry, problems: Problems) -> Trial:
    doc = entry.doc
    changed = doc.changed or ChangedDoc.model_validate({})
    tried = Tried(
        recipe=entry.recipe,
        archive=entry.archive,
        current=doc.revision >= entry.recipe.revision,
        places=entry.places,
        problems=problems,
    )
    return Trial(
        slug=entry.slug,
        title=doc.title,
        recipe=entry.recipe.slug,
        revision=doc.revision,
        date=doc.date,
        edition=doc.edition or "",
        aim=Prose(text=doc.aim, at=entry.at("aim")) if doc.aim else None,
        amounts=tuple(changed_amounts(changed, tried)),
        times=tuple(changed_times(changed, tried)),
        coverage=tuple(changed_coverage(changed, tried)),
        other=changed.other,
        conditions=conditions(doc.conditions, entry.places, entry.archive, problems),
        batches=tuple(_batches(entry, problems)),
        image=_picture(entry),
        outcome=Prose(text=doc.outcome, at=entry.at("outcome")),
        verdict=doc.verdict,
        suspected=doc.suspected or "",
        trouble=doc.trouble or "",
        solved_by=doc.solved_by or "",
        became=doc.became,
        at=entry.at("title"),
    )


def _picture(entry: Entry) -> Picture | None:
    image = entry.doc.image
    if image is None:
        return None
    return Picture(file=image.file, alt=image.alt, edition=image.edition or "", at=entry.at("image", "file"))
