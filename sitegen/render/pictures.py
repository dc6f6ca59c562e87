"""Pictures: upright, in the sizes that screens need, and without the data a camera hid in them.

Place, serial number and owner stand in a picture's metadata; only its pixels are published. Each picture
is written as WebP in several widths, and once in its own format for programs that read no WebP.
"""

import io
import struct
import warnings
import zlib
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from types import MappingProxyType
from typing import Any, Final

from PIL import Image, ImageCms, ImageOps, UnidentifiedImageError

from sitegen.problems import Refusal

WIDTHS: Final = (480, 960)
"""Pixels of the smaller widths: a phone, and a phone of twice the density or a column of the page."""
LONGEST: Final = 1600
"""Pixels along the longer side of the largest: twice a phone's width, a page's full measure."""
MOST_PIXELS: Final = 80_000_000
FORMATS: Final = ("JPEG", "PNG", "WEBP")
FLAT: Final = 256
"""A drawing of no more colours than this stays sharp: it is compressed without loss."""
FEW: Final = 32
"""Colours of such a drawing made smaller: enough for smoothed edges."""
_ALIKE: Final = Fraction(1, 100)

_DAMAGED: Final = (
    UnidentifiedImageError, OSError, EOFError, SyntaxError, ValueError, IndexError, KeyError, TypeError,
    OverflowError, struct.error, zlib.error,
)  # fmt: skip
"""What the decoders raise for a damaged file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """One file of a picture: `path` below `images/`, its size in pixels, its bytes."""

    path: str
    width: int
    height: int
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """A picture as it is published: the largest in its own format, and WebP from small to large."""

    whole: Variant
    webp: tuple[Variant, ...]

    @property
    def files(self) -> tuple[Variant, ...]:
        """Every file of it."""
        return (self.whole, *self.webp)


Pictures = Mapping[str, Published]
"""Pictures ready to publish, by their path below `images/`."""
NO_PICTURES: Final[Pictures] = MappingProxyType({})


@lru_cache(maxsize=128)
def published(content: bytes, name: str) -> Published:
    """The picture as it is published. `Refusal` when it is none, or a bomb; the last ones are remembered."""
    with _readable(name), warnings.catch_warnings():
        warnings.simplefilter("ignore")  # metadata may be damaged as it likes: it is thrown away
        warnings.simplefilter("error", Image.DecompressionBombWarning)
        return _prepared(content, name)


def alike(one: Published, other: Published) -> bool:
    """Whether two pictures have the same proportions, to one part in a hundred, and so can be laid on each other."""
    first, second = (Fraction(p.whole.width, p.whole.height) for p in (one, other))
    return abs(first - second) <= _ALIKE * first


@contextmanager
def _readable(name: str) -> Iterator[None]:
    try:
        yield
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise _too_large(name) from error
    except Refusal:
        raise
    except _DAMAGED as error:
        raise Refusal(
            "picture-not-read",
            f"the picture `{name}` cannot be read",
            "save it again as JPEG, PNG or WebP, and look at it before you name it here",
        ) from error


def _prepared(content: bytes, name: str) -> Published:
    with Image.open(io.BytesIO(content), formats=FORMATS) as opened:
        if opened.width * opened.height > MOST_PIXELS:
            raise _too_large(name)
        kind = opened.format if opened.format in FORMATS else "JPEG"  # phones write several JPEGs in one file
        plain = _plain(ImageOps.exif_transpose(opened))
    plain.thumbnail((LONGEST, LONGEST))
    flat = kind == "PNG" and plain.getcolors(FLAT) is not None
    widths = [width for width in WIDTHS if width < plain.width] + [plain.width]
    made = [_webp(plain, width, f"{name}-{width}.webp", flat=flat) for width in widths]
    # A drawing made smaller has more shades, and may be the larger file: then it is no gain.
    webp = tuple(v for n, v in enumerate(made) if all(len(v.content) < len(w.content) for w in made[n + 1 :]))
    return Published(whole=_whole(plain, kind, name), webp=webp)


def _plain(image: Image.Image) -> Image.Image:
    """Eight bits a channel, with transparency where there is any, in the colours that every screen assumes."""
    profile = image.info.get("icc_profile")
    if image.mode.startswith("I"):  # sixteen bits of grey, as scanners write them
        image = image.convert("I").point(lambda value: value * (1 / 256)).convert("L")
    elif image.mode not in ("L", "RGB", "RGBA"):
        profile = profile if image.mode == "CMYK" else None
        seen_through = "transparency" in image.info or image.mode in ("LA", "PA", "La")
        image = image if profile else image.convert("RGBA" if seen_through else "RGB")
    bare = _in_srgb(image, profile) if profile else image.copy()
    bare.info.clear()  # text chunks, colour profiles and EXIF travel in `info`
    return bare


def _in_srgb(image: Image.Image, profile: bytes) -> Image.Image:
    """The colours as their profile means them; as they are where the profile cannot be used."""
    wanted = "RGB" if image.mode == "CMYK" else image.mode
    if wanted == "L":
        return image.copy()
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        turned = ImageCms.profileToProfile(image, source, ImageCms.createProfile("sRGB"), outputMode=wanted)
    except (ImageCms.PyCMSError, OSError):
        turned = None
    return turned or image.convert(wanted)


def _whole(image: Image.Image, kind: str, name: str) -> Variant:
    if kind == "JPEG":
        return _saved(image.convert("RGB"), name, kind, quality=85, optimize=True)
    if kind == "WEBP":
        return _saved(image, name, kind, quality=85)
    few = image.mode == "RGB" and image.getcolors(FLAT) is not None
    return _saved(image.quantize(FLAT) if few else image, name, kind, optimize=True)


def _webp(image: Image.Image, width: int, name: str, *, flat: bool) -> Variant:
    small = image
    if width < image.width:
        height = max(1, round(image.height * width / image.width))
        small = image.resize((width, height), Image.Resampling.LANCZOS)
        if flat and small.mode == "RGB":
            small = small.quantize(FEW).convert("RGB")
    return _saved(small, name, "WEBP", lossless=flat, quality=80, method=4)


def _saved(image: Image.Image, path: str, kind: str, **how: Any) -> Variant:
    out = io.BytesIO()
    image.save(out, format=kind, **how)
    return Variant(path=path, width=image.width, height=image.height, content=out.getvalue())


def _too_large(name: str) -> Refusal:
    return Refusal(
        "picture-too-large",
        f"the picture `{name}` holds more than {MOST_PIXELS // 1_000_000} million pixels",
        "save it smaller: 3000 pixels along the longer side are plenty",
    )
