"""Building: from a folder to editions on disk; what `compile` and `preview` share."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import date
from pathlib import Path
from secrets import token_bytes

from rich.console import Console
from rich.progress import BarColumn, Progress, TextColumn

from sitegen.cli.pictures import load_pictures
from sitegen.cli.shell import Loaded, load
from sitegen.compute.publication import publication_passed
from sitegen.model.archive import Archive
from sitegen.read.theme import Theme
from sitegen.render.edition import Edition, edition_pages, editions, settled_edition
from sitegen.render.keeping import ANEW, Keeping, Kept, Look, Rebuild
from sitegen.render.manifest import with_manifest
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.sealed import sealed_edition, sealing
from sitegen.sealing.given import Given
from sitegen.write import write_edition

FILES_A_RECIPE = 6  # page, troubles, two sheets, two booklets: most of what is written


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """An archive that was loaded with its pictures."""

    loaded: Loaded
    pictures: Pictures


def prepare(folder: Path | None, today: date | None = None) -> Ready:
    """Read, check, compute and load pictures; whatever is wrong is in `loaded.problems`.

    With a day, recipes that their day of publication has opened are told, too.
    """
    loaded = load(folder)
    archive = loaded.archive
    if archive and today:
        publication_passed(archive, today, loaded.problems)
    pictures = load_pictures(archive, loaded.folder, loaded.problems) if archive else {}
    return Ready(loaded=loaded, pictures=pictures)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a build depends on beyond the archive: the day it is for, and passphrases of sealed editions.

    An edition without passphrases is written open: that is for the author's own preview.
    """

    today: date
    given: Given = field(default_factory=dict)
    kept: Kept | None = None
    """For a preview: what it kept. Then only the last edition is built, which holds what all before it hold."""


def build(ready: Ready, out: Path, theme: Theme, console: Console, asked: Asked) -> Iterator[tuple[str, int]]:
    """Write every edition below `out`, giving its name and how many files it has.

    Only for an archive without errors. `WriteError` when an edition cannot be written.
    """
    archive = ready.loaded.archive
    assert archive, "problems were looked at first"
    for edition, keeping in _editions(archive, ready.pictures, theme, asked):
        pages = _watched(edition, edition_pages(edition, theme, ready.pictures, keeping), console)
        if passphrases := asked.given.get(edition.name):
            pages = sealed_edition(edition, pages, theme, sealing(passphrases, token_bytes))
        yield edition.name, write_edition(with_manifest(pages), out / edition.name)


def _editions(archive: Archive, pictures: Pictures, theme: Theme, asked: Asked) -> Iterator[tuple[Edition, Keeping]]:
    if asked.kept is None:
        yield from ((edition, ANEW) for edition in editions(archive, asked.today))
        return
    edition = settled_edition(archive, asked.today, asked.kept)
    look = Look(edition=edition.name, theme=theme, pictures=pictures)
    yield edition, Rebuild(asked.kept, edition.computed.archive, look)


def _watched(edition: Edition, pages: Iterator[Page], console: Console) -> Iterator[Page]:
    """The pages, with a bar on a terminal and silence elsewhere."""
    columns = (TextColumn("{task.description}"), BarColumn(), TextColumn("{task.fields[now]}"))
    expected = FILES_A_RECIPE * len(edition.computed.archive.recipes)
    with Progress(*columns, console=console, transient=True, disable=not console.is_terminal) as progress:
        task = progress.add_task(edition.name, total=expected, now="")
        for page in pages:
            yield page
            progress.update(task, advance=1 if page.path.startswith("recipes/") else 0, now=page.path)
