"""Beside the hazard block: declared processes first, answers with their reasons, and never instead of the author."""

from bs4 import BeautifulSoup

from sitegen.render.warned import sheet_caution, warned
from tests.check.pairs.bench import archive, mix, recipe
from tests.render.conftest import Pages

OXALATE = mix("silver-nitrate + ferric-oxalate-hexahydrate", keeps="2 h")


def test_a_declared_process_opens_the_sheets_hazards_and_the_authors_lines_follow() -> None:
    made = recipe(OXALATE, intends=("silver with ferric oxalate",), never="Never dry it.")
    lines = sheet_caution(made, archive(made)).lines
    assert [label for label, _ in lines[:3]] == ["Use now", "Take care", "Never"]
    assert lines[0][1][0].startswith("Silver with ferric oxalate. Mix it for the session")
    assert any("Silver oxalate explodes" in text for text in lines[1][1])
    assert lines[2][1] == ("Never dry it.",)


def test_an_answered_warning_is_printed_with_its_reason() -> None:
    made = recipe("sodium-carbonate-anhydrous + ascorbic-acid", answers={"X104": "It is an open jug."})
    (answered,) = (lines for name, lines in warned(made, archive(made)).pairs if name == "Answered by the author")
    assert [(line.rule, line.text) for line in answered] == [("X104", "It is an open jug.")]


def test_recipe_and_troubles_show_the_usual_cautions_in_the_band(public: Pages) -> None:
    for path in ("recipes/blue/index.html", "recipes/blue/troubles.html"):
        band = BeautifulSoup(public[path], "html.parser").select_one("#hazards")
        assert band is not None
        assert "Usual cautions, from the work and the kit" in band.get_text()
        assert "no source" in band.get_text()
