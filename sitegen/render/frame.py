"""The frame of every page: its template, its links, its head. What stands inside is each page's module."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from typing import Any, Final

from jinja2 import BytecodeCache, DictLoader, Environment, StrictUndefined
from jinja2.bccache import Bucket
from markupsafe import Markup

from sitegen.compute.whole import Computed
from sitegen.labels.archive import Labels, labels_of
from sitegen.model.recipe import Recipe
from sitegen.read.theme import Theme
from sitegen.render.address import address_of, widest
from sitegen.render.cross import CrossReferences, cross_references
from sitegen.render.links import (
    DISPUTES,
    SHEETS,
    card_anchor,
    mixture_anchor,
    picture_path,
    process_path,
    process_troubles_path,
    recipe_path,
    relative,
    substance_path,
    troubles_path,
)
from sitegen.render.page import Page
from sitegen.render.pictures import NO_PICTURES, Pictures
from sitegen.render.wording import clock, dilution_text, formula_markup, percent_text, spoken
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
    labels: Labels
    environment: Environment

    def page(self, template: str, path: str, *, title: str, **fields: Any) -> Page:
        """A page from a template. `title` is what it is called; the archive's title is added to it."""
        settings = self.computed.archive.settings
        text = self.environment.get_template(template).render(
            settings=settings,
            edition=self.edition,
            path=path,
            title=title,
            canonical=address_of(settings, path),
            absolute=partial(address_of, settings),
            searchable=widest(settings, self.edition),
            fed=bool(settings.address and self.computed.archive.recipes),
            to=_to(path),
            **fields,
        )
        return Page(path=path, content=text.encode())


def frame(computed: Computed, theme: Theme, edition: str, pictures: Pictures = NO_PICTURES) -> Frame:
    """The frame of an edition; templates are compiled once."""
    return Frame(
        computed=computed,
        edition=edition,
        cross=cross_references(computed.archive),
        written=written_amounts(computed),
        labels=labels_of(computed),
        environment=_environment(theme, pictures),
    )


def _to(here: str) -> Callable[[str], str]:
    def to(there: str) -> str:
        return relative(here, there)

    return to


class _Compiled(BytecodeCache):
    """Templates compiled once in a run, for every edition and every rebuild; the key holds their text."""

    def __init__(self) -> None:
        self.kept: dict[str, bytes] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        if code := self.kept.get(bucket.key + bucket.checksum):
            bucket.bytecode_from_string(code)

    def dump_bytecode(self, bucket: Bucket) -> None:
        self.kept[bucket.key + bucket.checksum] = bucket.bytecode_to_string()


_COMPILED: Final = _Compiled()


def _environment(theme: Theme, pictures: Pictures) -> Environment:
    environment = Environment(
        bytecode_cache=_COMPILED,
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
        process_troubles_path=process_troubles_path,
        picture_path=picture_path,
        sizes_of=pictures.get,
        mixture_anchor=mixture_anchor,
        card_anchor=card_anchor,
        sheets=SHEETS,
        disputes=DISPUTES,
    )
    environment.filters.update(
        spoken=spoken,
        formula=formula_markup,
        dilution=dilution_text,
        percent=percent_text,
        clock=clock,
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
