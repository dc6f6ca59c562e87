"""Recipes: mixtures, stages and troubles as their author wrote them, checked and typed."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from sitegen.model.amount import Amount
from sitegen.model.capacity import Capacity, Spent
from sitegen.model.dilution import Dilution
from sitegen.model.dispute import Dispute
from sitegen.model.layers import Layer
from sitegen.model.origin import Change, Credit, Parent
from sitegen.model.quantity import Quantity
from sitegen.model.water import Role
from sitegen.problems import Span

Status = Literal["trial", "settled", "retired"]
Intention = Literal["acid etch", "ammoniacal silver", "dichromated colloid", "silver with ferric oxalate"]
"""A process that needs a dangerous pair; what each then must be told with is data of the check."""
Seen = Literal[
    "negative", "paper", "mix", "coat", "dry", "expose", "develop", "wash", "fix", "bleach", "tone", "layers", "bite",
    "ink", "dye", "finish", "keep",
]  # fmt: skip
"""The parts of the work in which something is seen to go wrong, in the order of the work."""


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
    edition: str = ""
    """Who may see it, where that is narrower than the recipe's own edition; '' for all its readers."""
    at: Span


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two pictures of one thing, taken alike: before and after."""

    before: Picture
    after: Picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Moment:
    """A place in a moving picture: seconds from its start, and what is seen from there."""

    seconds: int
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class MovingPicture:
    """A moving picture on the web: it is linked, never embedded, and stands for itself as one still picture."""

    title: str
    address: str
    poster: Picture
    marks: tuple[Moment, ...] = ()


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
    capacity: Capacity | None = None
    when_spent: Spent | None = None
    mixing: tuple[Prose, ...] = ()
    note: Prose | None = None
    note_edition: str = ""
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
    water: Role | None = None
    """What its water is for, where it matters which water that is."""
    image: Picture | None = None
    compare: Pair | None = None
    moving: MovingPicture | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """A part of the work; its checks must hold before the next begins. `layer` names the one it works on."""

    title: str
    steps: tuple[Step, ...]
    light: str = ""
    then_wait: Quantity | None = None
    checks: tuple[str, ...] = ()
    layer: str = ""
    edition: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """A likely cause, what to look at first, what saves this print, what to do next time.

    `steps` are where it may be caused, as written: a stage's title, or `title/2` for its second step. A
    recipe has one of them at most; a trouble that recipes share names those of all.
    """

    cause: str
    remedy: str
    check: str = ""
    save: str = ""
    steps: tuple[str, ...] = ()
    old_stock: str = ""
    """The mixture (its local id) whose age causes it, `yes` where any may; '' where age is not the cause."""
    edition: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """A symptom and its causes, likeliest first. `id` is the slug of the symptom."""

    id: str
    symptom: str
    causes: tuple[Cause, ...]
    seen: Seen | None = None
    """In which part of the work it is seen."""
    words: tuple[str, ...] = ()
    """Other words that somebody new to it would use."""
    shared: bool = False
    """Whether it was drawn from the archive's own troubles, for all recipes of a process."""
    edition: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The author's reason why the warning of a rule (`X34`) does not bind here; it is printed."""

    pair: str
    reason: str
    at: Span


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
    """What lower editions may show beside the title; '' when they may show neither."""
    publish_from: date | None = None
    """The day from which the widest edition holds the recipe, too."""
    publish_from_at: Span | None = None
    status: Status = "settled"
    credits: tuple[Credit, ...] = ()
    derived_from: Parent | None = None
    changes: tuple[Change, ...] = ()
    """What single revisions changed; not every revision need be there."""
    takes: Quantity | None = None
    image: Picture | None = None
    needs: tuple[str, ...] = ()
    intends: tuple[Intention, ...] = ()
    answers: tuple[Answer, ...] = ()
    layers: tuple[Layer, ...] = ()
    stages: tuple[Stage, ...] = ()
    troubles: tuple[Trouble, ...] = ()
    disputes: tuple[Dispute, ...] = ()
    at: Span

    def mixture(self, local: str) -> Mixture | None:
        """The mixture of that local id, if there is one."""
        return next((m for m in self.mixtures if m.local == local), None)
