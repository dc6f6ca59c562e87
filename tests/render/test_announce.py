"""Posts: the same facts three ways, and nothing that readers may not see."""

from dataclasses import replace

import pytest
from bs4 import BeautifulSoup
from markdown_it import MarkdownIt

from sitegen.model.archive import Archive
from sitegen.model.origin import Change
from sitegen.model.recipe import Recipe
from sitegen.problems import Refusal
from sitegen.render.announce import STANDING, as_html, as_markdown, as_text, post, teaser_post, untold


@pytest.fixture
def blue(archive: Archive) -> Recipe:
    """The recipe with everything, at revision 3, one of whose changes is written down."""
    recipe = archive.recipe_named["blue"]
    return replace(recipe, changes=(Change(revision=2, what="Half the *iron*.", at=recipe.at),))


def test_every_way_says_title_text_changes_picture_and_address(archive: Archive, blue: Recipe) -> None:
    said = post(archive.edition("public"), blue, 1, teaser="", pictured=True)
    for text in (as_text(said), plain(as_markdown(said)), BeautifulSoup(as_html(said), "html.parser").get_text()):
        assert 'Revised recipe: IB-01 Blue print <script>alert("t")</script>' in text
        assert "Two parts & one brush." in text
        assert "Revision 2: Half the *iron*." in text
        assert "Revision 3, 2 March 2026" in text
        assert STANDING in text
        assert "https://mill.example/recipes/blue/index.html" in text


def plain(markdown: str) -> str:
    """What a reader of the Markdown sees."""
    return BeautifulSoup(MarkdownIt().render(markdown), "html.parser").get_text()


def test_the_picture_is_named_with_its_words(archive: Archive, blue: Recipe) -> None:
    said = post(archive.edition("public"), blue, None, teaser="", pictured=True)
    assert "[Picture: grass.png. Grasses in white on blue]" in as_text(said)
    for page in (as_html(said), MarkdownIt().render(as_markdown(said))):
        image = BeautifulSoup(page, "html.parser").find("img")
        assert image
        assert (image["src"], image["alt"]) == ("https://mill.example/images/grass.png", "Grasses in white on blue")


def test_without_an_address_the_picture_is_the_file_beside_the_post(archive: Archive, blue: Recipe) -> None:
    bare = replace(archive, settings=replace(archive.settings, address=""))
    said = post(bare.edition("public"), blue, None, teaser="", pictured=True)
    assert '<img src="grass.png"' in as_html(said)
    assert "https" not in as_text(said)


def test_html_and_markdown_run_nothing_an_author_typed(archive: Archive, blue: Recipe) -> None:
    said = post(archive.edition("public"), replace(blue, summary="1. [x](y) <b> _z_"), None, teaser="", pictured=False)
    for page in (as_html(said), MarkdownIt("commonmark").render(as_markdown(said))):
        soup = BeautifulSoup(page, "html.parser")
        assert not soup.find_all(["script", "b", "em", "ol"])
        assert [a["href"] for a in soup.find_all("a")] == ["https://mill.example/recipes/blue/index.html"]
        assert "1. [x](y) <b> _z_" in soup.get_text()


def test_a_teaser_stands_before_the_summary(archive: Archive, blue: Recipe) -> None:
    assert post(archive, blue, None, teaser="Come and see.", pictured=True).text == "Come and see."


def test_a_first_revision_is_new_and_says_what_it_varies(archive: Archive) -> None:
    kept = replace(archive.recipe_named["kept"], revision=1)
    said = post(archive.edition("supporters"), kept, None, teaser="", pictured=True)
    assert said.head == "New recipe"
    assert said.changes == ('Varied from IB-01 Blue print <script>alert("t")</script>: Plantedchange.',)


def test_told_of_nothing_a_recipe_is_new_at_any_revision(archive: Archive, blue: Recipe) -> None:
    assert post(archive, blue, 0, teaser="", pictured=True).head == "New recipe"


def test_nothing_newer_is_refused(archive: Archive, blue: Recipe) -> None:
    with pytest.raises(Refusal, match="there is nothing after 3"):
        post(archive, blue, 3, teaser="", pictured=True)


def test_a_missing_picture_is_refused_unless_none_is_wanted(archive: Archive) -> None:
    stocks = archive.recipe_named["stocks"]
    with pytest.raises(Refusal, match="no picture") as refused:
        post(archive, stocks, 0, teaser="", pictured=True)
    assert "--no-picture" in refused.value.help
    assert post(archive, stocks, 0, teaser="", pictured=False).picture is None


def with_teaser(archive: Archive, teaser: str) -> Archive:
    recipes = tuple(replace(r, teaser=teaser) if r.slug == "kept" else r for r in archive.recipes)
    return replace(archive, recipes=recipes)


def test_readers_of_a_lower_edition_are_told_title_and_teaser_only(archive: Archive) -> None:
    open_to_them = with_teaser(archive, "Something dark is coming.")
    said = teaser_post(open_to_them.edition("public"), open_to_them.recipe_named["kept"])
    text = as_text(said) + as_markdown(said) + as_html(said)
    assert "Plantedtitle print" in text
    assert "Something dark is coming." in text
    for planted in ("Plantedsummary", "plantedfile", "Plantedalt", "KX-99", "Plantedchange", "kept", "2026"):
        assert planted not in text


def test_a_recipe_without_a_teaser_is_not_named_to_them(archive: Archive) -> None:
    silent = with_teaser(archive, "")
    with pytest.raises(Refusal, match="may not be named"):
        teaser_post(silent.edition("public"), silent.recipe_named["kept"])


def test_revisions_that_nothing_is_written_of_are_told_to_the_author(blue: Recipe) -> None:
    assert untold(blue, 1) == (3,)
    assert untold(blue, None) == (3,)
    assert untold(blue, 0) == ()
