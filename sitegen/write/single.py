"""Writing one file asked for by name: whole or not at all."""

import shutil
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from sitegen.write.build import WriteError


def write_single(path: Path, content: bytes) -> None:
    """Write beside, then take the name; an error leaves what was there."""
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_bytes(content)
        part.replace(path)
    except OSError as error:
        _drop(part)
        raise WriteError(path, (error.strerror or "it cannot be written").casefold()) from error


def write_several(content: Mapping[Path, bytes]) -> None:
    """Write files, each beside first, then all take their names: an error before that leaves everything as it was."""
    parts = {path: path.with_name(f".{path.name}.part") for path in content}
    at = next(iter(content), Path())
    try:
        for path, data in content.items():
            at = path
            path.parent.mkdir(parents=True, exist_ok=True)
            parts[path].write_bytes(data)
        for path, part in parts.items():
            at = path
            part.replace(path)
    except OSError as error:
        for part in parts.values():
            _drop(part)
        raise WriteError(at, (error.strerror or "it cannot be written").casefold()) from error


def _drop(part: Path) -> None:
    with suppress(OSError):  # a folder that cannot be written in refuses this, too; the first reason is what counts
        part.unlink(missing_ok=True)


def write_new(folder: Path, content: Mapping[str, bytes]) -> int:
    """Write several files into a new or empty folder; how many. Whole or not at all, too."""
    fresh = folder.with_name(f".{folder.name}.new")
    try:
        for name, data in content.items():
            path = fresh / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(data)
        folder.mkdir(exist_ok=True)
        for made in sorted(fresh.iterdir()):  # moved in one by one: the folder may be where a shell stands
            made.replace(folder / made.name)
    except OSError as error:
        raise WriteError(folder, (error.strerror or "it cannot be written").casefold()) from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)
    return len(content)
