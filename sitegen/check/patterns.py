"""Patterns: how ids, codes, numbers and quantities are written, for the check and the JSON Schema.

The units' words come from the model's own table. Where a pattern is only part of what a parser asks
(a month is never 13), the parser decides; the pattern is the editor's first help.
"""

import re
from typing import Final

from sitegen.model.units import UNITS, Dimension

ID: Final = "[a-z0-9]+(-[a-z0-9]+)*"
INGREDIENT: Final = f"^{ID}(/{ID})?$"
CODE: Final = "[A-Z]{2,4}-[0-9]{2,3}"
DATE: Final = "[0-9]{4}-[0-9]{2}-[0-9]{2}"
WHOLE: Final = "[1-9][0-9]{0,5}"
ADDRESS: Final = r"https?://[^\s/?#]+[^\s]*"
LANGUAGE: Final = "[a-z]{2,3}(-[A-Za-z0-9]{2,8})*"
CAS: Final = "[0-9]{2,7}-[0-9]{2}-[0-9]"
NUMBER: Final = "([0-9]+ [0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]+(\\.[0-9]+)?)"
RANGE: Final = rf"-?{NUMBER}\s*((-|–|to )\s*-?{NUMBER})?"

RATIO: Final = rf"^{NUMBER}\s*\+\s*{NUMBER}$"
PERCENT: Final = rf"^{RANGE}\s*%(\s*w/w)?$"
BASED_PERCENT: Final = rf"^{RANGE}\s*%\s*(w/v|w/w|v/v)$"


def _words(*dimensions: Dimension) -> str:
    words = {word for unit in UNITS if unit.dimension in dimensions for word in unit.words}
    return "|".join(re.escape(word).replace(r"\ ", " ") for word in sorted(words, key=lambda w: (-len(w), w)))


def quantity(*dimensions: Dimension) -> str:
    """The pattern of a figure or range with a unit of one of the dimensions.

    >>> bool(re.fullmatch(quantity("time"), "2-3 min")), bool(re.fullmatch(quantity("time"), "2 g"))
    (True, False)
    """
    return rf"^{RANGE}\s*({_words(*dimensions)})$"


SIZE: Final = rf"^{NUMBER}\s*[x×]\s*{NUMBER}\s+({_words('length')})$"
CAPACITY: Final = (
    rf"^{NUMBER}\s*(m²|m2|(sheets?|prints?)\s+of\s+([aA][0-6]|{NUMBER}\s*[x×]\s*{NUMBER}\s*({_words('length')})))"
    rf"\s+(per|a)\s+({NUMBER}\s*)?({_words('volume')})$"
)
MARK: Final = "([0-9]+:[0-5])?[0-9]:[0-5][0-9]|[1-9][0-9]+:[0-5][0-9]"
VESSEL: Final = rf"^{NUMBER}\s*({_words('volume')})\s+in\s+{NUMBER}\s*({_words('volume')})$"

# Which texts are amounts? One branch a kind, in the order of `model.amount`.
AMOUNT: Final = "|".join(
    (
        rf"^{RANGE}\s*({_words('mass', 'volume', 'drops', 'pieces')})$",
        rf"^[Tt]o make {NUMBER}\s*({_words('mass', 'volume')})$",
        rf"^{NUMBER} parts?( by (weight|volume))?$",
        rf"^{RANGE}\s*%(\s*(w/v|w/w|v/v)| of [a-z][a-z0-9-]*)?$",
        rf"^{RANGE}\s*times [a-z][a-z0-9-]*$",
        r"^[Aa]s needed$",
        r"^[Tt]o p[Hh] [0-9]+(\.[0-9]+)?((-|–)[0-9]+(\.[0-9]+)?)?$",
    )
)
