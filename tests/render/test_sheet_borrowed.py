"""A printed sheet alone is enough at the tray: what its layers and steps work with stands on it, of every recipe."""

from sitegen.read.theme import read_theme
from sitegen.render.booklet import booklet_pdf
from sitegen.render.booklet_data import booklet_data
from sitegen.render.mixture import needed
from sitegen.render.sheet import sheet_pdf
from sitegen.render.sheet_data import sheet_data
from tests.render.printed import plain, text_of
from tests.render.test_sheet import BLUE, STOCKS, archive

THEME = read_theme()
SOAKED = BLUE.replace("stocks/citric: 1 part, ", "").replace(
    "    expose: {to: UV lamp", "    bleach: {in: stocks/citric, for: 1 min}\n    expose: {to: UV lamp"
)


def test_what_a_layer_works_with_stands_on_the_sheet_though_nothing_is_mixed_from_it() -> None:
    computed = archive(SOAKED)
    data = sheet_data(computed, computed.archive.recipe_named["blue"])
    assert ("Citric stock", "ST-01 Shelf bottles") in [(b.name, b.of) for b in data.batches]


def test_the_words_of_a_borrowed_mixture_say_its_own_amounts() -> None:
    told = STOCKS.replace(
        "water: to make 100 ml}", "water: to make 100 ml}\n    mixing: ['Stir in [it](amount:citric-acid).']"
    )
    computed = archive(SOAKED, told)
    data = sheet_data(computed, computed.archive.recipe_named["blue"])
    assert plain("Stir in it (20 g).") in text_of(sheet_pdf(data, "a4", THEME.print))


def test_every_mixture_of_the_page_is_on_the_sheet_before_what_is_mixed_from_it() -> None:
    computed = archive()
    data = sheet_data(computed, computed.archive.recipe_named["blue"])
    names = [computed.archive.mixtures[id_].name for id_ in needed(computed.targets["blue"])]
    assert [b.name for b in data.batches] == names
    assert names.index("Citric stock") < names.index("First bath")


def test_a_usual_caution_of_its_mixing_words_is_said_once() -> None:
    """The stock is boiled in its own recipe: heat is no class of an ingredient, so nothing else would say it."""
    boiled = STOCKS.replace("water: to make 100 ml}", "water: to make 100 ml}\n    mixing: [Boil the water.]")
    computed = archive(SOAKED, boiled)
    cautions = sheet_data(computed, computed.archive.recipe_named["blue"]).cautions
    assert [(one.of, [label for label, _ in one.lines]) for one in cautions[1:]] == [("ST-01 Shelf bottles", ["Usual"])]
    told = [text for one in cautions for _, texts in one.lines for text in texts]
    assert [text.partition(".")[0] for text in cautions[1].lines[0][1]] == ["Hot liquids scald"]
    assert len(told) == len(set(told))


def test_a_booklet_sets_them_whole_in_the_order_of_mixing() -> None:
    computed = archive()
    data = booklet_data(computed, computed.archive.recipe_named["blue"], "public", {})
    text = text_of(booklet_pdf(data, "a4", THEME.print, {}))
    citric, bath = (text.index(plain(words)) for words in ("Citric stock, makes 100 ml", "First bath, makes about"))
    assert text[citric:bath].startswith(plain("Citric stock, makes 100 ml from ST-01 Shelf bottles Done Amount"))
    assert plain("From other recipes") not in text
