"""The table of pairs: rules, conditions and intentions as types, read from `data/hazards/pairs.yaml`.

What each field means is said at the head of that file. Whether a rule holds for two substances at their
strengths is `judge`.
"""

from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from importlib.resources import files
from typing import Annotated, Final, Literal

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.check.faults import read_document
from sitegen.model.quantity import parse_number
from sitegen.problems import Problems
from sitegen.read.compose import compose

Severity = Literal["note", "warning", "error"]
RANK: Final[dict[Severity, int]] = {"note": 1, "warning": 2, "error": 3}
FILE: Final = "pairs.yaml"


@dataclass(frozen=True, slots=True, kw_only=True)
class Term:
    """A way to stand on one side of a rule: all of these groups, or being this substance."""

    groups: frozenset[str] = frozenset()
    substance: str = ""

    def holds(self, substance: str, groups: frozenset[str]) -> bool:
        """Whether a substance with these groups is meant."""
        return substance == self.substance if self.substance else self.groups <= groups


def parse_term(text: str) -> Term:
    """`group`, `group & group` or `=substance`.

    >>> sorted(parse_term("copper_salt & nitrate").groups)
    ['copper_salt', 'nitrate']
    """
    if text.startswith("="):
        return Term(substance=text[1:].strip())
    return Term(groups=frozenset(part.strip() for part in text.split("&")))


Side = tuple[Annotated[Term, t.leaf(parse_term)], ...]
Figure = Annotated[Fraction, t.leaf(parse_number)]


class Gate(Document):
    """Severity by the strength of the side that is `of` a group: percent by weight, from the figure upwards."""

    of: str
    baths: t.Flag = False
    error: Figure | None = None
    warning: Figure | None = None
    note: Figure | None = None

    def steps(self) -> tuple[tuple[Severity, Fraction], ...]:
        """Severities with the strength each begins at, the worst first."""
        named: tuple[tuple[Severity, Fraction | None], ...] = (
            ("error", self.error),
            ("warning", self.warning),
            ("note", self.note),
        )
        return tuple((severity, figure) for severity, figure in named if figure is not None)


class Worse(Document):
    """What makes a pair worse: words in the mixture's texts, or being kept."""

    to: Severity
    words: tuple[t.Text, ...] = ()
    kept: t.Flag = False


class Rule(Document):
    """Two sides that must not meet, or one and a condition (`said`)."""

    a: Side
    b: Side = ()
    said: t.Text | None = None
    severity: Severity
    makes: t.Text
    when: t.Text | None = None
    note: t.Text | None = None
    source: t.Text
    flag: t.Text
    gate: Gate | None = None
    beside: tuple[t.Text, ...] = ()
    otherwise: Severity | None = None
    warmed: Severity | None = None
    worse: Worse | None = None
    wet: Severity | None = None
    carried: Literal["as written", "note", "warning", "error"] | None = None
    except_: tuple[t.Text, ...] = ()


class Condition(Document):
    """What the texts of a recipe tell beside its ingredients."""

    words: tuple[t.Text, ...]
    but_not: tuple[t.Text, ...] = ()
    over: t.Temperature | None = None
    kept_over: t.Time | None = None
    with_another: t.Flag = False
    everywhere: t.Flag = False
    unless_said: tuple[t.Text, ...] = ()


class IntentionDoc(Document):
    """A process that needs a dangerous pair, with what it then must be told with."""

    rules: tuple[t.Text, ...]
    with_: tuple[t.Text, ...]
    used_within: t.Time
    use_now: t.Text
    cautions: tuple[t.Text, ...] = Field(min_length=1)


class ShelfDoc(Document):
    """A shelf of the cupboard, and the groups that stand on it."""

    name: t.Text
    groups: tuple[t.Text, ...]


class Table(Document):
    """Everything the file holds."""

    groups: dict[str, t.Text]
    active_from: dict[str, Figure]
    session: t.Time
    conditions: dict[str, Condition]
    metals: dict[str, tuple[t.Text, ...]]
    things: tuple[t.Text, ...]
    apart: tuple[t.Text, ...]
    intentions: dict[str, IntentionDoc]
    shelves: tuple[ShelfDoc, ...]
    rules: dict[str, Rule]

    def intention_of(self, rule: str) -> str:
        """The intention that covers a rule; '' when none does."""
        return next((name for name, doc in self.intentions.items() if rule in doc.rules), "")


def read_table(text: str, problems: Problems) -> Table | None:
    """The table of a text, or None when a problem was added; each stands at its line."""
    root = compose(text, FILE, problems)
    return read_document(Table, root, problems) if root else None


@cache
def table() -> Table:
    """The table that comes with the program."""
    problems = Problems()
    text = files("sitegen").joinpath("data", "hazards", FILE).read_text(encoding="utf-8")
    found = read_table(text, problems)
    assert found is not None, problems.found
    return found


@cache
def sides(substance: str, groups: frozenset[str]) -> tuple[frozenset[str], frozenset[str]]:
    """The rules on whose first and on whose second side a substance stands."""
    rules = table().rules.items()
    return (
        frozenset(id_ for id_, rule in rules if any(term.holds(substance, groups) for term in rule.a)),
        frozenset(id_ for id_, rule in rules if any(term.holds(substance, groups) for term in rule.b)),
    )
