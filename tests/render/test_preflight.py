"""Pre-flight: what is written down is said plainly, what is not is asked, and the size follows the shrink."""

from datetime import date
from fractions import Fraction
from xml.etree import ElementTree

import pytest

from sitegen.model.layers import Facing, Layer, Negative, Shrink, parse_size
from sitegen.model.recipe import Hazards, Recipe
from sitegen.problems import Span
from sitegen.render.diagram import lying, stack
from sitegen.render.preflight import Preflight, preflights

DOWN, UP = Facing(written="ink down", down=True), Facing(written="ink up", down=False)


def film(**fields: object) -> Negative:
    told = {
        "label": "W", "polarity": "negative", "faces": DOWN, "top_edge": "notched", "mirrored": True,
        "size": parse_size("180 x 240 mm"), "marks": ("A cross in each corner",),
    }  # fmt: skip
    return Negative(**{**told, **fields})  # type: ignore[arg-type]


def recipe_of(layers: tuple[Layer, ...]) -> Recipe:
    here = Span(file="recipes/chart.yaml")
    return Recipe(
        slug="chart", title="Chart", code="CH-01", summary="", process="blue", edition="public", revision=1,
        revised=date(2026, 1, 2), mixtures=(), hazards=Hazards(at=here), layers=layers, at=here,
    )  # fmt: skip


def cards(*layers: Layer) -> tuple[Preflight, ...]:
    return preflights(recipe_of(layers))


def said(*layers: Layer) -> str:
    return "\n".join(cards(*layers)[-1].checks)


def test_everything_that_is_told_is_ticked_before_the_exposure() -> None:
    text = said(Layer(name="warm", coat="blue/working", negative=film()))
    for words in (
        "The new coating is dry",
        "This is film W, a negative.",
        "The side with the ink lies down, on the coating.",
        "printed mirrored: as it lies, writing reads the right way round, and so will the print",
        "The film’s top edge (notched) lies at the top edge of the sheet.",
        "a cross in each corner",
        "180 × 240 mm",
        "The date on the film’s rim",
    ):
        assert words in text, words


@pytest.mark.parametrize(
    ("missing", "asked"),
    [
        ({"polarity": None}, "Negative or positive?"),
        ({"faces": None}, "Which side lies on the coating?"),
        ({"mirrored": None}, "Was the picture mirrored"),
        ({"top_edge": ""}, "Which edge is the top?"),
        ({"marks": ()}, "no registration marks"),
        ({"label": ""}, "it has no label"),
    ],
)
def test_what_is_not_told_is_asked(missing: dict[str, object], asked: str) -> None:
    assert asked in said(Layer(name="warm", negative=film(**missing)))


def test_a_film_that_lies_on_its_back_reads_backwards() -> None:
    assert "reads backwards, and so will the print" in said(Layer(name="warm", negative=film(faces=UP)))
    assert "up, towards the light" in said(Layer(name="warm", negative=film(faces=UP)))


def test_the_second_film_is_printed_to_the_shrunk_size() -> None:
    shrink = Shrink(across=Fraction(33, 10_000), along=Fraction(2, 1000))  # B111, B115
    first, second = Layer(name="warm", negative=film()), Layer(name="blue", negative=film(label="B"), shrink=shrink)
    text = said(first, second)
    assert "fits this sheet, measured now: 179.4 × 239.5 mm where the paper lost 0.33 % across and 0.2 % along" in text
    assert "The layer “warm” is dry through" in text
    assert cards(first, second)[1].size == "180 x 240 mm, printed at 179.4 × 239.5 mm"
    assert "all were printed on one day" not in text


def test_without_a_measured_shrink_the_second_exposure_asks_for_it() -> None:
    text = said(Layer(name="warm", negative=film()), Layer(name="blue", negative=film(label="B")))
    assert "has the paper shrunk since the first layer?" in text
    assert "all were printed on one day" in text


def test_a_layer_without_a_film_has_no_drawing_and_no_question_about_one() -> None:
    [card] = cards(Layer(name="sun print"))
    assert (card.drawings, card.checks) == ((), ())


@pytest.mark.parametrize(
    ("faces", "order"),
    [(DOWN, "film base, then ink, then coating, then paper"), (UP, "ink, then film base, then coating, then paper")],
)
def test_the_section_shows_the_ink_where_it_lies(faces: Facing, order: str) -> None:
    drawing = stack(faces)
    assert drawing.alt == f"From the light down: {order}."
    tree = ElementTree.fromstring(drawing.svg)  # noqa: S314  # ours
    named = {t.text: float(str(t.get("y"))) for t in tree.iter("{http://www.w3.org/2000/svg}text")}
    assert sorted(named, key=lambda name: named[name]) == ["light", *order.split(", then ")]


def test_the_view_from_the_light_turns_the_letter_only_when_it_reads_backwards() -> None:
    assert "scale(-1 1)" not in lying(film()).svg
    assert "scale(-1 1)" in lying(film(mirrored=False)).svg
    assert "writing reads backwards" in lying(film(mirrored=False)).alt


def test_what_an_author_types_stays_text_in_a_drawing() -> None:
    drawing = lying(film(label='<b>"x"', top_edge="<script>"))
    tree = ElementTree.fromstring(drawing.svg)  # noqa: S314  # ours
    assert tree.get("aria-label") == drawing.alt
    assert "<script>" in drawing.alt
    assert "<script" not in drawing.svg


def test_no_drawing_holds_a_style_that_the_policy_forbids() -> None:
    for drawing in (stack(DOWN), lying(film())):
        assert "style=" not in drawing.svg
