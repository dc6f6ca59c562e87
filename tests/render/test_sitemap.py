"""What robots are told: sitemaps.org version 0.9 and RFC 9309."""

import re
from collections.abc import Mapping
from dataclasses import replace
from urllib.robotparser import RobotFileParser
from xml.etree import ElementTree

from bs4 import BeautifulSoup

from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.frame import frame
from sitegen.render.sitemap import ROBOTS, SITEMAP, sitemap

Pages = Mapping[str, bytes]
NAMESPACE = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
ROOT = "https://mill.example/"


def parsed(content: bytes) -> ElementTree.Element:
    return ElementTree.fromstring(content)  # noqa: S314  # our own bytes


def addresses(content: bytes) -> dict[str, str]:
    """By address: the day it changed, or ''."""
    urls = parsed(content).findall(f"{NAMESPACE}url")
    return {str(url.findtext(f"{NAMESPACE}loc")): url.findtext(f"{NAMESPACE}lastmod") or "" for url in urls}


def test_every_address_is_a_page_and_its_canonical_one(public: Pages) -> None:
    found = addresses(public[SITEMAP])
    for address in found:
        page = BeautifulSoup(public[address.removeprefix(ROOT)], "html.parser")
        link = page.select_one('link[rel="canonical"]')
        assert link
        assert link["href"] == address


def test_every_page_that_is_read_is_there(public: Pages) -> None:
    wanted = {ROOT + path for path, content in public.items() if path.endswith(".html") and b"canonical" in content}
    assert wanted == set(addresses(public[SITEMAP]))
    assert {f"{ROOT}{name}/index.html" for name in ("recipes", "keywords", "revised", "cupboard", "search")} <= wanted


def test_every_recipe_is_there_with_its_day(public: Pages) -> None:
    found = addresses(public[SITEMAP])
    assert found[f"{ROOT}recipes/blue/index.html"] == "2026-03-02"
    assert f"{ROOT}recipes/blue/troubles.html" in found
    assert found[f"{ROOT}index.html"] == "2026-03-02"


def test_only_what_the_schema_allows_stands_there(public: Pages) -> None:
    root = parsed(public[SITEMAP])
    assert root.tag == f"{NAMESPACE}urlset"
    for url in root:
        # the schema's sequence: loc, lastmod, changefreq, priority
        assert [node.tag.removeprefix(NAMESPACE) for node in url] in (["loc"], ["loc", "lastmod"])
        assert len(url[0].text or "") <= 2048
    assert all(re.fullmatch(r"(\d{4}-\d\d-\d\d)?", day) for day in addresses(public[SITEMAP]).values())


def test_nothing_of_a_higher_edition_is_named(public: Pages) -> None:
    assert b"kept" not in public[SITEMAP]
    assert b"planted" not in public[SITEMAP]


def test_robots_may_read_the_widest_edition_and_find_its_sitemap(public: Pages) -> None:
    robots = RobotFileParser()
    robots.parse(public[ROBOTS].decode().splitlines())
    assert robots.can_fetch("any", f"{ROOT}recipes/blue/index.html")
    assert robots.site_maps() == [f"{ROOT}{SITEMAP}"]


def test_robots_are_sent_away_from_any_other_edition(supporters: Pages) -> None:
    robots = RobotFileParser()
    robots.parse(supporters[ROBOTS].decode().splitlines())
    assert not robots.can_fetch("any", f"{ROOT}index.html")
    assert SITEMAP not in supporters
    assert b'<meta name="robots" content="noindex">' in supporters["index.html"]


def test_without_an_address_there_is_nothing_to_say(archive: Archive, theme: Theme) -> None:
    bare = replace(archive, settings=replace(archive.settings, address=""))
    assert list(sitemap(frame(compute(bare.edition("public"), Problems()), theme, "public"), ())) == []
