"""Editions: an index holds only the words of what its readers may see."""

from dataclasses import replace

from sitegen.compute.whole import compute
from sitegen.model.recipe import Prose
from sitegen.problems import Problems
from sitegen.render.search_index import search_pages
from tests.bench.many import demo

MARK = "plantedword"


def test_no_word_of_a_supporters_recipe_is_in_the_public_shards() -> None:
    archive = demo()
    kept = next(r for r in archive.recipes if r.edition != "public")
    marked = replace(
        kept,
        title=f"{MARK}title",
        code="QZ-99",
        summary=f"{MARK}summary",
        keywords=(f"{MARK}keyword",),
        teaser=f"{MARK}teaser",
        needs=(f"{MARK}need",),
        about=Prose(text=f"{MARK}about", at=kept.at),
        troubles=tuple(replace(t, symptom=f"{MARK}symptom") for t in kept.troubles),
        mixtures=tuple(replace(m, name=f"{MARK}mixture") for m in kept.mixtures),
    )
    planted = replace(archive, recipes=tuple(marked if r is kept else r for r in archive.recipes))
    public, supporters = (
        b"\n".join(page.content for page in search_pages(compute(planted.edition(name), Problems()))).lower()
        for name in ("public", "supporters")
    )
    for what in ("title", "summary", "keyword", "need", "about", "symptom", "mixture"):
        assert f"{MARK}{what}".encode() in supporters
    for hidden in (MARK, MARK[::-1], "qz-99", "qz99", kept.slug, "near-black"):
        assert hidden.encode() not in public
