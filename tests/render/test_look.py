"""The look: style sheets and templates agree, colours can be told apart, nothing depends on a network."""

import re
from itertools import pairwise

import pytest

from sitegen.read.theme import Theme

TOKEN = re.compile(r"(--[a-z-]+)\s*:\s*(#[0-9a-f]{3,6})\b")


def styles(theme: Theme) -> dict[str, str]:
    return {name: raw.decode() for name, raw in theme.assets.items() if name.endswith(".css")}


def without_comments(css: str) -> str:
    return re.sub(r"/\*.*?\*/", "", css, flags=re.S)


def test_every_class_that_is_styled_is_used(theme: Theme) -> None:
    scripts = " ".join(raw.decode() for name, raw in theme.assets.items() if name.endswith(".js"))
    used = " ".join(theme.templates.values()) + scripts + 'class="live"'
    for name, css in styles(theme).items():
        selectors = re.sub(r"\{[^{}]*\}", " ", without_comments(css))
        for styled in set(re.findall(r"\.([a-z][a-z-]*)", selectors)):
            assert re.search(rf"""["'\s]{styled}["'\s]""", used), f"{name}: .{styled} is styled and never used"


def test_every_token_is_used_and_every_use_is_a_token(theme: Theme) -> None:
    whole = without_comments("".join(styles(theme).values()))
    defined = set(re.findall(r"(--[a-z-]+)\s*:", whole))
    assert defined == set(re.findall(r"var\((--[a-z-]+)\)", whole))


def test_every_style_sheet_a_template_names_is_there(theme: Theme) -> None:
    listed = re.search(r"for sheet in \[(.*?)\]", theme.templates["frame.html"])
    assert listed
    named = {f"{name}.css" for name in re.findall(r'"(.*?)"', listed[1])}
    for template in theme.templates.values():
        named |= set(re.findall(r"assets/([\w-]+\.css)", template))
    assert named | {"opening.css"} == set(styles(theme))  # the opening page of a sealed edition carries its own


def test_nothing_is_loaded_by_a_style_sheet(theme: Theme) -> None:
    for name, css in styles(theme).items():
        assert not re.search(r"@import|url\(|@font-face", css), name


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2 definition."""
    digits = colour[1:] if len(colour) == 7 else "".join(2 * d for d in colour[1:])
    parts = [int(digits[i : i + 2], 16) / 255 for i in (0, 2, 4)]
    red, green, blue = (p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def palettes(theme: Theme) -> dict[str, dict[str, str]]:
    tokens = styles(theme)["tokens.css"]
    light, _, dark = tokens.partition("@media")
    return {"light": dict(TOKEN.findall(light)), "dark": dict(TOKEN.findall(dark))}


def test_both_palettes_name_the_same_colours(theme: Theme) -> None:
    found = palettes(theme)
    assert set(found["light"]) == set(found["dark"])


@pytest.mark.parametrize("mode", ["light", "dark"])
@pytest.mark.parametrize(
    ("front", "back", "least"),
    # WCAG 2.2: 4.5 for text (1.4.3), 3 for edges of controls and focus (1.4.11)
    [
        ("--ink", "--ground", 7), ("--ink", "--sunk", 7),
        ("--soft-ink", "--ground", 4.5), ("--soft-ink", "--sunk", 4.5),
        ("--blue", "--ground", 4.5), ("--blue", "--sunk", 4.5), ("--on-blue", "--blue", 4.5),
        ("--on-band", "--band", 7), ("--edge", "--ground", 3), ("--edge", "--sunk", 3),
    ],
)  # fmt: skip
def test_colours_can_be_told_apart(theme: Theme, mode: str, front: str, back: str, least: float) -> None:
    palette = palettes(theme)[mode]
    assert contrast(palette[front], palette[back]) >= least


def test_the_measure_of_contrast_is_right() -> None:
    assert contrast("#000", "#ffffff") == pytest.approx(21)  # WCAG 2.2, black on white


def test_text_is_never_smaller_than_sixteen_pixels(theme: Theme) -> None:
    for name, css in styles(theme).items():
        for block in re.findall(r"font(?:-size)?:\s*([^;}]+)", without_comments(css)):
            for size in re.findall(r"(?<![\w-])(\d*\.?\d+)(rem|px)\b", block):
                assert float(size[0]) >= (1 if size[1] == "rem" else 16), (name, block)


def test_motion_is_asked_for_and_print_has_its_rules(theme: Theme) -> None:
    whole = "".join(styles(theme).values())
    moving = [
        block
        for block in re.split(r"(?=@media)", whole)
        if re.search(r"\b(transition|animation|scroll-behavior)\b", block)
    ]
    assert all("prefers-reduced-motion: no-preference" in block for block in moving)
    assert "size: A4" in whole
    assert re.search(r"tr,[^{]*\{ break-inside: avoid", whole)


def test_the_parts_come_before_what_overrides_them(theme: Theme) -> None:
    order = re.findall(r'"([a-z]+)"', re.search(r"for sheet in \[(.*?)\]", theme.templates["frame.html"])[1])  # type: ignore[index]  # found above
    assert order[0] == "tokens"
    assert order[-1] == "print"
    assert all(first != second for first, second in pairwise(order))
