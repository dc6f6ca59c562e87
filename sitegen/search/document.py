"""Documents: what can be found, as texts in named fields. Where the texts come from is `render`."""

from dataclasses import dataclass
from typing import Final, Literal

Kind = Literal["recipe", "trouble", "substance", "process", "water", "trial", "page"]
KINDS: Final[tuple[Kind, ...]] = ("recipe", "substance", "process", "trouble", "water", "trial", "page")
"""Documents are numbered in this order, so that recipes have the lowest numbers."""
TOGETHER: Final[dict[Kind, int]] = {
    "recipe": 1,
    "substance": 3,
    "process": 8,
    "trouble": 6,
    "water": 6,
    "trial": 4,
    "page": 8,
}
"""How many documents of a kind share a shard: about as much text as one recipe."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """How much a word in this field says, and how long the field usually is (in words).

    The usual length is fixed, and not the mean of an archive: a recipe that is added changes no
    other recipe's weights, and a document can be filed before the next one is read.
    """

    weight: float
    usual: int
    evens: float = 0.6
    """How far length counts against a word: b of BM25F."""
    joined: bool = False
    """Whether neighbours are also filed as one word, so that `washingsoda` finds `washing soda`."""
    said: str = ""
    """What a reader is told of where a word was found."""


FIELDS: Final[dict[str, Field]] = {
    "title": Field(weight=14, usual=4, evens=0.35, joined=True, said="title"),
    "code": Field(weight=9, usual=2, evens=0, joined=True, said="code"),
    "names": Field(weight=7, usual=12, evens=0.3, joined=True, said="also called"),
    "keywords": Field(weight=5, usual=8, evens=0.4, joined=True, said="keywords"),
    "summary": Field(weight=3.5, usual=20, evens=0.6, said="in short"),
    "process": Field(weight=3, usual=3, evens=0.4, joined=True, said="belongs to"),
    "mixtures": Field(weight=2.5, usual=8, evens=0.5, joined=True, said="mixtures"),
    "strengths": Field(weight=2, usual=12, evens=0.5, said="strengths"),
    "holds": Field(weight=2.2, usual=60, evens=0.6, joined=True, said="goes in"),
    "also": Field(weight=2, usual=10, evens=0.4, joined=True, said="in other words"),
    "troubles": Field(weight=1.6, usual=20, evens=0.6, joined=True, said="troubles"),
    "tried": Field(weight=1.4, usual=60, evens=0.7, said="in the journal"),
    "about": Field(weight=1.2, usual=80, evens=0.7, said="about"),
    "steps": Field(weight=1, usual=300, evens=0.7, said="steps"),
    "needs": Field(weight=1, usual=40, evens=0.7, said="needs"),
    "credits": Field(weight=0.9, usual=20, evens=0.7, said="credits"),
    "hazards": Field(weight=0.5, usual=150, evens=0.7, said="safety"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Document:
    """One thing that can be found. `path` is the page, from the edition's folder, with its fragment."""

    kind: Kind
    title: str
    path: str
    code: str = ""
    texts: tuple[tuple[str, str], ...] = ()
    """Field and plain text; a field may come more than once. Title and code are filed from above."""
    holds: tuple[str, ...] = ()
    """Names of what must be at hand to make it, for `what is missing`."""

    def filed(self) -> tuple[tuple[str, str], ...]:
        """Every text it is found by; a code is the name of its recipe, not of the recipe's troubles."""
        own = (("title", self.title), ("code", self.code))
        return (*own[: 2 if self.kind == "recipe" else 1], *self.texts)
