"""Derived labels on pages: three answers apart, what is missing in plain sight, the reasoning in a fold."""

from collections.abc import Mapping

import pytest
from bs4 import BeautifulSoup, Tag

from sitegen.labels.archive import labels_of
from sitegen.labels.label import NOT_SAFE, NOTICE
from sitegen.read.theme import read_theme
from sitegen.render.label_view import LabelView, label_view, symbols, unknown_lines
from sitegen.render.site import pages
from tests.labels.shelves import computed

MIXTURES = """
silver: {name: Silver, contains: {silver-nitrate: 10 g, ferric-ammonium-citrate-green: 5 g, water: to make 100 ml}}
green: {name: Green, contains: {ferric-ammonium-citrate-green: 20 g, water: to make 100 ml}}
red: {name: Red, contains: {potassium-ferricyanide: 10 g, water: to make 100 ml}}
gum: {name: Gum, contains: {gum-arabic: 10 g, water: to make 100 ml}}
"""


def view(local: str) -> LabelView:
    return label_view(labels_of(computed(MIXTURES))(f"blue/{local}"))


@pytest.fixture(scope="module")
def found() -> Mapping[str, BeautifulSoup]:
    made = pages(computed(MIXTURES), read_theme(), "public")
    return {p.path: BeautifulSoup(p.content, "html.parser") for p in made if p.path.endswith(".html")}


def section(found: Mapping[str, BeautifulSoup], local: str) -> Tag:
    tag = found["recipes/blue/index.html"].select_one(f"#mix-{local} .derived")
    assert tag
    return tag


def said(tag: Tag) -> str:
    return " ".join(tag.get_text(" ").split())


def test_a_lack_is_told_once_for_an_ingredient() -> None:
    lines = unknown_lines(labels_of(computed(MIXTURES))("blue/green").label.unknown)
    assert lines == ("ferric ammonium citrate: no hazard data",)


def test_families_without_a_sum_are_gathered_by_what_is_missing() -> None:
    (gap,) = view("green").open
    assert gap.lacks == ("ferric ammonium citrate: no hazard data",)
    assert len(gap.names) > 10
    assert not set(gap.names) & set(view("green").quiet)


def test_each_drawing_stands_in_a_page_once() -> None:
    drawn = symbols([view("silver"), view("silver"), view("red")])
    assert [drawn.count(f'id="{code}"') for code in ("GHS05", "GHS09", "GHS07")] == [1, 1, 0]


def test_a_classified_mixture_shows_signal_word_signs_with_words_and_statements(
    found: Mapping[str, BeautifulSoup],
) -> None:
    tag = section(found, "silver")
    assert [svg["aria-label"] for svg in tag.select("svg.ghs[role=img]")] == [s.alt for s in view("silver").signs]
    used = [str(use["href"]) for use in tag.select("use")]
    page = found["recipes/blue/index.html"]
    assert used
    assert all(page.select_one(f"symbol{href}") for href in used)
    assert "Danger" in said(tag)
    assert "Causes severe skin burns and eye damage. H314" in said(tag)


def test_what_is_missing_stands_outside_the_folds(found: Mapping[str, BeautifulSoup]) -> None:
    (gaps,) = section(found, "silver").select(".not-known")
    assert not gaps.find_parent("details")
    assert "ferric ammonium citrate: no hazard data" in said(gaps)
    assert "silver nitrate: no M-factor" in said(gaps)


def test_not_enough_data_never_reads_as_not_classified(found: Mapping[str, BeautifulSoup]) -> None:
    unknown, clean = said(section(found, "green")), said(section(found, "gum"))
    assert "Not enough data to classify what goes in. That is neither safe nor classified." in unknown
    assert "Not classified" not in unknown
    assert NOT_SAFE in said(section(found, "red"))
    assert clean


def test_the_fold_lists_rule_sum_and_threshold(found: Mapping[str, BeautifulSoup]) -> None:
    fold = section(found, "silver").select_one("details.reasoning")
    assert fold
    assert "Σ (percent ÷ limit) for Skin Corr. 1: silver nitrate" in said(fold)
    assert "threshold ≥ 1; Skin Corr. 1 [CLP Annex I" in said(fold)
    assert "How known: percent by weight" in said(fold)


def test_every_derived_label_says_what_it_is(found: Mapping[str, BeautifulSoup]) -> None:
    """Once above the mixtures of a recipe, and with each form of a substance."""
    pages = [page for page in found.values() if page.select(".derived")]
    assert pages
    for page in pages:
        assert NOTICE in said(page)
    assert all(NOTICE in said(tag) for page in found.values() for tag in page.select(".substance .derived"))


def test_a_substance_shows_its_own_label_what_it_must_not_meet_and_what_is_unknown(
    found: Mapping[str, BeautifulSoup],
) -> None:
    page = found["substances/silver-nitrate/index.html"]
    assert "Very toxic to aquatic life with long lasting effects. H410" in said(page)
    assert page.select("#incompatible")
    assert "From memory, not yet checked against a source" in said(page)
    unknown = said(found["substances/ferric-ammonium-citrate/index.html"])
    assert "Nobody has judged its hazards" in unknown
    assert "Not enough data" in unknown
