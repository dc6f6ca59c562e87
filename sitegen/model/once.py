"""Once: what follows from a part of an archive is worked out once in that archive's life.

Kept with the archive itself and gone with it, by the very part that was asked about: no value is compared, and an
edition, which is an archive of its own, never sees what was worked out for another. Of each kind the last ones
only, so that a large archive never lies in memory at once.
"""

from collections.abc import Callable
from functools import wraps
from typing import Any, Final, TypeVar

from sitegen.model.archive import Archive

Part = TypeVar("Part")
Found = TypeVar("Found")

KEPT: Final = 512
"""How many of each kind an archive keeps."""


def once(work: Callable[[Part, Archive], Found]) -> Callable[[Part, Archive], Found]:
    """`work`, remembered with the archive. It must be pure, and what it gives must never be changed."""

    @wraps(work)
    def found(part: Part, archive: Archive) -> Found:
        # The part is kept beside its answer: while it is, nothing else can have its id.
        kept: dict[int, tuple[Part, Any]] = archive.worked_out.setdefault(found, {})
        if (known := kept.get(id(part))) is None:
            known = part, work(part, archive)
            if len(kept) >= KEPT:
                del kept[next(iter(kept))]
            kept[id(part)] = known
        answer: Found = known[1]
        return answer

    return found
