"""Readings: figures in a sentence that can be read in two ways, `1:10`, `10 % solution`, `8 oz`.

In the fields of a recipe these are refused by the model; in prose they are warnings with both readings.
"""

import re
from typing import Final

from sitegen.check.prose.figures import BEFORE, NUMBER
from sitegen.check.prose.passages import Passage
from sitegen.check.prose.setting import Setting
from sitegen.model.quantity import parse_number
from sitegen.model.units import unit_named
from sitegen.problems import Problem, Refusal

_RATIO: Final = re.compile(r"(?<![\w.,/:+\-–×])(\d{1,3}):(\d{1,4})(?![\w:]|\.\d)")
# What stands beside a colon that is a clock's, a map's or a picture's?
_CLOCK_AFTER: Final = re.compile(r"\s*(?:am|pm|a\.m|p\.m|h|hours?|min|minutes?|o[’']clock)\b", re.I)
_CLOCK_BEFORE: Final = re.compile(
    r"\b(?:at|by|until|till|from|to|before|after|around|scale|scale of|aspect|format|page|volume|vol\.?)\s*$",
    re.I,
)

# Which words of the sentence tell a dilution (any figures), or a time (even `1:30`)?
_DILUTING: Final = frozenset({"dilute", "diluted", "dilution", "mix", "mixed", "parts", "strength", "thin", "thinned"})
_TIMING: Final = frozenset({"clock", "develop", "expose", "exposed", "exposure", "timer", "wait"})


def ratios_have_one_reading(passage: Passage, setting: Setting) -> None:
    """`1:10` is one part to ten, or one in ten; times of day and scales are left alone."""
    for match in _RATIO.finditer(passage.bare):
        first, second = match.groups()
        clock = _CLOCK_AFTER.match(passage.bare, match.end()) or _CLOCK_BEFORE.search(passage.bare, 0, match.start())
        if clock or second.startswith("0") or not _is_dilution(first, match.start(), passage):
            continue
        try:
            parse_number(match.group())
        except Refusal as refusal:
            setting.problems.add(
                Problem(
                    code="prose-ratio-two-readings",
                    at=setting.span(passage, match.span()),
                    message=refusal.message,
                    help=refusal.help,
                    notes=refusal.notes,
                    level="warning",
                )
            )


def _is_dilution(first: str, position: int, passage: Passage) -> bool:
    """By the words around it; alone, `1:10` is one, `3:2` the sides of a picture."""
    said = set(passage.words_between(*passage.sentence(position)))
    return bool(said & _DILUTING) or (first == "1" and not said & _TIMING)


# Which words name a unit of several sizes? What they hold is told by the model's units.
_SEVERAL: Final = (
    "fluid ounces", "fluid ounce", "fl oz", "ounces", "ounce", "ozs", "oz", "pints", "pint", "pt", "quarts",
    "quart", "qt", "gallons", "gallon", "gal", "cups", "cup", "drams", "dram", "drachms", "drachm", "fl dr",
    "minims", "minim", "gr",
)  # fmt: skip
_BARE_UNIT: Final = re.compile(
    rf"{BEFORE}{NUMBER}(?:\s*|-)(?P<unit>{'|'.join(_SEVERAL)})\b(?!\.?\s+(?:US|imp|av|avdp|ap|troy)\b)"
)


def units_have_one_reading(passage: Passage, setting: Setting) -> None:
    """`8 oz` may be three different weights and two volumes."""
    for match in _BARE_UNIT.finditer(passage.bare):
        try:
            unit_named(match["unit"])
        except Refusal as refusal:
            setting.problems.add(
                Problem(
                    code="prose-unit-two-readings",
                    at=setting.span(passage, match.span()),
                    message=f"`{match.group()}` {refusal.message.partition('` ')[2]}",
                    help=refusal.help,
                    level="warning",
                )
            )


_PERCENT: Final = re.compile(
    rf"{BEFORE}(?P<number>{NUMBER}(?:\s*[-–]\s*{NUMBER})?)\s*(?:%|percent\b|per cent\b)"
    r"(?!\s*(?:w/v|w/w|v/v|of\b))"
)
# Which words make a percent before them a strength?
_OF_A_LIQUID: Final = frozenset({"solution", "stock", "bath", "dilution"})
_NEAR: Final = 2  # words after the percent


def percents_have_a_basis(passage: Passage, setting: Setting) -> None:
    """A strength in percent says of what, unless the archive or the name on the bottle does."""
    if setting.archive.settings.percent_means:
        return
    for match in _PERCENT.finditer(passage.bare):
        number = match["number"]
        if not _is_strength(passage, setting, match.end()) or _on_a_bottle(number, setting):
            continue
        setting.problems.add(
            Problem(
                code="prose-percent-without-basis",
                at=setting.span(passage, match.span()),
                message=f"`{match.group()}` does not say percent of what",
                help=f"write `{number} % w/v` (g per 100 ml), `{number} % w/w` (g per 100 g) "
                f"or `{number} % v/v` (ml per 100 ml)",
                level="warning",
            )
        )


def _is_strength(passage: Passage, setting: Setting, end: int) -> bool:
    """Whether a liquid or an ingredient stands right behind the percent, in the same clause."""
    follow = [word for word in passage.words if word.start >= end][: _NEAR + 1]
    if not follow or re.search(r"[.,;:!?()]", passage.bare[end : follow[-1].start]):
        follow = follow[:1] if follow and not passage.bare[end : follow[0].start].strip() else []
    if not follow:
        return False
    if any(word.key in _OF_A_LIQUID for word in follow):
        return True
    named = (m for m in setting.names.mentions(passage) if m.meaning.forms)
    return any(follow[0].start <= m.start <= follow[min(len(follow), _NEAR) - 1].start for m in named)


def _on_a_bottle(number: str, setting: Setting) -> bool:
    """Whether a form of the recipe carries this percent in its name, as reagents do."""
    forms = (setting.archive.forms[form] for form in setting.names.held)
    return any(re.search(rf"(?<![\d.]){re.escape(number)} %", form.name) for form in forms)
