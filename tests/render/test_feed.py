"""Feeds: read by a feed reader, and held against the rules of RFC 4287."""

import re
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from xml.etree import ElementTree

import feedparser
import pytest

from sitegen.compute.whole import Computed, compute
from sitegen.model.archive import Archive
from sitegen.model.origin import Change
from sitegen.problems import Problems
from sitegen.read.theme import Theme
from sitegen.render.feed import FEED, NEWEST, feed
from sitegen.render.frame import frame

Pages = Mapping[str, bytes]
ATOM = "{http://www.w3.org/2005/Atom}"
RFC_3339 = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
TAG = re.compile(r"tag:[a-z0-9.-]+,\d{4}(-\d\d(-\d\d)?)?:\S+")  # RFC 4151, section 2.1


def feed_of(archive: Archive, theme: Theme, edition: str = "public") -> list[bytes]:
    computed: Computed = compute(archive.edition(edition), Problems())
    return [page.content for page in feed(frame(computed, theme, edition))]


def rules_broken(content: bytes) -> list[str]:
    """What RFC 4287 asks of a feed document: sections 4.1.1, 4.1.2, 4.2.6, 4.2.7, 3.3, in order."""
    root = ElementTree.fromstring(content)  # noqa: S314  # our own bytes
    broken = [] if root.tag == f"{ATOM}feed" else ["the root is no atom:feed"]
    entries = root.findall(f"{ATOM}entry")
    for node in (root, *entries):
        for name in ("id", "title", "updated"):
            found = node.findall(f"{ATOM}{name}")
            broken += [] if len(found) == 1 and found[0].text else [f"{node.tag}: not one {name}"]
        for name in ("subtitle", "rights", "summary", "published", "generator", "logo", "icon"):
            broken += [f"{name} stands twice"] if len(node.findall(f"{ATOM}{name}")) > 1 else []
        alternates = [
            (link.get("type"), link.get("hreflang"))
            for link in node.findall(f"{ATOM}link")
            if link.get("rel", "alternate") == "alternate"
        ]
        broken += ["two alternates of one kind"] if len(set(alternates)) < len(alternates) else []
        broken += [] if all(link.get("href") for link in node.findall(f"{ATOM}link")) else ["a link without href"]
        broken += (
            ["an entry without content needs an alternate"] if node.tag.endswith("entry") and not alternates else []
        )
    named = root.find(f"{ATOM}author/{ATOM}name")
    broken += [] if named is not None and named.text else ["no author"]
    broken += [] if [link for link in root.findall(f"{ATOM}link") if link.get("rel") == "self"] else ["no self link"]
    moments = [str(node.text) for node in root.iter(f"{ATOM}updated")]
    broken += [moment for moment in moments if not RFC_3339.fullmatch(moment)]
    ids = [str(node.text) for node in root.iter(f"{ATOM}id")]
    broken += [name for name in ids if not TAG.fullmatch(name)] + (["ids repeat"] if len(set(ids)) < len(ids) else [])
    return broken


@pytest.mark.parametrize("edition", ["public", "supporters"])
def test_a_feed_keeps_the_rules_of_the_standard(archive: Archive, theme: Theme, edition: str) -> None:
    assert [rules_broken(content) for content in feed_of(archive, theme, edition)] == [[]]


def test_a_feed_reader_finds_every_entry(public: Pages) -> None:
    read = feedparser.parse(public[FEED])
    assert (read.bozo, read.version) == (False, "atom10")
    assert read.feed.title == 'The mill <script>alert("title")</script> (public)'
    assert read.feed.language == "en"
    assert [entry.link for entry in read.entries] == [
        "https://mill.example/recipes/blue/index.html",
        "https://mill.example/recipes/stocks/index.html",
    ]
    assert [entry.updated for entry in read.entries] == ["2026-03-02T00:00:00Z", "2026-01-02T00:00:00Z"]
    assert read.entries[0].tags[0].label == "Blue prints"
    assert read.feed.updated == read.entries[0].updated


def test_the_public_feed_names_public_recipes_only(public: Pages, supporters: Pages) -> None:
    assert b"planted" not in public[FEED].lower()
    assert b"KX-99" not in public[FEED]
    assert b"KX-99" in supporters[FEED]


def test_ids_stay_when_a_recipe_is_revised_renamed_or_moved(archive: Archive, theme: Theme) -> None:
    later = tuple(
        replace(r, title="New title", slug=f"{r.slug}-2", revision=9, revised=date(2027, 1, 1))
        if r.slug == "blue"
        else r
        for r in archive.recipes
    )
    # A renamed file takes its mixtures along; the feed looks at none of them.
    moved = replace(archive, recipes=tuple(replace(r, mixtures=()) for r in later))
    before, after = (feedparser.parse(feed_of(a, theme)[0]) for a in (archive, moved))
    assert {e.id for e in before.entries} == {e.id for e in after.entries}
    assert before.feed.id == after.feed.id
    assert (before.feed.updated, after.feed.updated) == ("2026-03-02T00:00:00Z", "2027-01-01T00:00:00Z")


def test_building_again_gives_the_same_bytes(archive: Archive, theme: Theme) -> None:
    assert feed_of(archive, theme) == feed_of(archive, theme)


def test_an_entry_says_what_its_revision_changed(archive: Archive, theme: Theme) -> None:
    blue = archive.recipe_named["blue"]
    at = blue.at
    changed = replace(
        blue,
        changes=tuple(Change(revision=n, what=what, at=at) for n, what in ((2, "Old news."), (3, "Half the iron."))),
    )
    recipes = tuple(changed if r.slug == "blue" else r for r in archive.recipes)
    read = feedparser.parse(feed_of(replace(archive, recipes=recipes), theme)[0])
    assert read.entries[0].summary == "Two parts & one brush. Revision 3: Half the iron."


def test_an_entry_says_what_was_wrong_before(archive: Archive, theme: Theme) -> None:
    blue = archive.recipe_named["blue"]
    change = Change(revision=3, what="Half the iron.", corrects="Twice too much.", at=blue.at)
    recipes = tuple(replace(r, changes=(change,)) if r.slug == "blue" else r for r in archive.recipes)
    read = feedparser.parse(feed_of(replace(archive, recipes=recipes), theme)[0])
    assert read.entries[0].summary.endswith("Half the iron. Sheets printed before it hold a mistake: Twice too much.")


def test_there_is_no_feed_without_an_address_or_a_recipe(archive: Archive, theme: Theme) -> None:
    assert feed_of(replace(archive, settings=replace(archive.settings, address="")), theme) == []
    assert feed_of(replace(archive, recipes=()), theme) == []


def test_a_feed_holds_the_newest_entries_only(archive: Archive, theme: Theme) -> None:
    stock = archive.recipe_named["stocks"]
    many = tuple(
        replace(stock, slug=f"s{n}", code=f"ST-{n:03}", mixtures=(), revised=date.fromordinal(739_000 + n))
        for n in range(NEWEST + 5)
    )
    read = feedparser.parse(feed_of(replace(archive, recipes=many), theme)[0])
    assert len(read.entries) == NEWEST
    assert read.entries[0].title.startswith(f"ST-{NEWEST + 4:03}")
