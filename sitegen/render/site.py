"""A site: every page of one edition but its sheets and pictures, lazily, from what was computed."""

from collections.abc import Iterator
from functools import partial

from sitegen.compute.whole import Computed
from sitegen.model.recipe import Recipe
from sitegen.model.substance import Substance
from sitegen.read.theme import Theme
from sitegen.render.browse import browsing
from sitegen.render.cupboard_page import cupboard_page
from sitegen.render.dispute_page import dispute_page
from sitegen.render.feed import feed
from sitegen.render.frame import Frame, frame
from sitegen.render.journal import journal_pages
from sitegen.render.keeping import ANEW, Keeping
from sitegen.render.lineage_page import family_pages
from sitegen.render.listing import bench_page, catalogue, home_page, process_pages
from sitegen.render.page import Page
from sitegen.render.pictures import NO_PICTURES, Pictures
from sitegen.render.recipe_page import recipe_page, recipe_troubles
from sitegen.render.search_index import search_pages
from sitegen.render.sheet_age_page import sheet_age_page
from sitegen.render.sitemap import sitemap
from sitegen.render.substance_page import substance_index, substance_page
from sitegen.render.trouble_pages import trouble_pages
from sitegen.render.water_page import water_page


def pages(
    computed: Computed, theme: Theme, edition: str, pictures: Pictures = NO_PICTURES, keeping: Keeping = ANEW
) -> Iterator[Page]:
    """The pages of an edition, one at a time, so that a large archive never lies in memory at once.

    A picture that is not among `pictures` is linked without its sizes.
    """
    framed = frame(computed, theme, edition, pictures)
    paths: list[str] = []
    for page in _read(framed, keeping):
        paths.append(page.path)
        yield page
    yield from search_pages(computed)
    yield catalogue(framed)
    yield from feed(framed)
    yield from sitemap(framed, (path for path in paths if path.endswith(".html")))
    for name, content in theme.assets.items():
        yield Page(path=f"assets/{name}", content=content)


def _read(framed: Frame, keeping: Keeping) -> Iterator[Page]:
    """The pages that people read, recipes first."""
    computed = framed.computed
    yield home_page(framed)
    for recipe in computed.archive.recipes:
        yield from keeping.of_recipe("pages", recipe, partial(_of_recipe, recipe, framed))
    yield from process_pages(framed)
    yield from family_pages(framed)
    yield substance_index(framed)
    for card in computed.archive.substances:
        yield from keeping.of_card(card, partial(_of_card, card, framed))
    yield cupboard_page(framed)
    yield from trouble_pages(framed)
    yield sheet_age_page(framed)
    yield from dispute_page(framed)
    yield from journal_pages(framed)
    yield bench_page(framed)
    yield water_page(framed)
    yield from browsing(framed)


def _of_recipe(recipe: Recipe, framed: Frame) -> Iterator[Page]:
    yield recipe_page(recipe, framed)
    yield recipe_troubles(recipe, framed)


def _of_card(card: Substance, framed: Frame) -> Iterator[Page]:
    yield substance_page(card, framed)
