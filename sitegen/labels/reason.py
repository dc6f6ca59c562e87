"""Reasons and findings: each answer with the rule, the sum and the threshold it rests on.

Every family of rules returns one `Finding`. Its answer is one of three, and a lack of data is never turned
into "not classified".
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sitegen.labels.classes import Family, HazardClass
from sitegen.model.quantity import exact_text

Answer = Literal["classified", "not classified", "not enough data"]
When = Literal["", "sprayed"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One rule applied: what was summed, to what, against which threshold."""

    family: Family
    rule: str
    source: str
    terms: tuple[str, ...]
    value: Fraction | None
    unit: str
    threshold: str
    result: str

    @property
    def sentence(self) -> str:
        """The reason in one line, for a fold on a page or a terminal."""
        summed = " + ".join(self.terms) or "nothing"
        total = f" = {shown(self.value)} {self.unit}".rstrip() if self.value is not None else ""
        return f"{self.rule}: {summed}{total}; threshold {self.threshold}; {self.result} [{self.source}]"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lack:
    """What is missing of which ingredient (or of the mixture) to answer for a family."""

    family: Family
    ingredient: str
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Classified:
    """A class the mixture has, and the ingredients that cause it.

    `provisional` when it rests on an assumed figure and may be worse. `when` limits it to a condition: it is
    kept in the data and not printed.
    """

    hazard: HazardClass
    causes: tuple[str, ...]
    provisional: bool = False
    when: When = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What one family of rules says. `readings` are other readings of the rules, shown beside the answer."""

    family: Family
    classified: tuple[Classified, ...] = ()
    lacks: tuple[Lack, ...] = ()
    reasons: tuple[Reason, ...] = ()
    readings: tuple[str, ...] = ()

    @property
    def answer(self) -> Answer:
        """Classified, not classified or not enough data: a lack outranks a clean sum."""
        if self.classified:
            return "classified"
        return "not enough data" if self.lacks else "not classified"


def shown(value: Fraction) -> str:
    """A figure for reading: four digits are more than any of these rules deserves.

    >>> shown(Fraction(100000, 53)), shown(Fraction(1, 3)), shown(Fraction(25))
    ('1887', '0.3333', '25')
    """
    if value >= 1000:
        return str(round(value))
    return exact_text(Fraction(f"{float(value):.4g}"))


def percent(value: Fraction) -> str:
    """A share with its sign."""
    return f"{shown(value)} %"


def term(name: str, share: Fraction, over: Fraction | None = None) -> str:
    """A term of a sum: `acetic acid 28 % ÷ 25 %`."""
    return f"{name} {percent(share)}" + (f" ÷ {percent(over)}" if over is not None else "")


def names(found: Iterable[tuple[str, object]]) -> tuple[str, ...]:
    """The names of the ingredients of a sum, sorted, once each."""
    return tuple(sorted({name for name, _ in found}))
