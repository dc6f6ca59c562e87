"""Recipes: mixtures, stages and troubles as their author wrote them, checked and typed."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from sitegen.model.amount import Amount
from sitegen.model.dilution import Dilution
from sitegen.model.quantity import Quantity
from sitegen.problems import Span

Status = Literal["trial", "settled", "retired"]
Relation = Literal["own", "after", "adapted from", "inspired by"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Prose:
    """Markdown an author wrote, and where."""

    text: str
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A picture file in `images/`, with what it shows in words."""

    file: str
    alt: str
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One ingredient of a mixture. `key` is how the author wrote it, unique in the mixture.

    Exactly one of `form` (a form's id) and `mixture` (`recipe/mixture`) is set.
    """

    key: str
    amount: Amount
    written: str
    form: str = ""
    mixture: str = ""
    why: str = ""
    optional: bool = False
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Mixture:
    """Something mixed. `id` is `recipe/mixture`, unique in the archive; lines stand in mixing order."""

    id: str
    name: str
    lines: tuple[Line, ...]
    makes: Quantity | None = None
    keeps: Quantity | None = None
    store: str = ""
    coverage: Quantity | None = None
    density: Quantity | None = None
    dilute: tuple[Dilution, ...] = ()
    per_person: Quantity | None = None
    mixing: tuple[Prose, ...] = ()
    note: Prose | None = None
    at: Span

    @property
    def local(self) -> str:
        """The id within its own recipe."""
        return self.id.partition("/")[2]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hazards:
    """The hazard block; each field holds one or more sentences, or none."""

    wear: tuple[str, ...] = ()
    air: tuple[str, ...] = ()
    never: tuple[str, ...] = ()
    first_aid: tuple[str, ...] = ()
    disposal: tuple[str, ...] = ()
    note: tuple[str, ...] = ()
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One thing to do. `look_for` is the endpoint in words, `look_in` the light it is judged in."""

    do: Prose
    lasts: Quantity | None = None
    temperature: Quantity | None = None
    light: str = ""
    look_for: str = ""
    look_in: str = ""
    caution: str = ""
    image: Picture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A part of the work; its checks must hold before the next begins."""

    title: str
    steps: tuple[Step, ...]
    light: str = ""
    then_wait: Quantity | None = None
    checks: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Negative:
    """The film of one layer and which way it lies."""

    label: str
    faces: str = ""
    top_edge: str = ""
    mirrored: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Exposure:
    """Light source, time and distance of one layer."""

    to: str
    lasts: Quantity | None = None
    distance: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One printed layer."""

    name: str
    negative: Negative | None = None
    expose: Exposure | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """A likely cause, what to look at first, what saves this print, what to do next time."""

    cause: str
    remedy: str
    check: str = ""
    save: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """A symptom and its causes, likeliest first. `id` is the slug of the symptom."""

    id: str
    symptom: str
    causes: tuple[Cause, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Credit:
    """Where a recipe comes from."""

    work: str
    relation: Relation
    licence: str = ""
    address: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Parent:
    """The recipe this one varies, and what was changed."""

    recipe: str
    changes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """One recipe file."""

    slug: str
    title: str
    code: str
    summary: str
    process: str
    edition: str
    revision: int
    revised: date
    mixtures: tuple[Mixture, ...]
    hazards: Hazards
    about: Prose | None = None
    keywords: tuple[str, ...] = ()
    teaser: str = ""
    status: Status = "settled"
    credits: tuple[Credit, ...] = ()
    derived_from: Parent | None = None
    takes: Quantity | None = None
    image: Picture | None = None
    needs: tuple[str, ...] = ()
    layers: tuple[Layer, ...] = ()
    stages: tuple[Stage, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    at: Span

    def mixture(self, local: str) -> Mixture | None:
        """The mixture of that local id, if there is one."""
        return next((m for m in self.mixtures if m.local == local), None)
