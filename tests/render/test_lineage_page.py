"""What pages say of descent: the table beside the parent, revisions in figures, the family tree, and no lost parent."""

from bs4 import BeautifulSoup

from sitegen.check import check_archive
from sitegen.compute.whole import compute
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.theme import Theme
from sitegen.render.site import pages
from tests.golden_cases import sound

BASE = sound()["recipes/recipe.yaml"].replace("credits: own\n", "")
CHILD = (
    BASE.replace("IB-07", "IB-08").replace("title: Soda bath", "title: Strong bath").replace("10 g", "20 g")
    + "derived from: {recipe: recipe, changes: Twice the soda.}\n"
    + "changes: [{revision: 3, what: More., before: {amounts: {sodium-carbonate-anhydrous: 16 g}}}]\n"
)
GRANDCHILD = (
    BASE.replace("IB-07", "IB-09").replace("title: Soda bath", "title: Weak bath").replace("10 g", "5 g")
    + "derived from: {recipe: strong, changes: A quarter.}\n"
)


def built(theme: Theme, *, parent: str = "") -> dict[str, BeautifulSoup]:
    texts = sound() | {
        "archive.yaml": sound()["archive.yaml"].rstrip() + "\n",
        "recipes/recipe.yaml": BASE + "credits: own\n" + parent,
        "recipes/strong.yaml": CHILD,
        "recipes/weak.yaml": GRANDCHILD,
    }
    problems = Problems()
    archive = check_archive(compose_sources(texts, problems), problems)
    assert problems.found == []
    assert archive
    computed = compute(archive.edition(archive.settings.editions[0]), problems)
    made = {page.path: page.content for page in pages(computed, theme, archive.settings.editions[0])}
    return {path: BeautifulSoup(text, "html.parser") for path, text in made.items() if path.endswith(".html")}


def test_the_table_says_parent_own_and_difference(theme: Theme) -> None:
    page = built(theme)["recipes/strong/index.html"]
    table = page.find("h3", id="lineage").find_next("table")  # type: ignore[union-attr]
    cells = [[c.get_text() for c in row.find_all(["th", "td"])] for row in table.find_all("tr")]  # type: ignore[union-attr]
    assert cells == [
        ["Of", "IB-07", "IB-08", "Difference"],
        ["sodium carbonate, anhydrous", "10 g", "20 g", "×\N{NO-BREAK SPACE}2"],
    ]


def test_revisions_show_what_was_and_what_it_became(theme: Theme) -> None:
    page = built(theme)["recipes/strong/index.html"]
    row = page.find("h3", id="revisions").find_next("tbody").find("tr")  # type: ignore[union-attr]
    cells = [c.get_text() for c in row.find_all(["th", "td"])]  # type: ignore[union-attr]
    assert cells[1:] == ["16 g", "20 g", "+25\N{NO-BREAK SPACE}%"]


def test_the_family_tree_is_nested_by_generation(theme: Theme) -> None:
    page = built(theme)["processes/toning/family.html"]
    depth = {link.get_text(): len(link.find_parents("ul")) for link in page.select(".kin a")}
    assert depth == {"IB-07 Soda bath": 1, "IB-08 Strong bath": 2, "IB-09 Weak bath": 3}
    assert "÷\N{NO-BREAK SPACE}4" in page.get_text()


def test_pages_lead_to_the_tree(theme: Theme) -> None:
    found = built(theme)
    for path in ("processes/toning/index.html", "recipes/recipe/index.html", "recipes/weak/index.html"):
        assert any(a["href"].endswith("processes/toning/family.html") for a in found[path].find_all("a")), path
