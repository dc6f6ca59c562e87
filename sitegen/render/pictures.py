"""Pictures: upright, no larger than a screen needs, and without the data a camera hid in them.

Place, serial number and owner stand in a picture's metadata; only its pixels are published.
"""

import io
import warnings
from typing import Final

from PIL import Image, ImageOps, UnidentifiedImageError

from sitegen.problems import Refusal

LONGEST: Final = 1600
"""Pixels along the longer side: twice a phone's width, a page's full measure."""
MOST_PIXELS: Final = 80_000_000
FORMATS: Final = ("JPEG", "PNG", "WEBP")


def published(content: bytes, name: str) -> bytes:
    """The picture as it is published, in its own format. `Refusal` when it is none, or a bomb."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            return _prepared(content, name)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _too_large(name) from error
    except (UnidentifiedImageError, OSError, SyntaxError, ValueError) as error:
        raise Refusal(
            "picture-not-read",
            f"the picture `{name}` cannot be read",
            "save it again as JPEG, PNG or WebP, and look at it before you name it here",
        ) from error


def _prepared(content: bytes, name: str) -> bytes:
    with Image.open(io.BytesIO(content), formats=FORMATS) as opened:
        if opened.width * opened.height > MOST_PIXELS:
            raise _too_large(name)
        kind = opened.format or "PNG"
        upright = ImageOps.exif_transpose(opened)
    upright.thumbnail((LONGEST, LONGEST))
    bare = upright.convert("RGB" if kind == "JPEG" else upright.mode)
    bare.info.clear()  # text chunks, colour profiles and EXIF travel in `info`
    out = io.BytesIO()
    bare.save(out, format=kind, **({"quality": 85} if kind != "PNG" else {"optimize": True}))
    return out.getvalue()


def _too_large(name: str) -> Refusal:
    return Refusal(
        "picture-too-large",
        f"the picture `{name}` holds more than {MOST_PIXELS // 1_000_000} million pixels",
        "save it smaller: 3000 pixels along the longer side are plenty",
    )
