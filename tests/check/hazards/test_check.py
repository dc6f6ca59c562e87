"""Hazard blocks against what the ingredients' cards ask for. Classes are those of the built-in cards."""

from dataclasses import replace

import pytest

from sitegen.check.hazards import check_hazards
from sitegen.check.hazards.asks import BLOCK
from sitegen.model.recipe import Hazards
from sitegen.problems import Problem, Problems
from sitegen.read import compose
from sitegen.read.nodes import to_data
from tests.check.bench import built, hazards, words

RECIPE = """\
title: A bath
code: IB-07
summary: One bath.
process: iron-blue
revision: 1
revised: 2026-03-02
credits: own
mixtures:
  bath:
    name: Bath
    contains:
      {contains}
      water: to make 1 l
hazards:
{block}
"""
FULL = {
    "wear": "Gloves.",
    "air": "Still air.",
    "never": "Never with acid.",
    "first aid": "Rinse.",
    "disposal": "Collect it.",
}


def bath(contains: str, *leave_out: str, note: str = "") -> str:
    """A recipe with these ingredients, whose block has every field but those."""
    block = {field: text for field, text in FULL.items() if field not in leave_out}
    block |= {"note": note} if note else {}
    return RECIPE.format(contains=contains, block="\n".join(f"  {f}: {text}" for f, text in block.items()) or "  {}")


def missing(contains: str) -> set[str]:
    """The fields that an empty block lacks for these ingredients."""
    found = (p for p in hazards(bath(contains, *FULL)) if p.code == "hazards-uncovered")
    return {p.message.split("`")[1] for p in found}


@pytest.mark.parametrize(
    ("contains", "fields"),
    [
        pytest.param("potassium-ferrocyanide: 5 g", {"never", "disposal"}, id="cyanometallate"),
        pytest.param("sodium-hydroxide: 5 g", {"wear", "air", "first aid", "never"}, id="burns"),
        pytest.param("sodium-carbonate-anhydrous: 5 g", {"wear", "air", "first aid", "never"}, id="irritates-lungs"),
        pytest.param("copper-sulfate-pentahydrate: 5 g", set(FULL), id="metal"),
        pytest.param("silver-nitrate: 5 g", set(FULL), id="silver"),
        pytest.param("ammonia-25-percent: 5 ml", set(FULL), id="breathed"),
        pytest.param("quartz-silica: 5 g", set(FULL) - {"never"}, id="dust"),
        pytest.param("oak-bark: 5 g", set(), id="plant"),
        pytest.param("starch: 5 g", {"never"}, id="dust-that-burns"),
        pytest.param("sodium-chloride: 5 g", set(), id="salt"),
    ],
)
def test_each_class_and_group_asks_for_its_fields(contains: str, fields: set[str]) -> None:
    assert missing(contains) == fields


@pytest.mark.parametrize("field", BLOCK)
def test_one_error_a_missing_field_at_the_block(field: str) -> None:
    text = bath("silver-nitrate: 5 g", field)
    (found,) = hazards(text)
    assert (found.code, found.level) == ("hazards-uncovered", "error")
    assert found.message.startswith(f"`{field}` is missing, and silver nitrate (")
    assert words(found, text) == "hazards"
    assert found.notes == ("the supplier's safety data sheet comes first",)


def test_the_message_names_ingredients_and_classes() -> None:
    (found,) = hazards(bath("silver-nitrate: 5 g\n      citric-acid-anhydrous: 5 g", "wear"))
    assert found.message == (
        "`wear` is missing, and silver nitrate (Skin Corr. 1B, Acute Tox. 4 (oral)) and "
        "citric acid, anhydrous (Eye Irrit. 2, Skin Irrit. 2) ask for it"
    )


def test_many_ingredients_go_to_the_notes() -> None:
    many = ("silver-nitrate", "copper-sulfate-pentahydrate", "sodium-hydroxide", "citric-acid-anhydrous")
    (found,) = hazards(bath("\n      ".join(f"{one}: 5 g" for one in many), "wear"))
    assert found.message.endswith(" and 1 more ask for it")
    assert found.notes[0] == "citric acid, anhydrous (Eye Irrit. 2, Skin Irrit. 2)"


