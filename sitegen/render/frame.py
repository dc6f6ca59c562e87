"""The frame of every page: its template, its links, its head. What stands inside is each page's module."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from jinja2 import DictLoader, Environment, StrictUndefined
from markupsafe import Markup

from sitegen.compute.whole import Computed
from sitegen.model.recipe import Recipe
from sitegen.read.theme import Theme
from sitegen.render.cross import CrossReferences, cross_references
from sitegen.render.links import (
    mixture_anchor,
    picture_path,
    process_path,
    recipe_path,
    relative,
    substance_path,
    troubles_path,
)
from sitegen.render.page import Page
from sitegen.render.wording import dilution_text, formula_markup, percent_text, spoken
from sitegen.render.written import Written, written_amounts

_MONTHS: Final = (
    "January", "February", "March", "April", "May", "June",
    "July", "August", "September", "October", "November", "December",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What every page of one edition is set with."""

    computed: Computed
    edition: str
    cross: CrossReferences
    written: Written
    environment: Environment

    def page(self, template: str, path: str, *, title: str, **fields: Any) -> Page:
        """A page from a template. `title` is what it is called; the archive's title is added to it."""
        settings = self.computed.archive.settings
        text = self.environment.get_template(template).render(
            settings=settings,
            edition=self.edition,
            path=path,
            title=title,
            canonical=f"{settings.address.rstrip('/')}/{path}" if settings.address else "",
            to=_to(path),
            **fields,
        )
        return Page(path=path, content=text.encode())


def frame(computed: Computed, theme: Theme, edition: str) -> Frame:
    """The frame of an edition; templates are compiled once."""
    return Frame(
        computed=computed,
        edition=edition,
        cross=cross_references(computed.archive),
        written=written_amounts(computed),
        environment=_environment(theme),
    )


def _to(here: str) -> Callable[[str], str]:
    def to(there: str) -> str:
        return relative(here, there)

    return to


def _environment(theme: Theme) -> Environment:
    environment = Environment(
        loader=DictLoader(dict(theme.templates)),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.globals.update(
        recipe_path=recipe_path,
        troubles_path=troubles_path,
        substance_path=substance_path,
        process_path=process_path,
        picture_path=picture_path,
        mixture_anchor=mixture_anchor,
    )
    environment.filters.update(
        spoken=spoken,
        formula=formula_markup,
        dilution=dilution_text,
        percent=percent_text,
        revised=revised_text,
    )
    return environment


def revised_text(recipe: Recipe) -> str:
    """The day of the last revision in words, the same on every machine: `18 April 2026`."""
    day = recipe.revised
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def data_block(value: object) -> Markup:
    """JSON that may stand in a page: no `<`, so that no text of an author can end the block."""
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=False)
    return Markup(text.replace("<", "\\u003c"))  # noqa: S704  # nothing that could close the element is left
