"""Disputes: what must hold in one, the archive's own files of them, and how they are drawn into recipes.

A recipe that has a dispute about the same point keeps its own. Claims are the words of others: they are not held
against the recipe's amounts, since a dispute is where figures differ.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from sitegen.check.dispute_documents import DisputeDoc, SharedDisputeDoc
from sitegen.check.documents import RecipeDoc
from sitegen.check.faults import read_document
from sitegen.check.names import check_file_name
from sitegen.check.places import Places
from sitegen.check.settings import Known, check_processes, unknown_edition
from sitegen.check.values import slug_of
from sitegen.model.dispute import Claim, Dispute
from sitegen.model.recipe import Recipe
from sitegen.problems import Problem, Problems
from sitegen.read.nodes import MapNode


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedDispute:
    """A dispute of the archive, and whose recipes it concerns."""

    dispute: Dispute
    processes: tuple[str, ...]


def dispute_of(doc: DisputeDoc, id_: str, *, shared: bool = False) -> Dispute:
    """The domain's dispute of a document."""
    return Dispute(
        id=id_,
        about=doc.about,
        claims=tuple(Claim(says=c.says, source=c.source, address=c.address or "") for c in doc.claims),
        here=doc.here or "",
        shared=shared,
        edition=doc.edition or "",
    )


def dispute_id(about: str, position: int) -> str:
    """What it is about as a short name; by position where it has no Latin letters or digits."""
    return slug_of(about) or f"dispute-{position + 1}"


def disputes_sound(doc: RecipeDoc, places: Places, problems: Problems) -> None:
    """Each dispute of a recipe has two sides, and no two are about the same point."""
    seen: set[str] = set()
    for n, dispute in enumerate(doc.disputes):
        _two_sides(dispute, places, problems, "disputes", n)
        id_ = dispute_id(dispute.about, n)
        if id_ in seen:
            problems.add(
                Problem(
                    code="duplicate-dispute",
                    at=places.value("disputes", n, "about"),
                    message=f"the dispute `{id_}` stands here twice",
                    help="put all claims under one of them, or word the two differently",
                )
            )
        seen.add(id_)


def _two_sides(doc: DisputeDoc, places: Places, problems: Problems, *at: str | int) -> None:
    if len(doc.claims) < 2:
        problems.add(
            Problem(
                code="dispute-one-sided",
                at=places.value(*at, "claims"),
                message="only one source is named: that is no dispute",
                help="add what another source claims, or say it in `about` or in a note",
            )
        )


def shared_disputes(roots: Mapping[str, MapNode | None], known: Known, problems: Problems) -> tuple[SharedDispute, ...]:
    """The sound disputes of `disputes/*.yaml`, by file name."""
    found = []
    for name, root in roots.items():
        sound = check_file_name(f"disputes/{name}.yaml", problems)
        doc = read_document(SharedDisputeDoc, root, problems) if root else None
        if root is None or doc is None or not sound:
            continue
        places = Places(root=root)
        _two_sides(doc, places, problems)
        _named_after_point(name, doc, places, problems)
        check_processes(doc.processes, known, places, problems)
        if doc.edition and known.editions and doc.edition not in known.editions:
            problems.add(unknown_edition(doc.edition, known.editions, places, "edition"))
        found.append(SharedDispute(dispute=dispute_of(doc, name, shared=True), processes=doc.processes))
    return tuple(found)


def _named_after_point(name: str, doc: DisputeDoc, places: Places, problems: Problems) -> None:
    """A recipe overrides a dispute by its point, so the file must have that name."""
    wanted = slug_of(doc.about)
    if wanted and wanted != name:
        problems.add(
            Problem(
                code="dispute-file-name",
                at=places.value("about"),
                message=f"the file is called `{name}.yaml`, but what it is about makes `{wanted}`",
                help=f"rename the file to `{wanted}.yaml`, or word `about` as before",
                notes=("a recipe overrides it by a dispute about the same",),
            )
        )


def draw_disputes(recipes: Iterable[Recipe], shared: Sequence[SharedDispute]) -> tuple[Recipe, ...]:
    """Every recipe with its own disputes first, then the archive's for its process."""
    return tuple(_with(recipe, shared) for recipe in recipes)


def _with(recipe: Recipe, shared: Sequence[SharedDispute]) -> Recipe:
    own = {dispute.id for dispute in recipe.disputes}
    drawn = tuple(s.dispute for s in shared if recipe.process in s.processes and s.dispute.id not in own)
    return replace(recipe, disputes=(*recipe.disputes, *drawn)) if drawn else recipe
