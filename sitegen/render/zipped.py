"""Zip files that come out the same every time: fixed dates, the order given, no user and no machine in them.

Equal bytes also need the same zlib: the packing is its affair.
"""

import io
import zipfile
from collections.abc import Iterable
from typing import BinaryIO, Final

from sitegen.render.page import Page

_EARLIEST: Final = (1980, 1, 1, 0, 0, 0)
_PACKED: Final = ("pdf", "png", "jpg", "jpeg", "webp", "epub")
"""Endings of what is packed already."""
_UNIX: Final = 3
_READABLE: Final = 0o644 << 16


def zip_into(out: BinaryIO, pages: Iterable[Page]) -> int:
    """Write the pages into `out` as one zip, one at a time; how many. A file named `mimetype` is stored bare."""
    count = 0
    with zipfile.ZipFile(out, "w") as packed:
        for page in pages:
            info = zipfile.ZipInfo(page.path, _EARLIEST)
            bare = page.path == "mimetype" or page.path.rpartition(".")[2].lower() in _PACKED
            info.compress_type = zipfile.ZIP_STORED if bare else zipfile.ZIP_DEFLATED
            info.create_system, info.external_attr = _UNIX, _READABLE
            packed.writestr(info, page.content)
            count += 1
    return count


def zipped(pages: Iterable[Page]) -> bytes:
    """The pages as one zip in memory."""
    out = io.BytesIO()
    zip_into(out, pages)
    return out.getvalue()
