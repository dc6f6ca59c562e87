"""Pictograms: nine drawings from one source, each with its text alternative, inside the frame."""

import re
from xml.etree import ElementTree as ET

import pytest

from sitegen.labels.pictograms import Drawing, read_pictograms
from sitegen.problems import Problems
from tests.labels.mixtures import text_of


def drawings() -> dict[str, Drawing]:
    problems = Problems()
    found = read_pictograms(text_of("pictograms.yaml"), "pictograms.yaml", problems)
    assert found, problems.in_order()
    return found


def test_all_nine_are_drawn() -> None:
    assert sorted(drawings()) == [f"GHS0{n}" for n in range(1, 10)]


@pytest.mark.parametrize("code", sorted(drawings()))
def test_a_drawing_is_valid_svg_with_a_text_alternative(code: str) -> None:
    drawing = drawings()[code]
    root = ET.fromstring(drawing.svg())  # noqa: S314  # our own text
    assert root.get("role") == "img"
    assert root.get("aria-label") == drawing.alt
    assert root.find("{http://www.w3.org/2000/svg}title").text == drawing.alt  # type: ignore[union-attr]
    assert drawing.name in drawing.alt or drawing.name in (
        "corrosion",
        "health hazard",
        "environment",
        "flame over circle",
    )
    assert set(re.findall(r'(?:fill|stroke)="(#?\w+)"', drawing.svg())) <= {"#d5001c", "#fff", "#000", "none"}


def test_every_text_alternative_is_its_own() -> None:
    assert len({d.alt for d in drawings().values()}) == 9


def test_a_missing_drawing_is_a_problem() -> None:
    problems = Problems()
    text = text_of("pictograms.yaml").replace("GHS09:", "GHS10:")
    assert read_pictograms(text, "pictograms.yaml", problems) is None
    assert [p.code for p in problems.found] == ["pictogram-missing"]
