"""Whether compile time keeps pace with an archive: seconds a recipe in one of four times the size, as a ratio.

1 is linear: whatever asks the whole archive for each recipe, card or trial grows towards 4. What is made for a
recipe alone (its pages, the words of its print) is measured of the same few recipes in both archives. Setting PDFs is
left out: no setter sees more than its recipe, and it would hide the rest. CPU seconds, all in one run.
"""

import time
from collections.abc import Callable, Iterable

from sitegen.check.whole import check
from sitegen.cli.pictures import load_pictures
from sitegen.compute.whole import compute
from sitegen.labels.check import check_labels
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.model.substance import Substance
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.read.theme import read_theme
from sitegen.render.booklet_data import booklet_data
from sitegen.render.bottle_label import bottle_label
from sitegen.render.bottle_sheet import kept
from sitegen.render.edition import Edition, editions
from sitegen.render.frame import frame
from sitegen.render.keeping import ANEW, Make, families, words_of
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.recipe_page import recipe_page, recipe_troubles
from sitegen.render.sheet_data import sheet_data
from sitegen.render.site import pages
from tests.bench.copies import copied, demo_pictures
from tests.bench.many import CONTENT, demo

TIMES = 4
FEWEST = 40
COPY = "-1"
"""The recipes that are measured by themselves: the first copies. Nothing draws on them but they, in every size."""


class _WithoutRecipes:
    """Everything is made but the pages of recipes."""

    def of_recipe(self, kind: str, recipe: Recipe, make: Make) -> Iterable[Page]:
        return ()

    def of_card(self, card: Substance, make: Make) -> Iterable[Page]:
        return ANEW.of_card(card, make)


def seconds(work: Callable[[], object]) -> float:
    """CPU seconds of this process."""
    start = time.process_time()
    work()
    return time.process_time() - start


def stages(count: int, pictures: Pictures) -> dict[str, float]:
    """Milliseconds a recipe by stage, in an archive of about `count` recipes."""
    problems, texts = Problems(), {**base_cards(), **copied(count)}
    checked: list[Archive | None] = []
    spent = {
        "check": seconds(
            lambda: checked.append(check(compose_sources(texts, problems, pictures=demo_pictures()), problems))
        )
    }
    archive = checked[0]
    assert archive is not None
    assert not problems.failed, problems.found[:3]
    spent["compute"] = seconds(lambda: check_labels(compute(archive, problems), problems))
    edition, recipes = editions(archive)[-1], len(archive.recipes)
    theme = read_theme()
    spent["lists"] = seconds(lambda: list(pages(edition.computed, theme, edition.name, keeping=_WithoutRecipes())))
    spent["preview"] = seconds(lambda: families(archive, words_of))
    framed = frame(edition.computed, theme, edition.name)
    few = [one for one in edition.computed.archive.recipes if one.slug.endswith(COPY)]
    of_few = {
        "pages": seconds(lambda: [(recipe_page(one, framed), recipe_troubles(one, framed)) for one in few]),
        "print": seconds(lambda: [_printed(one, edition, pictures) for one in few]),
    }
    return {stage: took * 1000 / recipes for stage, took in spent.items()} | {
        stage: took * 1000 / len(few) for stage, took in of_few.items()
    }


def _printed(recipe: Recipe, edition: Edition, pictures: Pictures) -> None:
    """The words of a recipe's sheet, booklet and labels."""
    sheet_data(edition.computed, recipe)
    booklet_data(edition.computed, recipe, edition.name, pictures)
    for mixture in kept(recipe):
        bottle_label(edition.computed, mixture, None)


def growing(fewer: int) -> dict[str, float]:
    """By stage: milliseconds a recipe in the larger archive to those in the smaller."""
    pictures = load_pictures(demo(), CONTENT, Problems())
    stages(FEWEST, pictures)  # templates compiled, tables read
    less, more = stages(fewer, pictures), stages(TIMES * fewer, pictures)
    return {"recipes": fewer, "times": TIMES} | {stage: round(more[stage] / less[stage], 2) for stage in less}
