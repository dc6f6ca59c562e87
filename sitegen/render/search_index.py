"""The search index: what each recipe, substance and trouble is found by, as one classic script.

A script and not a JSON file: a folder opened from a disk may load scripts but not fetch data. Ranking
is done by `search.js` in the theme.
"""

import json
from collections.abc import Iterable, Iterator

from sitegen.compute.names import fold
from sitegen.model.recipe import Recipe
from sitegen.model.substance import Form, Substance
from sitegen.render.frame import Frame
from sitegen.render.links import recipe_path, substance_path, troubles_path
from sitegen.render.page import Page
from sitegen.render.recipe_page import process_of

Found = dict[str, object]


def search_index(frame: Frame) -> Page:
    """`globalThis.traysideSearch`: a frozen list, recipes first, then substances and troubles."""
    archive = frame.computed.archive
    entries = [_recipe(r, frame) for r in archive.recipes]
    entries += [_substance(s) for s in archive.substances]
    entries += [entry for r in archive.recipes for entry in _troubles(r)]
    rows = ",\n".join(json.dumps(e, ensure_ascii=False, separators=(",", ":")) for e in entries)
    text = f"globalThis.traysideSearch = Object.freeze([\n{rows}\n]);\n"
    return Page(path="search/index.js", content=text.encode())


def _recipe(recipe: Recipe, frame: Frame) -> Found:
    process = process_of(recipe, frame)
    words = [*recipe.keywords, process.name, *(m.name for m in recipe.mixtures)]
    words += [t.symptom for t in recipe.troubles]
    words += _ingredients(recipe, frame)
    return {
        "t": recipe.title,
        "c": recipe.code,
        "u": recipe_path(recipe.slug),
        "k": "recipe",
        "s": recipe.summary,
        "w": _folded(words),
    }


def _ingredients(recipe: Recipe, frame: Frame) -> Iterator[str]:
    """Every name of every form weighed out here or in a mixture this recipe takes."""
    archive = frame.computed.archive
    seen: set[str] = set()
    for target in frame.computed.targets[recipe.slug]:
        for mixture in target.mixtures:
            for line in mixture.lines:
                if line.of in archive.forms and line.of not in seen:
                    seen.add(line.of)
                    yield from _called(archive.forms[line.of], archive.substance_of[line.of])


def _called(form: Form, card: Substance) -> Iterator[str]:
    yield from (form.name, card.name, *card.other_names, *form.names)
    yield from (word for word in (form.formula, form.cas) if word)


def _substance(card: Substance) -> Found:
    words = [word for form in card.forms for word in _called(form, card)]
    others = [name for name in dict.fromkeys(words) if name != card.name]
    return {
        "t": card.name,
        "c": "",
        "u": substance_path(card.id),
        "k": "substance",
        "s": ", ".join(others[:3]),
        "w": _folded(words),
    }


def _troubles(recipe: Recipe) -> Iterator[Found]:
    for trouble in recipe.troubles:
        yield {
            "t": trouble.symptom,
            "c": recipe.code,
            "u": f"{troubles_path(recipe.slug)}#{trouble.id}",
            "k": "trouble",
            "s": f"{recipe.title}: {trouble.causes[0].cause}" if trouble.causes else recipe.title,
            "w": _folded([recipe.title, *(cause.cause for cause in trouble.causes)]),
        }


def _folded(words: Iterable[str]) -> list[str]:
    return list(dict.fromkeys(fold(word) for word in words))
