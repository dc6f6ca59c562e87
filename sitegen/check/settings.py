"""Settings: archive.yaml, and what the recipes' check must know of it even when it has mistakes."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import cast, get_args

from sitegen.check.faults import read_document
from sitegen.check.places import Places
from sitegen.check.settings_documents import ArchiveDoc
from sitegen.check.water_documents import water_of
from sitegen.model.amount import Basis
from sitegen.model.archive import Measuring, Process, Settings
from sitegen.model.edition import Audience
from sitegen.model.recipe import Prose
from sitegen.problems import Problem, Problems, Span, did_you_mean
from sitegen.read.nodes import ListNode, MapNode, TextNode, fields_at, text_at
from sitegen.read.sources import SETTINGS, Sources


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """What recipes may name; None where archive.yaml does not tell, and nothing is said about it then."""

    editions: tuple[str, ...] | None
    default_edition: str | None
    processes: frozenset[str] | None
    percent_means: Basis | None


def check_settings(sources: Sources, problems: Problems) -> tuple[Settings | None, Known]:
    """The settings, or None when problems have been added; and what is known all the same."""
    root = sources.documents.get(SETTINGS)
    if root is None:
        # A bare percent is then not held against a recipe: the reason is already reported.
        return None, Known(editions=None, default_edition=None, processes=None, percent_means="w/v")
    doc = read_document(ArchiveDoc, root, problems)
    if doc is None:
        return None, _guess(root)
    sound = _editions_sound(doc, Places(root=root), problems)
    settings = _settings(doc, Places(root=root))
    known = Known(
        editions=settings.editions if sound else None,
        default_edition=settings.default_edition,
        processes=frozenset(doc.processes),
        percent_means=doc.percent_means,
    )
    return (settings if sound else None), known


def _guess(root: MapNode) -> Known:
    """What a faulty file still tells."""
    editions = root.get("editions")
    entries = editions.items if isinstance(editions, ListNode) else ()
    nodes = (n if isinstance(n, TextNode) else text_at(n, "id") for n in entries)
    names = [node.text for node in nodes if node]
    processes = fields_at(root, "processes")
    means = text_at(root, "percent means")
    default = text_at(root, "default edition")
    return Known(
        editions=tuple(names) if names else None,
        default_edition=default.text if default else None,
        processes=frozenset(key.text for key, _ in processes.entries) if processes else None,
        percent_means=cast(Basis, means.text) if means and means.text in get_args(Basis) else "w/v",
    )


def _settings(doc: ArchiveDoc, places: Places) -> Settings:
    return Settings(
        title=doc.title,
        studio=doc.studio or "",
        summary=doc.summary or "",
        address=doc.address or "",
        language=doc.language,
        editions=_order(doc),
        audiences=tuple(
            Audience(id=e.id, name=e.name or e.id.replace("-", " "), sealed=e.sealed, address=e.address or "")
            for e in doc.editions
        ),
        default_edition=doc.default_edition or _order(doc)[0],
        licence=doc.licence or "",
        percent_means=doc.percent_means,
        measuring=_measuring(doc),
        allowance=doc.allowance or Fraction(0),
        processes=tuple(Process(id=k, name=p.name, summary=p.summary or "") for k, p in doc.processes.items()),
        welcome=Prose(text=doc.welcome, at=places.value("welcome")) if doc.welcome else None,
        waters=tuple(water_of(id_, water) for id_, water in doc.water.items()),
    )


def _order(doc: ArchiveDoc) -> tuple[str, ...]:
    """The editions' ids, the widest first; one for everybody where none is declared."""
    return tuple(e.id for e in doc.editions) or ("public",)


def _measuring(doc: ArchiveDoc) -> Measuring:
    usual = Measuring()
    if doc.measuring is None:
        return usual
    return Measuring(
        balance=doc.measuring.balance or usual.balance,
        vessels=doc.measuring.vessels or usual.vessels,
        drops_per_ml=doc.measuring.drops_per_ml,
    )


def _editions_sound(doc: ArchiveDoc, places: Places, problems: Problems) -> bool:
    """Each edition stands once, and the default is one of them."""
    sound = True
    order = _order(doc)
    for n, name in enumerate(order):
        if name in order[:n]:
            sound = False
            between = order[order.index(name) + 1 : n]
            problems.add(_twice(name, between, places.value("editions", n, "id")))
    if doc.default_edition and doc.default_edition not in order:
        sound = False
        problems.add(unknown_edition(doc.default_edition, order, places, "default edition"))
    for id_, water in doc.water.items():
        if water.edition and water.edition not in order:
            sound = False
            problems.add(unknown_edition(water.edition, order, places, "water", id_, "edition"))
    return sound


def _twice(name: str, between: tuple[str, ...], at: Span) -> Problem:
    """The problem of an edition named twice: at once, or in a circle that nothing can come first in."""
    if not between:
        remedy = "name each edition once, the widest audience first"
        return Problem(code="duplicate-edition", at=at, message=f"`{name}` stands here twice", help=remedy)
    return Problem(
        code="edition-circle",
        at=at,
        message=f"`{name}` comes before and after `{between[-1]}`",
        help="name each edition once, the widest audience first",
        notes=("each edition holds what the ones before it hold, so the order cannot run in a circle",),
    )


def unknown_edition(name: str, known: tuple[str, ...], places: Places, *field: str | int) -> Problem:
    """The problem of an edition that archive.yaml does not declare."""
    listed = ", ".join(f"`{edition}`" for edition in known)
    return Problem(
        code="unknown-edition",
        at=places.value(*field),
        message=f"there is no edition `{name}`",
        help=did_you_mean(name, known) or f"write one of {listed}, or add it to `editions` in archive.yaml",
    )


def check_processes(names: Sequence[str], known: Known, places: Places, problems: Problems) -> None:
    """Each process that a shared file is drawn into is declared; nothing is said where none could be read."""
    for n, name in enumerate(names):
        if known.processes is not None and name not in known.processes:
            problems.add(unknown_process(name, known.processes, places.value("processes", n)))


def unknown_process(name: str, known: frozenset[str], at: Span) -> Problem:
    """The problem of a process that archive.yaml does not declare."""
    return Problem(
        code="unknown-process",
        at=at,
        message=f"there is no process `{name}`",
        help=did_you_mean(name, known) or f"add it to archive.yaml, below `processes`: `{name}: {{name: …}}`",
    )
