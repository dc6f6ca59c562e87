"""A recipe's two pages: the recipe itself, and its troubles."""

from collections.abc import Callable

from markupsafe import Markup

from sitegen.model.archive import Process
from sitegen.model.recipe import Prose, Recipe
from sitegen.render.browser import plan_json
from sitegen.render.cross import borrowed
from sitegen.render.frame import Frame, data_block
from sitegen.render.links import recipe_path, troubles_path
from sitegen.render.markdown import Voice, render
from sitegen.render.mixture import mixture_views, needed
from sitegen.render.page import Page


def recipe_page(recipe: Recipe, frame: Frame) -> Page:
    """The recipe, its calculator and everything that is done with it."""
    computed, path = frame.computed, recipe_path(recipe.slug)
    archive, targets = computed.archive, computed.targets[recipe.slug]
    strengths = {i: computed.strengths[i] for i in needed(targets) if i in computed.strengths}
    return frame.page(
        "recipe.html",
        path,
        title=f"{recipe.code} {recipe.title}",
        recipe=recipe,
        process=process_of(recipe, frame),
        mixtures=mixture_views(recipe, frame, path),
        plan=data_block(plan_json(recipe.slug, targets, strengths, archive.settings)),
        prose=_prose(recipe, frame, path),
        warnings=computed.warnings[recipe.slug],
        parent=archive.recipe_named.get(recipe.derived_from.recipe) if recipe.derived_from else None,
        borrows=tuple(archive.recipe_named[slug] for slug in borrowed(recipe)),
        users=frame.cross.using.get(recipe.slug, ()),
        variants=frame.cross.varying.get(recipe.slug, ()),
    )


def recipe_troubles(recipe: Recipe, frame: Frame) -> Page:
    """What goes wrong with this recipe: each symptom with its causes, likeliest first."""
    return frame.page(
        "troubles.html",
        troubles_path(recipe.slug),
        title=f"{recipe.code} {recipe.title}: troubles",
        recipe=recipe,
        process=process_of(recipe, frame),
    )


def process_of(recipe: Recipe, frame: Frame) -> Process:
    """The process a recipe belongs to; it is declared (checked)."""
    return next(p for p in frame.computed.archive.settings.processes if p.id == recipe.process)


def _prose(recipe: Recipe, frame: Frame, path: str) -> Callable[..., Markup]:
    voice = Voice(
        archive=frame.computed.archive,
        written=frame.written,
        page=path,
        recipe=recipe,
        shown=recipe.slug,
        mixtures=frozenset(needed(frame.computed.targets[recipe.slug])),
    )

    def prose(text: Prose, heading: int = 2) -> Markup:
        return render(text, voice, heading=heading)

    return prose
