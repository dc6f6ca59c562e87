"""Wording: quantities and amounts as pages say them. Rounding is done before, in `compute.rounding`."""

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from markupsafe import Markup, escape

from sitegen.compute.rounding import Shown
from sitegen.model.amount import Absolute, FillUp, Percent
from sitegen.model.dilution import Dilution
from sitegen.model.quantity import Quantity, exact_number
from sitegen.model.recipe import Line, Moment
from sitegen.model.units import to_base
from sitegen.render.length import easier

# Units that are words take an "s" for more than one; symbols never do.
_SINGULAR: Final = {
    "days": "day", "weeks": "week", "months": "month", "years": "year", "drops": "drop", "pieces": "piece",
}  # fmt: skip
_PLAIN_UNITS: Final = ("mg", "g", "kg", "ml", "cl", "dl", "l", "drops", "pieces")
NO_BREAK: Final = "\N{NO-BREAK SPACE}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measure:
    """An amount cut at its decimal point, so that a column can be aligned on it."""

    whole: str
    fraction: str
    unit: str

    def text(self) -> str:
        """The amount in one piece."""
        return f"{self.whole}{self.fraction} {self.unit}".strip()


def measure_of(shown: Shown) -> Measure:
    """A rounded amount cut at the decimal point; of a range, at that of the upper end."""
    whole, point, decimals = shown.high.partition(".")
    lead = "" if shown.low == shown.high else f"{shown.low}–"
    return Measure(whole=lead + whole, fraction=point + decimals, unit=unit_word(shown.unit, shown.high))


def unit_word(unit: str, number: str) -> str:
    """The unit, in the singular after a plain one."""
    return _SINGULAR.get(unit, unit) if number == "1" else unit


def shown_text(shown: Shown) -> str:
    """A rounded amount in one piece: `35 g`, `2–3 g`."""
    return measure_of(shown).text()


def spoken(quantity: Quantity | None) -> str:
    """A quantity as it is read, kept on one line, long times in hours and minutes; '' for none.

    >>> from fractions import Fraction
    >>> spoken(Quantity(low=Fraction(1), high=Fraction(2), unit="days")).replace(NO_BREAK, " ")
    '1–2 days'
    """
    if quantity is None:
        return ""
    if larger := easier(quantity):
        return unbroken(larger)
    low, high = exact_number(quantity.low), exact_number(quantity.high)
    lead = f"{low} to " if quantity.is_range and low.startswith("-") else f"{low}–"
    number = f"{lead}{high}" if quantity.is_range else high
    return f"{number}{NO_BREAK}{unit_word(quantity.unit, number)}"


def unbroken(lasting: str) -> str:
    """A length of time that breaks only before `to`."""
    return lasting.replace(" ", NO_BREAK).replace(f"{NO_BREAK}to{NO_BREAK}", f" to{NO_BREAK}")


def clock(moment: Moment) -> str:
    """A place in a moving picture as a clock shows it: `1:23`, `1:02:03`."""
    minutes, seconds = divmod(moment.seconds, 60)
    hours, minutes = divmod(minutes, 60)
    return f"{hours}:{minutes:02}:{seconds:02}" if hours else f"{minutes}:{seconds:02}"


def percent_text(percent: Percent | None) -> str:
    """A percent with its basis, or ''."""
    if percent is None:
        return ""
    low, high = exact_number(percent.low), exact_number(percent.high)
    return f"{low if low == high else f'{low}–{high}'}{NO_BREAK}% {percent.basis}"


def dilution_text(dilution: Dilution) -> str:
    """`1+9`: parts of stock and parts of diluent."""
    return f"{exact_number(dilution.stock)}+{exact_number(dilution.diluent)}"


def written_apart(line: Line, shown: Shown) -> str:
    """The author's own words where they say more than the page's figure does, else ''.

    `1 l` beside 1000 ml says nothing more; `2 fl oz US`, `1 part` and `2 % w/v` do.
    """
    if not isinstance(line.amount, Absolute | FillUp) or line.amount.quantity.unit not in _PLAIN_UNITS:
        return line.written
    read = (to_base(Fraction(shown.low), shown.unit), to_base(Fraction(shown.high), shown.unit))
    return "" if read == line.amount.quantity.base() else line.written


def formula_markup(formula: str) -> Markup:
    """A formula with small figures below and a raised dot before its water.

    >>> str(formula_markup("Na2CO3.10H2O"))
    'Na<sub>2</sub>CO<sub>3</sub>·10H<sub>2</sub>O'
    """
    pieces = re.split(r"(?<=[A-Za-z)\]])(\d+)", formula.replace(".", "·"))
    return Markup("").join(
        Markup("<sub>{}</sub>").format(piece) if at % 2 else escape(piece) for at, piece in enumerate(pieces)
    )
