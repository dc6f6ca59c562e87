"""What is published against what was compiled: missing, stale and left over, by hash. Asking for it is `cli.published`.

A file of a higher edition is the worst of all: it is named as such whether it is known by its bytes or by its path.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final, Literal

from sitegen.render.manifest import MANIFEST, Hashes

Kind = Literal["missing", "stale", "left over", "no answer"]
HOSTS_OWN: Final = (".git", ".nojekyll", ".well-known", "CNAME")
"""At the top of a published folder these are the host's or the author's affair."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """One file that is not as compiled; `of` names the higher edition that it belongs to, else ''."""

    kind: Kind
    path: str
    of: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Compiled:
    """What was compiled: one edition's files, and those of the editions above it, by edition."""

    edition: str
    files: Hashes
    higher: Mapping[str, Hashes]


def to_ask(compiled: Compiled, listed: Hashes) -> tuple[str, ...]:
    """The paths to look for on a host that lists no folders: ours, those of higher editions, and `listed` there."""
    known = {*compiled.files, MANIFEST, *listed}
    return tuple(sorted(known.union(*compiled.higher.values())))


def differences(compiled: Compiled, found: Mapping[str, str | None]) -> tuple[Difference, ...]:
    """What is wrong with what was found: hashes by path, None where no answer came. Higher editions first."""
    wrong = [d for path in sorted({*compiled.files, *found} - {MANIFEST}) if (d := _difference(compiled, path, found))]
    return tuple(sorted(wrong, key=lambda d: (not d.of, d.kind, d.path)))


def _difference(compiled: Compiled, path: str, found: Mapping[str, str | None]) -> Difference | None:
    if path not in found:
        return Difference(kind="missing", path=path)
    there, ours = found[path], compiled.files.get(path)
    if there is None:
        return Difference(kind="no answer", path=path)
    if there == ours or (ours is None and path.partition("/")[0] in HOSTS_OWN):
        return None
    return Difference(kind="stale" if ours else "left over", path=path, of=_higher(compiled, path, there))


def _higher(compiled: Compiled, path: str, there: str) -> str:
    """The lowest higher edition that has these bytes, or this path and ours has not."""
    shared = set(compiled.files.values())
    for edition, files in compiled.higher.items():
        if there not in shared and there in files.values():
            return edition
        if path in files and path not in compiled.files:
            return edition
    return ""
