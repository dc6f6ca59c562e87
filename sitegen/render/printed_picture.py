"""Pictures for print: one file of each, as the setter takes it. What of a picture may be published is `pictures`.

The setter reads text files alone, so a picture goes in as an SVG that holds it. JPEG and PNG reach the PDF as they
are; anything else would be unpacked there and weigh several times as much.
"""

import base64
import io
from functools import lru_cache
from typing import Final

from PIL import Image

from sitegen.render.pictures import FLAT, Published

LONGEST: Final = 1200
"""Pixels along the longer side: 180 to the inch across a page, 300 across half of it."""
_KEPT: Final = 256
_WHITE: Final = "white"


@lru_cache(maxsize=_KEPT)
def printed_picture(published: Published) -> bytes:
    """The picture as SVG text: a photograph as JPEG, a drawing of few colours as PNG; without metadata."""
    whole = published.whole
    with Image.open(io.BytesIO(whole.content)) as opened:
        kind = "PNG" if opened.format == "PNG" and opened.getcolors(FLAT) else "JPEG"
        if opened.format == kind and (kind == "PNG" or max(opened.size) <= LONGEST):
            return _svg(whole.content, kind, opened.size)
        opened.thumbnail((LONGEST, LONGEST))
        return _svg(_jpeg(opened), kind, opened.size)


def _jpeg(image: Image.Image) -> bytes:
    """On white, as on paper, where one sees through it."""
    plain = image.convert("RGBA")
    ground = Image.new("RGBA", plain.size, _WHITE)
    out = io.BytesIO()
    Image.alpha_composite(ground, plain).convert("RGB").save(out, format="JPEG", quality=85, optimize=True)
    return out.getvalue()


def _svg(content: bytes, kind: str, size: tuple[int, int]) -> bytes:
    wide, high = size
    data = base64.b64encode(content).decode()
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}" height="{high}" viewBox="0 0 {wide} {high}">'
        f'<image width="{wide}" height="{high}" href="data:image/{kind.lower()};base64,{data}"/></svg>'
    ).encode()
