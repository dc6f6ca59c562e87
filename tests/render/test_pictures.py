"""Pictures: what a camera hid is gone, they stand upright, every size is there, and no file brings the build down."""

import io
import random
import struct
import zlib

import exifread
import pytest
from PIL import Image, ImageCms, ImageDraw, PngImagePlugin

from sitegen.problems import Refusal
from sitegen.render.pictures import LONGEST, Published, Variant, alike, published

SECRET = b"Hartley Reed"
ORIENTATION, GPS, MAKE, ARTIST = 0x0112, 0x8825, 0x010F, 0x013B


def photo(width: int = 1200, height: int = 900) -> Image.Image:
    """A picture with more shades than a drawing: smooth noise, its upper half darker."""
    chance = random.Random(width * height)
    small = Image.frombytes("RGB", (24, 18), bytes(chance.randrange(256) for _ in range(24 * 18 * 3)))
    picture = small.resize((width, height), Image.Resampling.BICUBIC)
    ImageDraw.Draw(picture).rectangle([0, 0, width, height // 4], fill=(10, 10, 10))
    return picture


def with_secrets(orientation: int = 1) -> Image.Exif:
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE], exif[ARTIST] = orientation, "Camera", SECRET.decode()
    exif[GPS] = {1: "N", 2: (53.0, 30.0, 12.0), 3: "E", 4: (8.0, 12.0, 1.0)}
    return exif


def encoded(picture: Image.Image, kind: str, **how: object) -> bytes:
    out = io.BytesIO()
    picture.save(out, format=kind, **how)
    return out.getvalue()


def opened(variant: Variant) -> Image.Image:
    picture = Image.open(io.BytesIO(variant.content))
    picture.load()
    return picture


def carrying_secrets(kind: str) -> bytes:
    how: dict[str, object] = {
        "exif": with_secrets(),
        "icc_profile": ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes(),
    }
    if kind == "PNG":
        text = PngImagePlugin.PngInfo()
        text.add_text("Comment", SECRET.decode())
        how["pnginfo"] = text
    elif kind == "JPEG":
        how["comment"] = SECRET
    else:
        how["xmp"] = b"<x:xmpmeta>" + SECRET + b"</x:xmpmeta>"
    return encoded(photo(), kind, **how)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_nothing_a_camera_hid_is_published(kind: str) -> None:
    source = carrying_secrets(kind)
    assert SECRET in source
    assert Image.open(io.BytesIO(source)).getexif().get_ifd(GPS)
    for variant in published(source, f"secret.{kind}").files:
        picture = opened(variant)
        assert not picture.getexif(), variant.path
        assert not picture.getexif().get_ifd(GPS)
        assert not {"exif", "xmp", "icc_profile", "comment", "Comment"} & set(picture.info), variant.path
        assert SECRET not in variant.content
        # A second reader, which looks for itself.
        assert exifread.process_file(io.BytesIO(variant.content), details=True) == {}


def test_the_second_reader_finds_the_place_in_the_source() -> None:
    tags = exifread.process_file(io.BytesIO(carrying_secrets("JPEG")), details=True)
    assert "GPS GPSLatitude" in tags


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_picture_stands_upright_however_the_camera_was_held(orientation: int) -> None:
    upright = photo(640, 480)
    turned = {
        1: None, 2: Image.Transpose.FLIP_LEFT_RIGHT, 3: Image.Transpose.ROTATE_180, 4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE, 6: Image.Transpose.ROTATE_90, 7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }[orientation]  # fmt: skip
    held = upright.transpose(turned) if turned is not None else upright
    made = published(encoded(held, "JPEG", quality=95, exif=with_secrets(orientation)), "held.jpg")
    assert (made.whole.width, made.whole.height) == (640, 480)
    assert sum(opened(made.whole).convert("RGB").getpixel((320, 20))) < 90  # the dark band is on top
    assert sum(opened(made.whole).convert("RGB").getpixel((320, 460))) > 90


def sizes(made: Published) -> list[int]:
    return [variant.width for variant in made.webp]


def test_every_size_is_made_and_none_larger_than_the_source() -> None:
    large = published(encoded(photo(2400, 1800), "JPEG"), "large.jpg")
    assert sizes(large) == [480, 960, LONGEST]
    assert [v.path for v in large.files] == [
        "large.jpg",
        "large.jpg-480.webp",
        "large.jpg-960.webp",
        "large.jpg-1600.webp",
    ]
    assert sizes(published(encoded(photo(700, 500), "JPEG"), "middle.jpg")) == [480, 700]
    assert sizes(published(encoded(photo(300, 200), "JPEG"), "small.jpg")) == [300]
    tall = published(encoded(photo(900, 3200), "JPEG"), "tall.jpg")
    assert (tall.whole.width, tall.whole.height) == (450, LONGEST)


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_what_is_said_of_a_file_is_true_of_it(kind: str) -> None:
    made = published(encoded(photo(), kind), "said")
    assert opened(made.whole).format == kind
    for variant in made.files:
        assert opened(variant).size == (variant.width, variant.height)
    assert {opened(variant).format for variant in made.webp} == {"WEBP"}


def test_a_drawing_keeps_its_colours_and_a_size_that_saves_nothing_is_left_out() -> None:
    drawing = Image.new("RGB", (1000, 800), "white")
    ImageDraw.Draw(drawing).rectangle([200, 200, 700, 600], fill=(24, 54, 110))
    made = published(encoded(drawing, "PNG"), "drawing.png")
    assert opened(made.webp[-1]).convert("RGB").getpixel((300, 300)) == (24, 54, 110)
    contents = [len(variant.content) for variant in made.webp]
    assert contents == sorted(contents)


def test_what_is_seen_through_stays_so() -> None:
    picture = Image.new("RGBA", (600, 400), (0, 0, 0, 0))
    made = published(encoded(picture, "PNG"), "clear.png")
    assert all(opened(v).convert("RGBA").getpixel((5, 5))[3] == 0 for v in made.files)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16", "CMYK"])
def test_every_kind_of_pixel_becomes_one_that_browsers_show(mode: str) -> None:
    kind = "JPEG" if mode == "CMYK" else "PNG"
    if mode == "I;16":  # grey as scanners write it; white must stay white
        picture = Image.frombytes("I;16", (8, 8), struct.pack("<64H", *[65_535] * 64))
    else:
        picture = Image.new("RGB", (8, 8), "white").convert(mode)
    made = published(encoded(picture, kind), "pixels")
    assert all(min(opened(v).convert("RGB").getpixel((4, 4))) > 250 for v in made.files)


def test_colours_are_those_of_their_profile() -> None:
    lab = ImageCms.createProfile("LAB", 5000)
    assert lab  # a profile that cannot be one of RGB: the picture is published all the same
    picture = photo(64, 48)
    profile = ImageCms.ImageCmsProfile(lab).tobytes()
    assert published(encoded(picture, "PNG", icc_profile=profile), "odd.png").whole.width == 64
    assert published(encoded(picture, "PNG", icc_profile=b"no profile"), "none.png").whole.width == 64


def bomb(width: int, height: int) -> bytes:
    """A PNG that says it holds that many pixels, and holds none."""

    def chunk(name: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    data = zlib.compress(b"\0" * 100)
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", header) + chunk(b"IDAT", data) + chunk(b"IEND", b"")


@pytest.mark.parametrize("side", [9_000, 20_000, 60_000])
def test_a_bomb_is_refused_before_it_is_unpacked(side: int) -> None:
    with pytest.raises(Refusal) as said:
        published(bomb(side, side), "bomb.png")
    assert said.value.code == "picture-too-large"


@pytest.mark.parametrize("content", [b"", b"not a picture", b"GIF89a" + b"\0" * 40, b"<svg xmlns='x'/>", bomb(40, 40)])
def test_what_is_no_picture_is_refused(content: bytes) -> None:
    with pytest.raises(Refusal) as said:
        published(content, "odd.png")
    assert said.value.code == "picture-not-read"
    assert "`odd.png`" in said.value.message


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_a_damaged_file_gives_a_picture_or_a_refusal_and_nothing_else(kind: str) -> None:
    dice = random.Random(kind)
    whole = encoded(photo(48, 36), kind, exif=with_secrets())
    for _ in range(60):
        content = bytearray(whole)
        for _ in range(dice.randint(1, 6)):
            content[dice.randrange(len(content))] = dice.randrange(256)
        if dice.random() < 0.3:
            del content[dice.randrange(len(content)) :]
        assert SECRET not in contents_or_refusal(bytes(content))


def contents_or_refusal(content: bytes) -> bytes:
    """All bytes that would be published; none where the file is refused."""
    try:
        return b"".join(variant.content for variant in published(content, "damaged").files)
    except Refusal:
        return b""


def test_the_same_picture_gives_the_same_bytes() -> None:
    source = encoded(photo(), "JPEG")
    again = published.__wrapped__(source, "same.jpg")
    assert published(source, "same.jpg") == again


@pytest.mark.parametrize(
    ("one", "other", "fit"),
    [
        ((800, 600), (400, 300), True),
        ((800, 600), (800, 604), True),
        ((800, 600), (600, 800), False),
        ((800, 600), (800, 620), False),
    ],
)
def test_pictures_to_compare_have_the_same_proportions(one: tuple[int, int], other: tuple[int, int], fit: bool) -> None:
    first, second = (published(encoded(photo(*size), "JPEG"), "pair.jpg") for size in (one, other))
    assert alike(first, second) is fit
