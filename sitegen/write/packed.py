"""Writing a zip: whole or not at all, one file of it at a time."""

from collections.abc import Iterable
from pathlib import Path

from sitegen.render.page import Page
from sitegen.render.zipped import zip_into
from sitegen.write.build import WriteError


def write_zip(path: Path, pages: Iterable[Page]) -> int:
    """Write beside, then take the name; how many files are in it. An error leaves what was there.

    `pages` may be lazy: an exception while it runs leaves the old file untouched too.
    """
    part = path.with_name(f".{path.name}.part")
    try:
        with part.open("wb") as out:
            count = zip_into(out, pages)
        part.replace(path)
    except OSError as error:
        if error.errno is None:  # not the disk
            raise
        raise WriteError(path, (error.strerror or "it cannot be written").casefold()) from error
    finally:
        part.unlink(missing_ok=True)
    return count
