"""The cupboard page: what an edition implies and nothing of a higher one, linked from the substances."""

from bs4 import BeautifulSoup

from tests.render.conftest import Pages


def soup(content: bytes) -> BeautifulSoup:
    return BeautifulSoup(content, "html.parser")


def test_bottles_stand_on_shelves_and_lead_to_their_pages(supporters: Pages) -> None:
    links = soup(supporters["cupboard/index.html"]).select("main section a")
    assert links
    for link in links:
        path, _, anchor = str(link["href"]).removeprefix("../").partition("#")
        assert soup(supporters[path]).find(id=anchor), link["href"]


def test_a_lower_edition_names_only_bottles_of_its_own_recipes(public: Pages) -> None:
    text = soup(public["cupboard/index.html"]).get_text()
    assert "Citric stock" in text
    assert "KX-99" not in text


def test_the_substances_link_to_it(public: Pages) -> None:
    links = soup(public["substances/index.html"]).select("main a")
    assert "../cupboard/index.html" in {a["href"] for a in links}
