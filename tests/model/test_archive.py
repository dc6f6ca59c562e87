"""The archive: look-ups, and what an edition holds and leaves out."""

from dataclasses import replace

from sitegen.model.archive import Archive, Measuring, Settings
from tests.compute.shelf import WATER, card, form, mixture, recipe_of

KNOWN = frozenset({"citrate-green", "citrate-brown", "clove", "gold", "water"})
CITRATE = card(form("citrate-green"), form("citrate-brown"), id_="citrate")
CLOVE, GOLD = card(form("clove"), own=True), card(form("gold"), own=True)
OPEN = recipe_of(mixture("m", {"citrate-green": "1 g", "clove": "1 g"}, KNOWN), slug="open")
SEALED = recipe_of(mixture("n", {"gold": "1 g"}, KNOWN), slug="sealed", edition="supporters")
ARCHIVE = Archive(
    settings=Settings(title="test", editions=("public", "supporters")),
    recipes=(OPEN, SEALED),
    substances=(CITRATE, CLOVE, GOLD, card(WATER)),
)


def test_looks_up_mixtures_forms_cards_and_recipes() -> None:
    assert set(ARCHIVE.mixtures) == {"r/m", "r/n"}
    assert ARCHIVE.forms["citrate-brown"].id == "citrate-brown"
    assert ARCHIVE.substance_of["citrate-brown"] is ARCHIVE.substance_of["citrate"] is CITRATE
    assert ARCHIVE.recipe_named["open"] is OPEN


def test_a_lower_edition_holds_nothing_of_a_higher_one() -> None:
    public = ARCHIVE.edition("public")
    assert public.recipes == (OPEN,)
    assert public.substances == (CITRATE, CLOVE, card(WATER))  # the author's gold card names a sealed ingredient
    assert "gold" not in public.forms


def test_the_highest_edition_holds_everything() -> None:
    assert ARCHIVE.edition("supporters") == ARCHIVE


def test_a_card_knows_the_recipes_that_use_one_of_its_forms() -> None:
    assert ARCHIVE.used_in(CITRATE) == (OPEN,)
    assert ARCHIVE.used_in(card(WATER)) == ()


def test_an_author_without_settings_has_a_tenth_of_a_gram_and_three_vessels() -> None:
    assert [str(v.step) for v in Measuring().vessels] == ["1/10", "1", "10"]
    assert (str(Measuring().balance), Measuring().drops_per_ml) == ("1/10", None)


def test_look_ups_follow_the_value_they_belong_to() -> None:
    fewer = replace(ARCHIVE, recipes=(OPEN,))
    assert set(ARCHIVE.mixtures) - set(fewer.mixtures) == {"r/n"}
