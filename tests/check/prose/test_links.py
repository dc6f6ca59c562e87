"""Links lead somewhere, and nothing typed as Markdown is lost."""

import pytest

from tests.check.bench import prose, recipe, words

ABOUT = "about: |\n  One line.\n\n  See {} for more.\n"


@pytest.mark.parametrize(
    ("link", "code", "remedy"),
    [
        pytest.param(
            "[the citrate](amount:ferric-amonium-citrate-green)",
            "unknown-link-target",
            "did you mean `ferric-ammonium-citrate-green`",
            id="amount",
        ),
        pytest.param("[it](mixture:workin)", "unknown-link-target", "did you mean `working`?", id="mixture"),
        pytest.param("[it](recipe:bleu)", "unknown-link-target", "did you mean `blue`?", id="recipe"),
        pytest.param(
            "[it](substance:potassium-ferricyanid)",
            "unknown-link-target",
            "did you mean `potassium-ferri",
            id="substance",
        ),
        pytest.param(
            "[it](trouble:blue-wash-away)",
            "unknown-link-target",
            "did you mean `blues-wash-away`",
            id="trouble",
        ),
        pytest.param("[water](amount:water)", "ambiguous-link-target", "`amount:part-a/water`", id="two-waters"),
        pytest.param("[it](mixtures:working)", "unknown-link-scheme", "did you mean `mixture`?", id="scheme"),
        pytest.param("[it](working)", "unknown-link-scheme", "write `amount:`, `mixture:`", id="no-scheme"),
        pytest.param("[it](javascript:alert)", "unknown-link-scheme", "or a whole web address", id="script"),
    ],
)
def test_a_link_that_leads_nowhere(link: str, code: str, remedy: str) -> None:
    for text in (recipe(do=f"See {link} first."), recipe(about=ABOUT.format(link))):
        (found,) = prose(text)
        assert (found.code, found.level) == (code, "error")
        assert found.help.startswith(remedy) or remedy in found.help
        assert words(found, text) == link


@pytest.mark.parametrize(
    "link",
    [
        "[the citrate](amount:ferric-ammonium-citrate-green)",
        "[water](amount:part-a/water)",
        "[A](mixture:part-a)",
        "[A](mixture:blue/part-a)",
        "[this](recipe:blue)",
        "[it](substance:water)",
        "[it](trouble:blues-wash-away)",
        "[it](trouble:blue/blues-wash-away)",
        "[elsewhere](https://example.org/a_(b))",
        "<https://example.org/>",
    ],
)
def test_a_link_that_leads_somewhere(link: str) -> None:
    assert prose(recipe(do=f"'See {link}.'")) == ()


def test_two_links_of_one_address_have_a_place_each() -> None:
    text = recipe(do="See [it](recipe:x) and [it](recipe:x).")
    assert [words(p, text) for p in prose(text)] == ["[it](recipe:x)", "[it](recipe:x)"]
    assert len({p.at.column for p in prose(text)}) == 2


def test_links_by_reference_are_resolved_too() -> None:
    (found,) = prose(recipe(about="about: |\n  See [it][there].\n\n  [there]: recipe:nowhere\n"))
    assert found.code == "unknown-link-target"


@pytest.mark.parametrize("html", ["<b>bold</b>", "<!-- a note -->", "<br/>"])
def test_raw_html_is_an_error(html: str) -> None:
    text = recipe(do=f"'Go {html} on.'")
    first = prose(text)[0]
    assert (first.code, first.level) == ("html-in-markdown", "error")
    assert "would stand on the page as typed" in first.message
    assert words(first, text) == html.removesuffix("bold</b>")


@pytest.mark.parametrize("sentence", ["When a < b, stop.", "Stop below <5 g>.", "Write `<b>` on it."])
def test_other_angles_are_left_alone(sentence: str) -> None:
    assert prose(recipe(do=sentence)) == ()


@pytest.mark.parametrize("field", ["look", "never", "needs"])
def test_a_link_in_a_plain_text_is_an_error(field: str) -> None:
    link = "[the citrate](amount:ferric-ammonium-citrate-green)"
    text = recipe(**{field: f"Mind {link}."})
    (found,) = prose(text)
    assert (found.code, found.level) == ("link-in-plain-text", "error")
    assert "move the sentence to `do`" in found.help
    assert words(found, text) == link


def test_the_first_page_is_read_and_has_no_amounts() -> None:
    codes = [p.code for p in prose(recipe(), welcome="See [a](amount:water), [b](recipe:blue), [c](recipe:no).")]
    assert codes == ["amount-outside-recipe", "unknown-link-target"]