def test_the_help_can_be_pasted_and_then_suffices() -> None:
    contains = "silver-nitrate: 5 g\n      ammonia-25-percent: 5 ml\n      starch: 5 g"
    text = bath(contains, *FULL).replace("  {}\n", "")
    lines = [line for p in hazards(bath(contains, *FULL)) for line in p.help.split("\n")[1:]]
    assert hazards(text + "\n".join(lines) + "\n") == ()


def test_the_help_for_first_aid_defers_to_sheet_and_poison_centre() -> None:
    (found,) = hazards(bath("sodium-hydroxide: 5 g", "first aid"))
    assert found.help == (
        "word it for this recipe, for example:\n"
        "  first aid:\n"
        "    - Eyes. Rinse with running water for at least fifteen minutes, lenses out. Get medical help.\n"
        "    - Skin. Take off splashed clothing and rinse with plenty of water.\n"
        "    - Swallowed or breathed in. Fresh air, no forced vomiting, and a call to the poison centre.\n"
        "    - The safety data sheet says more. Have it at hand when you call the poison centre or a doctor."
    )


def test_the_help_for_never_says_what_the_cards_say() -> None:
    (found,) = hazards(bath("silver-nitrate: 5 g\n      starch: 5 g", "never"))
    assert found.help.split("\n")[2:] == [
        "    - Silver nitrate. Keep it from ammonia kept or dried (explosive silver).",
        "    - Silver nitrate. Keep it from sulfur, sugar, charcoal (fire).",
        "    - Starch. Never dust near a flame or spark.",
    ]


def test_mixtures_of_other_recipes_count() -> None:
    stock = bath("silver-nitrate: 5 g")
    user = bath("other/bath: 5 ml", "wear").replace("IB-07", "IB-08")
    (found,) = hazards(user, stock)
    assert found.at.file == "recipes/blue.yaml"
    assert "silver nitrate" in found.message


def test_a_text_of_blanks_is_missing() -> None:
    archive, _ = built(bath("sodium-hydroxide: 5 g"))
    (one,) = archive.recipes
    blank = replace(one.hazards, wear=("  ", ""))
    problems = Problems()
    check_hazards(replace(archive, recipes=(replace(one, hazards=blank),)), problems)
    assert [p.message.split("`")[1] for p in problems.found] == ["wear"]


def no_data(*leave_out: str, note: str = "") -> list[Problem]:
    return [
        p for p in hazards(bath("oak-bark: 5 g\n      tea: 5 g", *leave_out, note=note)) if p.code == "hazards-no-data"
    ]


def test_missing_data_is_said_once_a_recipe() -> None:
    (found,) = no_data("wear")
    assert found.level == "warning"
    assert found.message == "there is not enough data on oak bark and black tea to tell what they do"
    assert found.notes == ("not enough data is not the same as harmless",)
    assert (
        found.help.split("\n")[1]
        == "  note: There is not enough data on oak bark and black tea. Treat them as harmful."
    )


@pytest.mark.parametrize(
    "note",
    [
        "There is not enough data on these plants.",
        "Bark and leaves have not been tested.",
        "Oak bark, black tea: see the card.",
    ],
)
def test_a_note_that_admits_it_is_enough(note: str) -> None:
    assert no_data("wear", note=f"'{note}'") == []


@pytest.mark.parametrize("note", ["Oak bark stains.", "Oak bark and the rest are not classified."])
def test_a_note_on_something_else_is_not_enough(note: str) -> None:
    assert len(no_data("disposal", note=note)) == 1


def test_a_full_block_is_enough() -> None:
    assert no_data() == []


def test_an_empty_block_of_water_is_sound() -> None:
    archive, _ = built(bath("sodium-chloride: 5 g"))
    (one,) = archive.recipes
    problems = Problems()
    check_hazards(replace(archive, recipes=(replace(one, hazards=Hazards(at=one.at)),)), problems)
    assert problems.found == []


def test_the_lines_to_paste_are_texts_for_the_reader() -> None:
    for problem in hazards(bath("silver-nitrate: 5 g\n      turpentine: 5 ml", *FULL)):
        problems = Problems()
        tree = compose("hazards:\n" + "\n".join(problem.help.split("\n")[1:]), "x.yaml", problems)
        assert problems.found == []
        assert tree is not None
        block = to_data(tree)
        assert isinstance(block, dict)
        assert all(isinstance(v, str | list) for v in block["hazards"].values())  # type: ignore[union-attr]
