"""Writing an edition: into a new folder beside the old, which takes its place when all is written.

A full disk or an interrupt leaves the last good build as it was.
"""

import shutil
from collections.abc import Iterable
from pathlib import Path, PurePosixPath

from sitegen.render.page import Page

MARK = "archive.json"
"""The file by which a folder is known to be a build of ours; only such a folder is ever replaced."""


class WriteError(Exception):
    """A build could not be written; the old one stands. Carries the path and the reason."""

    def __init__(self, path: Path, reason: str) -> None:
        super().__init__(f"{path}: {reason}")
        self.path = path
        self.reason = reason


def write_edition(pages: Iterable[Page], folder: Path) -> int:
    """Write every page below `folder`, replacing what was there; the number of files written.

    `pages` may be lazy: an exception while it runs leaves the old build untouched too.
    """
    if folder.exists() and not _ours(folder):
        raise WriteError(folder, "it is not a build of ours, and would be replaced; name another folder with --out")
    fresh = folder.with_name(f".{folder.name}.new")
    old = folder.with_name(f".{folder.name}.old")
    try:
        for leftover in (fresh, old):
            if leftover.exists():
                shutil.rmtree(leftover)
        count = _write_all(pages, fresh)
        if folder.exists():
            folder.rename(old)
        fresh.rename(folder)
        shutil.rmtree(old, ignore_errors=True)
    except OSError as error:
        if error.errno is None:  # not the disk: a template that is missing is an OSError to its library
            raise
        raise WriteError(Path(error.filename or folder), (error.strerror or "").casefold()) from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
        if old.exists() and not folder.exists():
            old.rename(folder)
    return count


def _write_all(pages: Iterable[Page], folder: Path) -> int:
    folder.mkdir(parents=True)
    count = 0
    made = {folder}
    for page in pages:
        path = folder / page.path
        if ".." in PurePosixPath(page.path).parts or PurePosixPath(page.path).is_absolute():
            raise WriteError(path, "it lies outside the build")
        if path.parent not in made:
            path.parent.mkdir(parents=True, exist_ok=True)
            made.add(path.parent)
        path.write_bytes(page.content)
        count += 1
    return count


def _ours(folder: Path) -> bool:
    return folder.is_dir() and ((folder / MARK).is_file() or not any(folder.iterdir()))
