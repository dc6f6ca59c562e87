"""Markdown: what is allowed, what is resolved, and what becomes plain text."""

import pytest

from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.model.recipe import Prose
from sitegen.problems import Problems, Span
from sitegen.render.markdown import Voice, render
from sitegen.render.written import written_amounts


@pytest.fixture(scope="module")
def voice(archive: Archive) -> Voice:
    whole = archive.edition("public")
    return Voice(
        archive=whole,
        written=written_amounts(compute(whole, Problems())),
        page="recipes/blue/index.html",
        recipe=whole.recipe_named["blue"],
        shown="blue",
    )


def shown(text: str, voice: Voice) -> str:
    return str(render(Prose(text=text, at=Span(file="blue.yaml")), voice)).strip()


@pytest.mark.parametrize(
    ("text", "html"),
    [
        ("*so*", "<p><em>so</em></p>"),
        ("<b>so</b>", "<p>&lt;b&gt;so&lt;/b&gt;</p>"),
        ("[so](javascript:alert(1))", "<p>[so](javascript:alert(1))</p>"),
        ("[so](ftp://x.example/)", "<p>so</p>"),
        ("[so](other.html)", "<p>so</p>"),
        ("[so](recipe:kept)", "<p>so</p>"),
        ("[so](amount:nothing)", "<p>so</p>"),
        ("![so](https://x.example/a.png)", '<p>!<a href="https://x.example/a.png" rel="noopener">so</a></p>'),
        ('[so](https://x.example/ "tip")', '<p><a href="https://x.example/" rel="noopener">so</a></p>'),
        ("[so](mixture:part-a)", '<p><a href="../../recipes/blue/index.html#mix-part-a">so</a></p>'),
    ],
)
def test_only_what_is_safe_and_known_becomes_html(voice: Voice, text: str, html: str) -> None:
    assert shown(text, voice) == html


def test_a_live_amount_follows_its_words(voice: Voice) -> None:
    assert shown("[the iron](amount:ferric-ammonium-citrate)", voice) == (
        '<p>the iron (<data class="live" data-mixture="blue/part-a" '
        'data-line="ferric-ammonium-citrate-green" value="40.5 g">40.5\N{NO-BREAK SPACE}g</data>)</p>'
    )


def test_no_prose_gives_nothing(voice: Voice) -> None:
    assert render(None, voice) == ""
