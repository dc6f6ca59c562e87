"""Draws the demo archive's pictures: plain procedural drawings, the same bytes at every run.

Run from the repository: `python content/draw_pictures.py`. It writes `content/images/*.png`
and is no part of the compiler.
"""

import math
import random
from pathlib import Path
from typing import Final

from PIL import Image, ImageDraw, ImageFont

IMAGES: Final = Path(__file__).parent / "images"
BLUE: Final = (24, 54, 110)
PAPER: Final = (250, 248, 240)
INK: Final = (34, 34, 34)
SOFT: Final = (205, 214, 228)
YELLOW: Final = (232, 222, 150)
PALE_BLUE: Final = (86, 122, 176)
BROWN: Final = (124, 84, 52)
COLOURS: Final = 32
"""Colours in a saved picture: enough for the smoothed edges of flat drawings, and small files."""

Point = tuple[float, float]


def save(picture: Image.Image, name: str) -> None:
    """Shrink a drawing made at twice its size, and store it with few colours and no metadata."""
    small = picture.resize((picture.width // 2, picture.height // 2), Image.Resampling.LANCZOS)
    IMAGES.mkdir(exist_ok=True)
    small.quantize(COLOURS).save(IMAGES / name, optimize=True)


def stalk(foot: Point, lean: float, height: float) -> list[Point]:
    """Points from the foot of a grass to its tip; `lean` is how far the tip has bent sideways."""
    steps = 40
    return [
        (foot[0] + lean * (i / steps) ** 2.2, foot[1] - height * math.sin(i / steps * math.pi / 2))
        for i in range(steps + 1)
    ]


def grass_print() -> None:
    """A blue print of grasses: white silhouettes on blue, with a brushed edge."""
    chance = random.Random(1842)  # noqa: S311  # fixed, so that the drawing is the same every time
    picture = Image.new("RGB", (1200, 900), PAPER)
    draw = ImageDraw.Draw(picture)
    for y in range(60, 840, 6):
        left, right = 70 + chance.uniform(-22, 16), 1130 + chance.uniform(-16, 22)
        draw.line([(left, y), (right, y)], fill=BLUE, width=9)
    for _ in range(17):
        foot = (chance.uniform(160, 880), 834.0)
        points = stalk(foot, chance.uniform(40, 230), chance.uniform(330, 690))
        draw.line(points, fill=PAPER, width=chance.choice((4, 5, 7)), joint="curve")
        for n, (across, down) in enumerate(points[-13:]):
            size = 15 - abs(n - 6) * 1.6
            draw.ellipse([across - size / 2, down - size, across + size, down + size * 0.7], fill=PAPER)
    save(picture, "grass-print.png")


def arrow(draw: ImageDraw.ImageDraw, start: Point, end: Point) -> None:
    """A straight arrow in ink."""
    draw.line([start, end], fill=INK, width=6)
    angle = math.atan2(end[1] - start[1], end[0] - start[0])
    wings = [(end[0] - 26 * math.cos(angle + turn), end[1] - 26 * math.sin(angle + turn)) for turn in (0.45, -0.45)]
    draw.polygon([end, *wings], fill=INK)


def brush_strokes() -> None:
    """How a sheet is coated: first along, then across, inside a margin."""
    picture = Image.new("RGB", (1300, 800), "white")
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size=52)
    for step, left in ((1, 60), (2, 690)):
        draw.rectangle([left, 110, left + 550, 760], fill=PAPER, outline=INK, width=4)
        draw.rectangle([left + 60, 170, left + 490, 700], fill=YELLOW)
        draw.text((left, 34), str(step), font=font, fill=INK)
        if step == 1:
            for y in range(215, 700, 75):
                arrow(draw, (left + 75, y), (left + 475, y))
        else:
            for x in range(left + 95, left + 470, 72):
                arrow(draw, (x, 185), (x, 685))
    save(picture, "brush-strokes.png")


def contact_stack() -> None:
    """A closed contact frame in section, from the light down to the backing board."""
    picture = Image.new("RGB", (1300, 840), "white")
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size=46)
    for x in range(120, 760, 120):
        arrow(draw, (x, 60), (x, 190))
    draw.text((840, 90), "light", font=font, fill=INK)
    layers = (
        ("glass", SOFT, 120),
        ("film base", (238, 238, 238), 90),
        ("ink", INK, 34),
        ("coating", YELLOW, 50),
        ("paper", PAPER, 120),
        ("backing board", (178, 150, 116), 140),
    )
    top = 220.0
    for name, colour, height in layers:
        if name == "ink":
            for x in range(60, 800, 150):
                draw.rectangle([x, top, x + 90, top + height], fill=colour)
        else:
            draw.rectangle([60, top, 800, top + height], fill=colour, outline=INK, width=3)
        middle = top + height / 2
        draw.line([(800, middle), (825, middle)], fill=INK, width=3)
        draw.text((840, middle), name, font=font, fill=INK, anchor="lm")
        top += height + 14 if name == "paper" else height
    save(picture, "contact-stack.png")


def cross(draw: ImageDraw.ImageDraw, middle: Point, arm: float, colour: tuple[int, int, int]) -> None:
    """A registration cross."""
    across, down = middle
    draw.line([(across - arm, down), (across + arm, down)], fill=colour, width=6)
    draw.line([(across, down - arm), (across, down + arm)], fill=colour, width=6)


