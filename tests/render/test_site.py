"""A whole edition: what every page keeps to, whatever its author wrote."""

import json
import posixpath
import re
from collections.abc import Mapping
from itertools import pairwise

import pytest
from bs4 import BeautifulSoup

from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.site import pages

Pages = Mapping[str, bytes]
Soups = Mapping[str, BeautifulSoup]
CSP = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; base-uri 'none'; form-action 'none'"
BESIDE = ("sheet-a4.pdf", "sheet-letter.pdf", "booklet-a4.pdf", "booklet-letter.pdf", "labels.pdf")  # set in print
PLANTED = re.compile(rb"planted|KX-99|recipes/kept|processes/kept", re.IGNORECASE)


def test_every_page_of_the_layout_is_there(supporters: Pages) -> None:
    wanted = {
        "index.html", "recipes/blue/index.html", "recipes/blue/troubles.html", "recipes/stocks/index.html",
        "substances/index.html", "substances/sodium-carbonate/index.html", "processes/blue/index.html",
        "troubles/index.html", "bench/index.html", "search/index.js", "assets/tokens.css", "archive.json",
    }  # fmt: skip
    assert wanted <= set(supporters)


def test_pages_come_one_at_a_time(archive: Archive, theme: Theme) -> None:
    stream = pages(compute(archive.edition("public"), Problems()), theme, "public")
    assert next(stream).path == "index.html"


def test_the_same_archive_gives_the_same_bytes(archive: Archive, theme: Theme, public: Pages) -> None:
    again = {p.path: p.content for p in pages(compute(archive.edition("public"), Problems()), theme, "public")}
    assert again == public


def test_relative_links_and_fragments_lead_somewhere(supporters: Pages, soups: Soups) -> None:
    for path, soup in soups.items():
        for node in soup.select("[href], [src]"):
            link = str(node.get("href") or node.get("src"))
            if re.match(r"https?:", link):
                continue
            assert not link.startswith("/"), (path, link)
            file, _, fragment = link.partition("#")
            there = posixpath.normpath(posixpath.join(posixpath.dirname(path), file)) if file else path
            if there.startswith("images/") or there.endswith(BESIDE):
                continue
            assert there in supporters, (path, link)
            if fragment:
                assert soups[there].find(id=fragment), (path, link)


def test_no_page_loads_anything_from_a_network(soups: Soups) -> None:
    for path, soup in soups.items():
        for node in soup.select("[src], link[href]"):
            link = str(node.get("src") or node.get("href"))
            assert node.get("rel") == ["canonical"] or not re.match(r"(https?:)?//|data:", link), (path, link)


def test_links_to_the_web_give_no_handle_back(soups: Soups) -> None:
    for path, soup in soups.items():
        for node in soup.select('a[href^="http"]'):
            assert node.get("rel") == ["noopener"], path
    assert soups["index.html"].select('a[href="https://example.org/handbook"]')


def test_the_policy_stands_on_every_page_and_nothing_breaks_it(soups: Soups) -> None:
    for path, soup in soups.items():
        policy = soup.select_one('meta[http-equiv="Content-Security-Policy"]')
        assert policy, path
        assert policy["content"] == CSP
        for script in soup.select("script:not([src])"):
            assert script["type"] in ("application/json", "application/ld+json"), path
        assert not soup.select("style, [style]"), path
        assert not [n for n in soup.select("*") for name in n.attrs if name.startswith("on")], path


def test_what_an_author_types_stays_text(supporters: Pages, soups: Soups) -> None:
    for path, text in supporters.items():
        if path.endswith((".html", ".js")) and not path.startswith("assets/"):
            assert b"<script>alert" not in text or path == "search/index.js", path
    home = soups["index.html"]
    assert not home.select(".welcome b")
    assert not home.select('a[href^="javascript"]')
    assert home.h1
    assert home.h1.get_text() == 'The mill <script>alert("title")</script>'


def test_headings_go_down_by_one_step_at_a_time(soups: Soups) -> None:
    for path, soup in soups.items():
        levels = [int(h.name[1]) for h in soup.select("h1, h2, h3, h4, h5, h6")]
        assert levels.count(1) == 1, path
        assert levels[0] == 1, path
        for above, below in pairwise(levels):
            assert below <= above + 1, (path, levels)


def test_ids_are_unique_and_what_refers_to_them_finds_them(soups: Soups) -> None:
    for path, soup in soups.items():
        ids = [str(n["id"]) for n in soup.select("[id]")]
        assert len(ids) == len(set(ids)), path
        for name in ("for", "aria-labelledby", "aria-describedby", "list"):
            for node in soup.select(f"[{name}]"):
                words = set(" ".join(node.get_attribute_list(name)).split())
                assert words <= set(ids), (path, name, words)


def test_pictures_have_their_words_and_blanks_their_names(soups: Soups) -> None:
    for path, soup in soups.items():
        for picture in soup.select("img"):
            assert picture["alt"], path
        for field in soup.select("input, select"):
            label = field.get("id") and soup.select_one(f'label[for="{field["id"]}"]')
            named = field.get("aria-label") or field.find_parent("label") or label
            assert named, (path, field)


def test_every_page_leads_to_the_others_and_says_what_comes_first(soups: Soups) -> None:
    for path, soup in soups.items():
        words = [a.get_text(strip=True) for a in soup.select(".top a")]
        assert words[1:] == ["Search", "Bench", "Troubles", "Substances"], path
        foot = soup.select_one(".foot")
        assert foot, path
        assert "safety data sheets, your local rules and licensed practice come first" in foot.get_text()


def test_the_canonical_address_stands_only_under_the_address_of_the_archive(soups: Soups) -> None:
    link = soups["recipes/blue/index.html"].select_one("link[rel=canonical]")
    assert link
    assert link["href"] == "https://mill.example/recipes/blue/index.html"


@pytest.mark.parametrize("word", ["plantedtitle", "plantedsubstance", "plantedmixture"])
def test_the_supporters_edition_holds_what_is_planted(supporters: Pages, word: str) -> None:
    assert any(word.encode() in text.lower() for text in supporters.values())


def test_nothing_of_a_supporters_recipe_is_in_the_public_bytes(public: Pages) -> None:
    for path, text in public.items():
        assert not PLANTED.search(path.encode()), path
        assert not PLANTED.search(text), (path, PLANTED.search(text))


def test_a_link_to_a_recipe_of_another_edition_is_plain_text(public: Pages, supporters: Pages) -> None:
    for path in ("index.html", "recipes/blue/index.html"):
        assert b"later" in public[path]
        assert b"kept" not in public[path]
        assert b"kept/index.html" in supporters[path]


def test_the_list_for_programs_is_json_and_leads_to_pages(public: Pages) -> None:
    listed = json.loads(public["archive.json"])
    assert listed["edition"] == "public"
    assert [r["code"] for r in listed["recipes"]] == ["IB-01", "ST-01"]
    for kind in ("recipes", "substances", "processes"):
        assert all(each["path"] in public for each in listed[kind])
