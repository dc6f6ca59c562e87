"""Reading everything below a folder as text, hidden files too: to look for what must not stand there."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Final

MOST_BYTES: Final = 8_000_000
"""Of one file; a longer one is no place where somebody keeps words."""
_SKIPPED: Final = frozenset({".git"})  # compressed: nothing can be found in it


def texts_below(folder: Path) -> Iterator[tuple[str, str]]:
    """Path and text of every file that can be read; bytes that are no UTF-8 (or UTF-16) are left out."""
    for here, folders, files in os.walk(folder):
        folders[:] = sorted(name for name in folders if name not in _SKIPPED)
        for path in (Path(here, name) for name in sorted(files)):
            try:
                raw = path.read_bytes() if path.is_file() and path.stat().st_size <= MOST_BYTES else b""
            except OSError:
                continue  # said by the reader of the archive where it matters
            wide = raw[:2] in (b"\xff\xfe", b"\xfe\xff")
            yield path.relative_to(folder).as_posix(), raw.decode("utf-16" if wide else "utf-8", errors="ignore")
