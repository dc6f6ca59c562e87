"""What pages are made from: a recipe's pages need its family and nothing else; only what changed is made again."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from sitegen.cli.building import Ready, prepare
from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read.theme import read_theme
from sitegen.render import keeping
from sitegen.render.edition import edition_pages, editions
from sitegen.render.keeping import Kept, Look, Rebuild, families, words_of
from sitegen.render.page import Page

CONTENT = Path(__file__).parents[2] / "content"
DAY = date(2026, 11, 25)
THEME = read_theme()


@pytest.fixture(scope="module")
def ready() -> Ready:
    return prepare(CONTENT)


@pytest.fixture(scope="module")
def archive(ready: Ready) -> Archive:
    """The demo's last edition."""
    assert ready.loaded.archive
    return ready.loaded.archive.edition(ready.loaded.archive.settings.editions[-1], DAY)


class Alone:
    """Keeps nothing, and makes the pages of one recipe only."""

    def __init__(self, slug: str) -> None:
        self.slug = slug

    def of_recipe(self, _: str, recipe: object, make: keeping.Make) -> Iterable[Page]:
        return make() if getattr(recipe, "slug", "") == self.slug else ()

    def of_card(self, _: object, __: keeping.Make) -> Iterable[Page]:
        return ()


def own_pages(archive: Archive, ready: Ready, slug: str) -> dict[str, bytes]:
    assert ready.loaded.archive
    edition = replace(editions(ready.loaded.archive, DAY)[-1], computed=compute(archive, Problems()))
    found = edition_pages(edition, THEME, ready.pictures, Alone(slug))
    return {page.path: page.content for page in found if page.path.startswith(f"recipes/{slug}/")}


@pytest.mark.parametrize("slug", ["two-bath-toner", "iron-blue", "stocks", "tide-chart-and-net", "salted-paper"])
def test_a_recipes_pages_are_the_same_in_an_archive_of_its_family_alone(
    ready: Ready, archive: Archive, slug: str
) -> None:
    family = families(archive, words_of)[slug]
    assert len(family) < len(archive.recipes), "else nothing is shown by it"
    small = replace(
        archive,
        recipes=tuple(r for r in archive.recipes if r.slug in family),
        trials=tuple(t for t in archive.trials if t.recipe in family),
    )
    whole = own_pages(archive, ready, slug)
    assert len(whole) >= 4
    assert own_pages(small, ready, slug) == whole


def made(kept: Kept, archive: Archive, ready: Ready) -> set[str]:
    """What a rebuild makes anew."""
    found: set[str] = set()
    settled = kept.settled(archive)
    rebuild = Rebuild(kept, settled, Look(edition="all", theme=THEME, pictures=ready.pictures))

    def making(name: str) -> Iterator[Page]:
        found.add(name)
        yield Page(path=name, content=name.encode())

    for recipe in settled.recipes:
        list(rebuild.of_recipe("pages", recipe, lambda slug=recipe.slug: making(slug)))  # type: ignore[misc]
    for card in settled.substances:
        list(rebuild.of_card(card, lambda id_=card.id: making(f"card {id_}")))  # type: ignore[misc]
    return found


def equal_copy(archive: Archive) -> Archive:
    """As a second reading of the same files gives it: equal, and no part the same object."""
    return replace(archive, recipes=tuple(replace(r) for r in archive.recipes), settings=replace(archive.settings))


def test_only_what_was_edited_is_made_again(ready: Ready, archive: Archive) -> None:
    kept = Kept()
    assert len(made(kept, archive, ready)) == len(archive.recipes) + len(archive.substances)
    assert made(kept, equal_copy(archive), ready) == set()
    edited = tuple(replace(r, title="Anew") if r.slug == "walnut-toner" else r for r in archive.recipes)
    again = made(kept, replace(archive, recipes=edited), ready)
    assert {name for name in again if not name.startswith("card ")} == {"oak-bark-toner", "stocks", "walnut-toner"}
    assert 0 < len([name for name in again if name.startswith("card ")]) < 20
    other = replace(archive, recipes=edited, settings=replace(archive.settings, title="Another"))
    assert len(made(kept, other, ready)) == len(archive.recipes) + len(archive.substances)


def test_what_the_archive_lost_is_not_kept(ready: Ready, archive: Archive) -> None:
    kept = Kept()
    made(kept, archive, ready)
    made(kept, replace(archive, recipes=archive.recipes[:3], trials=()), ready)
    assert {slug for kind, slug in kept.pages if kind == "pages"} == {r.slug for r in archive.recipes[:3]}
    assert kept.named.keys() == {r.slug for r in archive.recipes[:3]}
    assert sum(kind == "recipe" for kind, _ in kept.values) == 3
    assert not any(kind == "trial" for kind, _ in kept.values)


def test_pages_beyond_what_may_lie_in_memory_are_made_at_every_save(
    ready: Ready, archive: Archive, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(keeping, "MOST_BYTES", len(archive.recipes[0].slug.encode()))
    kept = Kept()
    made(kept, archive, ready)
    assert list(kept.pages) == [("pages", archive.recipes[0].slug)]
    assert len(made(kept, archive, ready)) == len(archive.recipes) + len(archive.substances) - 1