def tide_lines(draw: ImageDraw.ImageDraw, colour: tuple[int, int, int]) -> None:
    """Tide lines with a cross in each corner; the same lines each time."""
    chance = random.Random(1903)  # noqa: S311  # fixed, so that all layers show one chart
    for n in range(11):
        phase, height = chance.uniform(0, math.tau), chance.uniform(26, 60)
        points = [
            (x, 150 + n * 58 + height * math.sin(x / 190 + phase) + 18 * math.sin(x / 61 + phase * 2))
            for x in range(150, 1051, 6)
        ]
        draw.line(points, fill=colour, width=4 + (n % 3) * 3, joint="curve")
    for corner in ((80, 80), (1120, 80), (80, 820), (1120, 820)):
        cross(draw, corner, 34, colour)


def tide_chart(colour: tuple[int, int, int], name: str) -> None:
    """A layer of tide lines, in one colour."""
    picture = Image.new("RGB", (1200, 900), PAPER)
    tide_lines(ImageDraw.Draw(picture), colour)
    save(picture, name)


def chart_and_net() -> None:
    """The finished print of two layers: the brown chart, and a blue net that sags over its right half."""
    picture = Image.new("RGB", (1200, 900), PAPER)
    draw = ImageDraw.Draw(picture)
    tide_lines(draw, BROWN)
    for n in range(13):
        across = [(560 + n * 40 + 26 * math.sin(y / 120 + n / 3), float(y)) for y in range(130, 781, 10)]
        draw.line(across, fill=BLUE, width=7, joint="curve")
    for n in range(14):
        down = [(float(x), 150 + n * 44 + 40 * math.sin((x - 550) / 500 * math.pi)) for x in range(556, 1061, 8)]
        draw.line(down, fill=BLUE, width=7, joint="curve")
    save(picture, "chart-and-net.png")


def corner_fit() -> None:
    """Corner crosses of two layers: on each other, and two millimetres apart."""
    picture = Image.new("RGB", (1300, 660), "white")
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size=46)
    for left, apart, words in ((60, 0, "fits"), (690, 40, "does not fit")):
        draw.rectangle([left, 50, left + 550, 520], fill=PAPER, outline=INK, width=4)
        cross(draw, (left + 275, 285), 150, BROWN)
        cross(draw, (left + 275 + apart, 285 + apart / 2), 120, INK)
        draw.text((left, 555), words, font=font, fill=INK)
    save(picture, "corner-fit.png")


def shrink_marks() -> None:
    """The back of a sheet with the bars that are measured before and after the soak, and its T."""
    picture = Image.new("RGB", (1000, 1240), "white")
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size=46)
    draw.rectangle([110, 110, 890, 1130], fill=PAPER, outline=INK, width=4)
    for start, end in (((190, 200), (810, 200)), ((190, 290), (190, 1040))):
        draw.line([start, end], fill=INK, width=4)
        for x, y in (start, end):
            level = start[1] == end[1]
            draw.line([(x, y - 24), (x, y + 24)] if level else [(x - 24, y), (x + 24, y)], fill=INK, width=6)
    draw.text((500, 235), "across", font=font, fill=INK, anchor="mt")
    draw.text((235, 665), "along", font=font, fill=INK, anchor="lm")
    draw.line([(700, 1000), (800, 1000)], fill=INK, width=8)
    draw.line([(750, 1000), (750, 1070)], fill=INK, width=8)
    save(picture, "shrink-marks.png")


def mixed(first: tuple[int, int, int], last: tuple[int, int, int], share: float) -> tuple[int, int, int]:
    """A colour between two."""
    red, green, blue = (round(a + (b - a) * share) for a, b in zip(first, last, strict=True))
    return red, green, blue


def two_wedges() -> None:
    """Two step wedges in blue; the lights of the lower one are tinted."""
    picture = Image.new("RGB", (1300, 620), "white")
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size=46)
    for top, words, lightest in ((60, "50 g", 1.0), (340, "60 g", 0.86)):
        draw.text((60, top + 100), words, font=font, fill=INK, anchor="lm")
        for step in range(9):
            left = 230 + step * 112
            colour = mixed(BLUE, PAPER, min(step / 8, lightest))
            draw.rectangle([left, top, left + 111, top + 200], fill=colour, outline=INK, width=2)
    save(picture, "wedge-more-iron.png")


def bleach_strips() -> None:
    """Four strips of one print, toned after longer and longer bleaching."""
    picture = Image.new("RGB", (1300, 860), "white")
    draw = ImageDraw.Draw(picture)
    font = ImageFont.load_default(size=46)
    tones = (((34, 44, 74), 10), ((74, 70, 74), 20), ((104, 76, 56), 30), ((128, 92, 62), 45))
    for n, (tone, seconds) in enumerate(tones):
        left = 70 + n * 300
        for band in range(6):
            lights = min(1.0, band / 5 + (0.1 if seconds > 40 and band > 2 else 0))  # the last strip
            draw.rectangle([left, 60 + band * 110, left + 260, 170 + band * 110], fill=mixed(tone, PAPER, lights))
        draw.rectangle([left, 60, left + 260, 720], outline=INK, width=4)
        draw.text((left + 130, 750), f"{seconds} s", font=font, fill=INK, anchor="mt")
    save(picture, "strip-longer-bleach.png")


def main() -> None:
    """Draw every picture."""
    grass_print()
    brush_strokes()
    contact_stack()
    tide_chart(PALE_BLUE, "layer-blue.png")
    tide_chart(BROWN, "layer-brown.png")
    chart_and_net()
    corner_fit()
    shrink_marks()
    two_wedges()
    bleach_strips()


if __name__ == "__main__":
    main()
