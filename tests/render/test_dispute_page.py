"""Disputes on the pages: every claim with its source, the studio's own result or that there is none."""

from collections.abc import Mapping
from dataclasses import replace

from bs4 import BeautifulSoup

from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.dispute_page import dispute_page
from sitegen.render.frame import frame
from sitegen.render.links import DISPUTES
from sitegen.render.search_index import shelf
from sitegen.render.sheet_data import sheet_data
from sitegen.search.query import parse_query
from sitegen.search.rank import Finder
from tests.render.conftest import of_edition
from tests.render.test_recipe_page import one, words

Soups = Mapping[str, BeautifulSoup]


def test_both_claims_stand_with_their_sources_and_the_result(blue: BeautifulSoup) -> None:
    section = one(blue, "#dispute-whether-the-bath-keeps")
    assert [words(claim) for claim in section.select(".claim")] == [
        "It keeps. Source: A book",
        "It spoils overnight. Source: A printer",
    ]
    assert words(one(section, ".claim-here")) == "Here: Ours spoiled in two <i>nights</i>."
    assert blue.select('.jumps a[href="#disputes"]')
    assert blue.select('a[href="../../disputes/index.html"]')


def test_where_nothing_was_tried_the_page_says_so(blue: BeautifulSoup) -> None:
    section = one(blue, "#dispute-how-long-a-coat-rests")
    assert words(one(section, ".claim-here")) == "Not tried here. None of these claims is ours."
    assert one(section, "a")["href"] == "https://example.org/rest"


def test_a_recipe_without_disputes_has_no_section(soups: Soups) -> None:
    assert not soups["recipes/stocks/index.html"].select("#disputes")


def test_the_register_holds_each_once_and_leads_to_its_recipes(soups: Soups) -> None:
    page = soups[DISPUTES]
    assert [words(heading) for heading in page.select(".dispute > h2")] == [
        "How long a coat rests",
        "Whether the bath keeps",
    ]
    shared = one(page, "#how-long-a-coat-rests")
    assert [link["href"] for link in shared.select("p.quiet a")][:2] == [
        "../recipes/blue/index.html#dispute-how-long-a-coat-rests",
        "../recipes/kept/index.html#dispute-how-long-a-coat-rests",
    ]
    assert words(one(soups["search/index.html"], 'a[href="../disputes/index.html"]')) == "Where sources disagree"


def test_an_archive_without_disputes_has_no_register(archive: Archive, theme: Theme) -> None:
    quiet = replace(archive, recipes=tuple(replace(r, disputes=()) for r in archive.recipes))
    assert list(dispute_page(frame(compute(quiet, Problems()), theme, "public"))) == []


def test_the_sheet_names_what_is_disputed(archive: Archive) -> None:
    computed = of_edition(archive, "public")
    said = sheet_data(computed, computed.archive.recipe_named["blue"]).disputes
    assert said == ("Whether the bath keeps", "How long a coat rests")


def test_words_of_a_claim_find_the_recipe(archive: Archive) -> None:
    finder = Finder(shelf(of_edition(archive, "public")).__getitem__)
    found = [finder.document(n)[2] for n, _ in finder.rank(parse_query("overnight spoils")).order]
    assert found[:1] == ["IB-01"]
