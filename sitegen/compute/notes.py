"""Notes on a scaled amount: too small to weigh well, too few drops, filled up to.

A note is a code and numbers; `WORDS` says it. The browser gets the same words and the same rules.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.compute.plan import PlanLine
from sitegen.compute.rounding import to_step
from sitegen.model.archive import Measuring
from sitegen.model.quantity import exact_text

# {percent} is one step of the balance, or one drop, against the amount: the error either way.
WORDS: Final = {
    "fill": "fill up to this",
    "words": "not scaled",
    "optional": "optional",
    "small-weight": "{percent} % off for one step of a {step} g balance: make {times} times as much",
    "small-weight-stock": "{percent} % off for one step of a {step} g balance: measure {stock_ml} ml of a "
    "{stock} % w/v stock instead, or make {times} times as much",
    "at-most": "at most, since it is filled up",
    "few-drops": "under a dozen drops, {percent} % off for one drop: make {times} times as much",
}

TEN_STEPS: Final = Fraction(10)
DOZEN: Final = Fraction(12)
# 20 drops to the millilitre by convention; droppers measured 8.7 to 15.2 (a dropper is to be counted once).
DROPS_PER_ML: Final = Fraction(20)


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A note's code and the numbers its words are filled with, as text."""

    code: str
    numbers: tuple[tuple[str, str], ...] = ()

    def text(self) -> str:
        """The note in words."""
        return WORDS[self.code].format(**dict(self.numbers))


def notes_on(line: PlanLine, factor: Fraction, measuring: Measuring) -> tuple[Note, ...]:
    """What is to be said of a line at this factor. The lower end of a range is the one at risk."""
    notes = [Note(code="optional")] if line.optional else []
    if line.fill:
        notes.append(Note(code="fill"))
    elif line.kind == "words":
        notes.append(Note(code="words"))
    elif small := _small(line, line.low * factor, measuring):
        notes.append(small)
    return tuple(notes)


def _small(line: PlanLine, amount: Fraction, measuring: Measuring) -> Note | None:
    if line.kind == "mass" and amount < TEN_STEPS * measuring.balance:
        numbers = {
            "percent": _percent(measuring.balance / amount),
            "step": exact_text(measuring.balance),
            "times": str(_times(TEN_STEPS * measuring.balance / amount)),
        }
        if line.stock is None:
            return Note(code="small-weight", numbers=tuple(numbers.items()))
        numbers |= {
            "stock": exact_text(line.stock),
            "stock_ml": exact_text(to_step(100 * amount / line.stock, Fraction(1, 100))),
        }
        return Note(code="small-weight-stock", numbers=tuple(numbers.items()))
    drops = amount if line.kind == "drops" else amount * (measuring.drops_per_ml or DROPS_PER_ML)
    if line.kind in ("drops", "volume") and drops < DOZEN:
        numbers = {"percent": _percent(1 / drops), "times": str(_times(DOZEN / drops))}
        return Note(code="few-drops", numbers=tuple(numbers.items()))
    return None


def _percent(share: Fraction) -> str:
    """Percent to one decimal, halves up."""
    return exact_text(to_step(share * 100, Fraction(1, 10)))


def _times(ratio: Fraction) -> int:
    """The next whole number: so many times as much is enough."""
    return -(-ratio.numerator // ratio.denominator)
