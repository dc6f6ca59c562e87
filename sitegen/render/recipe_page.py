"""A recipe's two pages: the recipe itself, and its troubles."""

from collections.abc import Callable

from markupsafe import Markup

from sitegen.compute.plan import Target
from sitegen.model.archive import Process
from sitegen.model.recipe import Prose, Recipe
from sitegen.render.batch_codes import batch_fields
from sitegen.render.bottle_sheet import kept
from sitegen.render.browser import plan_json
from sitegen.render.cross import borrowed
from sitegen.render.exposing import exposure_views
from sitegen.render.frame import Frame, data_block
from sitegen.render.howto import how_to
from sitegen.render.journal import of_recipe, old_stock_words, seen_in
from sitegen.render.label_view import symbols
from sitegen.render.lineage_page import lineage_fields
from sitegen.render.links import mixture_anchor, recipe_path, relative, troubles_path
from sitegen.render.markdown import Voice, render
from sitegen.render.mixture import mixture_views, needed
from sitegen.render.page import Page
from sitegen.render.preflight import preflights
from sitegen.render.ready import ready, used
from sitegen.render.session import session_fields
from sitegen.render.timing import timeline_fields
from sitegen.render.trouble_pages import step_link
from sitegen.render.warned import warned
from sitegen.render.water import water_panel


def _foreign(recipe: Recipe, frame: Frame) -> tuple[Target, ...]:
    """The mixtures on the page that other recipes own, as their own recipe wrote them."""
    targets = frame.computed.targets
    ids = needed(targets[recipe.slug])
    owners = {i.partition("/")[0] for i in ids} - {recipe.slug}
    return tuple(t for slug in sorted(owners) for t in targets[slug] if t.id in ids)


def recipe_page(recipe: Recipe, frame: Frame) -> Page:
    """The recipe, its calculator and everything that is done with it."""
    computed, path = frame.computed, recipe_path(recipe.slug)
    archive, targets = computed.archive, computed.targets[recipe.slug]
    strengths = {i: computed.strengths[i] for i in needed(targets) if i in computed.strengths}
    views = mixture_views(recipe, frame, path)
    mixed = ready(recipe, archive, views)
    return frame.page(
        "recipe.html",
        path,
        title=f"{recipe.code} {recipe.title}",
        recipe=recipe,
        process=process_of(recipe, frame),
        mixtures=views,
        symbols=symbols(view.label for view in views),
        bottled=bool(kept(recipe)),
        bottles=batch_fields(recipe, *(view.owner for view in views if view.owner)),
        trials=of_recipe(recipe, frame),
        plan=data_block(plan_json(recipe.slug, targets, strengths, archive, _foreign(recipe, frame))),
        how_to=data_block(how_to(recipe, frame)),
        prose=_prose(recipe, frame, path),
        preflights=preflights(recipe),
        **session_fields(recipe, frame),
        **timeline_fields(recipe, frame),
        exposures=exposure_views(recipe),
        ready=mixed,
        used=used(mixed),
        layer_numbers={layer.name: n for n, layer in enumerate(recipe.layers, start=1)},
        bath=_bath(recipe, frame, path),
        warnings=computed.warnings[recipe.slug],
        warned=warned(recipe, archive),
        **lineage_fields(recipe, frame),
        water=water_panel(recipe, frame),
        parent=archive.recipe_named.get(recipe.derived_from.recipe) if recipe.derived_from else None,
        borrows=tuple(archive.recipe_named[slug] for slug in borrowed(recipe, archive)),
        users=frame.cross.using.get(recipe.slug, ()),
        variants=frame.cross.varying.get(recipe.slug, ()),
    )


def recipe_troubles(recipe: Recipe, frame: Frame) -> Page:
    """What goes wrong with this recipe: each symptom with its causes, likeliest first."""
    return frame.page(
        "troubles.html",
        troubles_path(recipe.slug),
        title=f"{recipe.code} {recipe.title}: troubles",
        step_of=lambda cause: step_link(cause, recipe),
        old_stock=lambda cause: old_stock_words(cause, recipe),
        seen_in=lambda trouble: seen_in(recipe, trouble, frame),
        recipe=recipe,
        process=process_of(recipe, frame),
        warned=warned(recipe, frame.computed.archive),
    )


def process_of(recipe: Recipe, frame: Frame) -> Process:
    """The process a recipe belongs to; it is declared (checked)."""
    return next(p for p in frame.computed.archive.settings.processes if p.id == recipe.process)


def _bath(recipe: Recipe, frame: Frame, path: str) -> Callable[[str], Markup]:
    """Mixtures by id as links: to their section of this page, or of their own recipe's."""
    here = frozenset(needed(frame.computed.targets[recipe.slug]))

    def bath(mixture: str) -> Markup:
        found = frame.computed.archive.mixtures.get(mixture)
        if found is None:
            return Markup("a mixture that this edition does not hold")
        owner = mixture.partition("/")[0]
        anchor = mixture_anchor(mixture, recipe.slug if mixture in here else owner)
        way = f"#{anchor}" if mixture in here else relative(path, f"{recipe_path(owner)}#{anchor}")
        code = "" if owner == recipe.slug else f" ({frame.computed.archive.recipe_named[owner].code})"
        return Markup('<a href="{}">{}</a>{}').format(way, found.name, code)

    return bath


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
