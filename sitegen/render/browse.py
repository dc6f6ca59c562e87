"""Browsing: the search page and the lists that need no script: A to Z, processes, keywords, what was revised."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from markupsafe import Markup

from sitegen.model.archive import Process
from sitegen.model.recipe import Recipe
from sitegen.render.address import address_of
from sitegen.render.cross import by_title
from sitegen.render.frame import Frame
from sitegen.render.page import Page
from sitegen.render.substance_page import filed, first_letter
from sitegen.search.traits import facets
from sitegen.search.words import composed, fold, pieces

AT_ONCE: Final = 300
"""Recipes on one A to Z page; a longer list has a page a letter."""
LATEST: Final = 50
"""Recipes in the list of what was revised."""
SHORT_NAME: Final = 16
"""Signs a browser shows of a search's name (OpenSearch 1.1, ShortName)."""
SEASONS: Final = frozenset({"winter", "spring", "summer", "autumn", "fall", "midsummer", "midwinter"})


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Recipes under a letter, a keyword or a month, with the anchor of their heading."""

    name: str
    id: str
    recipes: tuple[Recipe, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A process with its recipes in this edition."""

    process: Process
    count: int


def browsing(frame: Frame) -> Iterator[Page]:
    """The search page and every list."""
    processes = _processes(frame)
    keywords = _keywords(frame)
    archive = frame.computed.archive
    counts = {
        "recipes": len(archive.recipes),
        "processes": len(processes),
        "substances": len(archive.substances),
        "troubles": sum(len(r.troubles) for r in archive.recipes),
        "trials": len(archive.trials),
        "keywords": len(keywords),
        "disputes": len({d.id if d.shared else (r.slug, d.id) for r in archive.recipes for d in r.disputes}),
    }
    yield frame.page("search.html", "search/index.html", title="Search", counts=counts, facets=facets(()))
    yield from _recipes(frame)
    yield frame.page("processes.html", "processes/index.html", title="Processes", processes=processes)
    seasons = tuple(group for group in keywords if SEASONS.intersection(_words(group.name)))
    yield frame.page("keywords.html", "keywords/index.html", title="Keywords", keywords=keywords, seasons=seasons)
    newest = sorted(archive.recipes, key=lambda r: (r.revised, r.code), reverse=True)
    yield frame.page("revised.html", "revised/index.html", title="Recently revised", recipes=newest[:LATEST])
    yield from _description(frame)


def letter_path(letter: Group) -> str:
    """The page of a letter, where the list is too long for one page."""
    return f"recipes/a-to-z/{letter.id}.html"


def _recipes(frame: Frame) -> Iterator[Page]:
    """All recipes on one page, or a page a letter when there are many."""
    letters = _letters(frame.computed.archive.recipes)
    path, title = "recipes/index.html", "Recipes, A to Z"
    if len(frame.computed.archive.recipes) <= AT_ONCE:
        yield frame.page("recipes.html", path, title=title, letters=letters, shown=letters, way=None)
        return
    yield frame.page("recipes.html", path, title=title, letters=letters, shown=(), way=letter_path)
    for letter in letters:
        yield frame.page(
            "recipes.html",
            letter_path(letter),
            title=f"Recipes: {letter.name}",
            letters=letters,
            shown=(letter,),
            way=letter_path,
        )


def _letters(recipes: Sequence[Recipe]) -> tuple[Group, ...]:
    ordered = sorted(recipes, key=lambda r: (filed(r.title), r.code))
    grouped = [(letter, tuple(group)) for letter, group in groupby(ordered, key=lambda r: first_letter(r.title))]
    return tuple(Group(name=letter, id=f"letter-{n}", recipes=held) for n, (letter, held) in enumerate(grouped, 1))


def _processes(frame: Frame) -> tuple[Counted, ...]:
    grouped = frame.cross.grouped
    declared = frame.computed.archive.settings.processes
    return tuple(Counted(process=p, count=len(grouped[p.id])) for p in declared if p.id in grouped)


def _keywords(frame: Frame) -> tuple[Group, ...]:
    """Keywords from A to Z; those that differ only in case, accents or hyphens are one."""
    held: dict[str, tuple[str, list[Recipe]]] = {}
    for recipe in by_title(frame.computed.archive.recipes):
        for keyword in dict.fromkeys(recipe.keywords):
            held.setdefault(fold(keyword), (keyword, []))[1].append(recipe)
    ordered = sorted(held.values(), key=lambda each: (filed(each[0]), each[0]))
    return tuple(
        Group(name=name, id=f"keyword-{n}", recipes=tuple(dict.fromkeys(recipes)))
        for n, (name, recipes) in enumerate(ordered, 1)
    )


def _words(text: str) -> tuple[str, ...]:
    return tuple(word for piece in pieces(composed(text)) for word in piece.words)


def _description(frame: Frame) -> Iterator[Page]:
    """The OpenSearch 1.1 description, with which a browser can add the archive as a search."""
    settings = frame.computed.archive.settings
    if not settings.address:
        return
    short = settings.title[:SHORT_NAME].rsplit(" ", 1)[0] if len(settings.title) > SHORT_NAME else settings.title
    template = f"{address_of(settings, 'search/index.html')}#q={{searchTerms}}"
    text = Markup(
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        '<OpenSearchDescription xmlns="http://a9.com/-/spec/opensearch/1.1/">\n'
        "<ShortName>{}</ShortName>\n<Description>{}</Description>\n<InputEncoding>UTF-8</InputEncoding>\n"
        '<Url type="text/html" template="{}"/>\n</OpenSearchDescription>\n'
    ).format(short, f"Search {settings.title}", template)
    yield Page(path="search/opensearch.xml", content=str(text).encode())
