"""Recipes as schema.org HowTo: every property and value is one that the vocabulary has."""

import json
import re
from collections.abc import Iterator, Mapping
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from bs4 import BeautifulSoup
from hypothesis import given
from hypothesis import strategies as st

from sitegen.model.quantity import Quantity, parse_quantity
from sitegen.render.howto import duration

Json = dict[str, Any]
VOCABULARY = json.loads((Path(__file__).parents[1] / "web" / "schema-org.json").read_text(encoding="utf-8"))
# ISO 8601, 5.5.2.2: at least one part, and none but seconds with a decimal sign.
DURATION = re.compile(r"P(?=\d|T\d)(\d+Y)?(\d+M)?(\d+D)?(T(?=\d)(\d+H)?(\d+M)?(\d+(\.\d+)?S)?)?")


def kinds(value: object) -> set[str]:
    """The types of the vocabulary that a value may pass for."""
    if isinstance(value, dict):
        kind = value["@type"]
        return {kind, *VOCABULARY["is a"][kind]}
    if isinstance(value, bool):
        return {"Boolean"}
    if isinstance(value, int | float):
        return {"Number"}
    assert isinstance(value, str)
    found = {"Text"}
    found |= {"URL"} if re.fullmatch(r"https?://\S+", value) else set()
    found |= {"Date"} if re.fullmatch(r"\d{4}-\d\d-\d\d", value) else set()
    return found | ({"Duration"} if DURATION.fullmatch(value) else set())


def faults(node: Json) -> Iterator[str]:
    """Properties that a type has not, and values of no expected type, all the way down."""
    known = VOCABULARY["properties"][node["@type"]]
    for name, values in node.items():
        if name.startswith("@"):
            continue
        if name not in known:
            yield f"{node['@type']} has no {name}"
            continue
        for value in values if isinstance(values, list) else [values]:
            if not kinds(value) & set(known[name]):
                yield f"{node['@type']}.{name} is {value!r}"
            if isinstance(value, dict):
                yield from faults(value)


def how_to(page: bytes | BeautifulSoup) -> Json:
    soup = page if isinstance(page, BeautifulSoup) else BeautifulSoup(page, "html.parser")
    block = soup.select_one('script[type="application/ld+json"]')
    assert block
    assert block.string
    found: Json = json.loads(block.string)
    return found


def test_every_recipe_keeps_to_the_vocabulary(supporters: Mapping[str, bytes]) -> None:
    pages = [page for path, page in supporters.items() if re.fullmatch(r"recipes/[^/]+/index\.html", path)]
    assert len(pages) == 3
    for page in pages:
        found = how_to(page)
        assert (found["@context"], found["@type"]) == ("https://schema.org", "HowTo")
        assert list(faults(found)) == []


def test_the_check_itself_finds_faults() -> None:
    wrong = {"@type": "HowTo", "totalTime": "two hours", "colour": "blue", "tool": [{"@type": "HowToTip", "text": "x"}]}
    assert len(list(faults(wrong))) == 3


def test_supplies_tools_steps_and_times_are_the_recipes_own(blue: BeautifulSoup) -> None:
    found = how_to(blue)
    assert found["totalTime"] == "PT1H47M"
    assert found["image"]["contentUrl"] == "https://mill.example/images/grass.png"
    assert found["tool"][0]["name"] == "A brush"
    supply = next(s for s in found["supply"] if s["name"] == "ferric ammonium citrate, green")
    assert supply["requiredQuantity"] == {"@type": "QuantitativeValue", "value": 40.5, "unitText": "g"}
    ranged = next(s for s in found["supply"] if s["name"].startswith("potassium ferricyanide"))["requiredQuantity"]
    assert (ranged["minValue"], ranged["maxValue"]) == (16, 20)
    assert next(s for s in found["supply"] if s["requiredQuantity"] == "as needed")
    titles = [section["name"] for section in found["step"]]
    assert titles == ["Before you begin", "Coat", "Wash"]


def test_hazards_come_before_the_first_step(blue: BeautifulSoup) -> None:
    first = how_to(blue)["step"][0]["itemListElement"][0]["itemListElement"]
    assert "safety data sheets" in first[0]["text"]
    assert any(tip["text"].startswith("Never: ") for tip in first)


def test_a_step_says_its_amounts_its_time_and_its_caution(blue: BeautifulSoup) -> None:
    coat = how_to(blue)["step"][1]["itemListElement"]
    direction, *tips = coat[0]["itemListElement"]
    assert "about so much (" in direction["text"]
    assert direction["performTime"] == "PT2M"
    assert [tip["text"] for tip in tips] == ["No puddles.", "Look for: An even yellow."]
    assert coat[-1]["itemListElement"][0] == {"@type": "HowToDirection", "text": "Wait.", "performTime": "PT45M"}


def test_no_text_of_an_author_can_end_the_block(blue: BeautifulSoup) -> None:
    assert how_to(blue)["name"] == 'Blue print <script>alert("t")</script>'


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("45 min", "PT45M"),
        ("90 min", "PT1H30M"),
        ("30 s", "PT30S"),
        ("2-3 min", "PT3M"),
        ("1.5 h", "PT1H30M"),
        ("36 h", "P1DT12H"),
        ("2 days", "P2D"),
        ("1 weeks", "P7D"),
        ("3 months", "P3M"),
        ("2 years", "P2Y"),
        ("1/8 s", "PT0.1S"),
    ],
)
def test_times_are_iso_8601_durations_and_ranges_their_upper_end(written: str, said: str) -> None:
    assert duration(parse_quantity(written)) == said


@given(st.fractions(min_value=0, max_value=100_000), st.sampled_from(["s", "min", "h", "days", "weeks", "months"]))
def test_any_time_is_a_well_formed_duration(high: Fraction, unit: str) -> None:
    assert DURATION.fullmatch(duration(Quantity(low=Fraction(0), high=high, unit=unit)))
