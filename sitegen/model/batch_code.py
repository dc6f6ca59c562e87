"""Batch codes: what is pencilled on a bottle so that it is known later what is in it and how old it is.

`IB-07.3 part-a 2026-11-03`: the recipe's code and revision, the mixture, the day it was mixed. Three words, so that
no hyphen can be taken for another; the day in full, so that it is never read as another day. The revision may be
left out. How old a batch is, and whether it still keeps, is `compute.trial`.
"""

import re
from dataclasses import dataclass
from datetime import date
from typing import Final

from sitegen.problems import Refusal

EXAMPLE: Final = "IB-07.3 part-a 2026-11-03"
PATTERN: Final = (
    r"([A-Z]{2,4}-[0-9]{2,3})(?:\.([1-9][0-9]{0,5}))? +([a-z0-9]+(?:-[a-z0-9]+)*) +([0-9]{4}-[0-9]{2}-[0-9]{2})"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchCode:
    """One bottle: which mixture of which recipe (by its code), by which revision if that is said, and its day."""

    code: str
    mixture: str
    mixed: date
    revision: int | None = None

    def written(self) -> str:
        """As it is pencilled on the bottle."""
        return f"{batch_code_before(self.code, self.revision, self.mixture)}{self.mixed.isoformat()}"


def batch_code_before(code: str, revision: int | None, mixture: str) -> str:
    """What of a batch code is known before anything is mixed; the day is to follow.

    >>> batch_code_before("IB-07", 3, "part-a")
    'IB-07.3 part-a '
    """
    return f"{code}{f'.{revision}' if revision else ''} {mixture} "


def parse_batch_code(text: str) -> BatchCode:
    """The batch that a code names; `Refusal` (`bad-batch-code`) for every other way of writing one.

    >>> parse_batch_code("IB-07 part-a 2026-11-03").mixture
    'part-a'
    """
    text = " ".join(text.split())
    match = re.fullmatch(PATTERN, text)
    if not match:
        raise Refusal("bad-batch-code", f"`{text}` is not a batch code", _instead(text))
    code, revision, mixture, day = match.groups()
    try:
        mixed = date.fromisoformat(day)
    except ValueError as error:
        raise Refusal(
            "bad-batch-code", f"there is no day `{day}`", f"write a day of the calendar: `{EXAMPLE}`"
        ) from error
    return BatchCode(code=code, mixture=mixture, mixed=mixed, revision=int(revision) if revision else None)


def _instead(text: str) -> str:
    words = text.split(" ")
    whole = f"write recipe, mixture and day, as on the bottle's label: `{EXAMPLE}`"
    if len(words) != 3:  # the three words of the format
        return whole
    if not re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", words[2]):
        return f"write the day as year, month, day: `{words[0]} {words[1]} 2026-11-03`"
    if not re.fullmatch(r"[A-Z]{2,4}-[0-9]{2,3}(\.[1-9][0-9]{0,5})?", words[0]):
        return f"begin with the recipe's code in capitals, with its revision if you like: `{EXAMPLE}`"
    return f"write the mixture's short name in small letters: `{EXAMPLE}`"
