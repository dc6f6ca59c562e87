"""Values: how single fields are written, each from a text to its type. `Refusal` for everything else.

Quantities and amounts are the model's own; where these stand in a file is for `faults`.
"""

import re
import unicodedata
from datetime import date
from fractions import Fraction
from typing import Final

from molmass import Formula, FormulaError

from sitegen.check import patterns
from sitegen.model.amount import Percent
from sitegen.model.archive import Vessel
from sitegen.model.quantity import parse_number, parse_quantity, parse_range
from sitegen.problems import Refusal


def parse_id(text: str) -> str:
    """A short name: small letters, digits, single hyphens."""
    if re.fullmatch(patterns.ID, text):
        return text
    plain = slug_of(text)
    remedy = f"write `{plain}`" if plain else "use small letters, digits and single hyphens"
    raise Refusal(
        "bad-id",
        f"`{text}` is not a short name",
        remedy,
        ("small letters, digits, single hyphens between them",),
    )


def slug_of(text: str) -> str:
    """The text as a short name: small letters and digits joined by hyphens; '' when it has none.

    >>> slug_of("Blues wash away!")
    'blues-wash-away'
    >>> slug_of("Größere Müllgläser, crème")
    'groessere-muellglaeser-creme'
    """
    folded = unicodedata.normalize("NFC", text).casefold().translate(_SPELT_OUT)
    bare = "".join(c for c in unicodedata.normalize("NFKD", folded) if not unicodedata.combining(c))
    return "-".join(re.findall(r"[a-z0-9]+", bare))


_SPELT_OUT: Final = str.maketrans({
    "ä": "ae", "ö": "oe", "ü": "ue", "ß": "ss", "å": "aa", "æ": "ae", "ø": "oe", "œ": "oe", "ð": "d", "þ": "th",
    "ł": "l", "’": "", "'": "",
})  # fmt: skip
"""Letters that are more than a plain one with a mark."""


def parse_code(text: str) -> str:
    """A recipe code such as `IB-07`."""
    if re.fullmatch(patterns.CODE, text):
        return text
    raise Refusal(
        "bad-code",
        f"`{text}` is not a recipe code",
        "write two to four capitals, a dash, two or three digits: `IB-07`",
    )


# What do people write where a warning is still to come? Compared without case, spaces and punctuation.
_STANDS_IN: Final = frozenset({
    "", "asabove", "na", "no", "none", "notapplicable", "nothing", "seeabove", "seemsds", "seesds", "tba", "tbc",
    "tbd", "todo", "unknown", "x", "xx", "xxx",
})  # fmt: skip


def parse_warning(text: str) -> str:
    """A warning of a hazard block; a word that only holds its place would be printed as if it were one.

    >>> parse_warning("Never taste it.")
    'Never taste it.'
    """
    bare = "".join(re.findall(r"\w+", text.casefold()))
    if bare in _STANDS_IN or text.endswith(("…", "...")):
        raise Refusal(
            "hazard-says-nothing",
            f"`{text}` warns of nothing",
            "say it in a sentence, from the safety data sheet of the supplier; delete it where it has nothing to say",
            ("readers would take the hazard block for filled in",),
        )
    return text


def parse_date(text: str) -> date:
    """A day of the calendar, written year, month, day."""
    if re.fullmatch(patterns.DATE, text):
        try:
            return date.fromisoformat(text)
        except ValueError as error:
            raise Refusal(
                "bad-date", f"there is no day `{text}`", "write a day of the calendar, such as `2026-03-02`"
            ) from error
    raise Refusal("bad-date", f"`{text}` is not a date", "write year, month, day: `2026-03-02`")


def parse_revision(text: str) -> int:
    """A whole number from 1."""
    if re.fullmatch(patterns.WHOLE, text):
        return int(text)
    raise Refusal(
        "bad-revision",
        f"`{text}` is not a revision",
        "write a whole number from 1, without leading zeros: `3`",
    )


def parse_address(text: str) -> str:
    """A web address with its scheme."""
    if re.fullmatch(patterns.ADDRESS, text):
        return text
    raise Refusal("bad-address", f"`{text}` is not a web address", "write it in full, such as `https://example.org/`")


def parse_language(text: str) -> str:
    """A language tag (BCP 47, its common part)."""
    if re.fullmatch(patterns.LANGUAGE, text):
        return text
    raise Refusal("bad-language", f"`{text}` is not a language tag", "write one such as `en`, `de` or `pt-BR`")


def parse_vessel(text: str) -> Vessel:
    """What a vessel holds and the step it is read to, in ml."""
    holds, _, step = text.partition(" in ")
    if not step:
        raise Refusal(
            "bad-vessel",
            f"`{text}` does not say how finely the vessel is read",
            "write what it holds and its marks: `100 ml in 1 ml`",
        )
    size = parse_quantity(holds, "volume", single=True).base()[0]
    mark = parse_quantity(step, "volume", single=True).base()[0]
    if mark > size:
        raise Refusal(
            "bad-vessel",
            f"the marks of `{text}` are wider than the vessel",
            "write the vessel first: `100 ml in 1 ml`",
        )
    return Vessel(holds=size, step=mark)


def parse_balance(text: str) -> Fraction:
    """The step of a balance, in g."""
    return parse_quantity(text, "mass", single=True).base()[0]


def parse_positive(text: str) -> Fraction:
    """An exact number above zero."""
    value = parse_number(text)
    if value <= 0:
        raise Refusal("quantity-not-positive", f"`{text}` is not more than nothing", "write a number above zero")
    return value


def _bare_percent(text: str) -> tuple[Fraction, Fraction]:
    low, high, rest = parse_range(text)
    if rest != "%":
        raise Refusal("percent-not-read", f"`{text}` is not a percent", "write a number and a percent sign: `15 %`")
    return low, high


def parse_allowance(text: str) -> Fraction:
    """One percent from 0 to 100, as a fraction: 0.15 for 15 %."""
    low, high = _bare_percent(text)
    if low != high or not 0 <= low <= 100:
        raise Refusal("percent-not-read", f"`{text}` is not one percent from 0 to 100", "write one figure: `15 %`")
    return low / 100


def parse_content(text: str) -> Percent:
    """Percent by mass of a useful part, one figure or a range."""
    low, high = _bare_percent(text.removesuffix("w/w").strip())
    if not 0 < low <= high <= 100:
        raise Refusal(
            "percent-not-read",
            f"`{text}` is not above 0 and at most 100 %",
            "write percent by mass: `14-18 %`",
        )
    return Percent(low=low, high=high, basis="w/w")


def parse_humidity(text: str) -> tuple[Fraction, Fraction]:
    """Relative humidity in percent, one figure or a range."""
    low, high = _bare_percent(text)
    if not 0 <= low <= high <= 100:
        raise Refusal("percent-not-read", f"`{text}` is not from 0 to 100 %", "write percent of humidity: `55-60 %`")
    return low, high


def parse_formula(text: str) -> str:
    """A formula whose elements are known, hydrates with a full stop."""
    remedy = "write it like `Na2CO3.10H2O` or `K3[Fe(CN)6]`"
    if found := re.search("[·•∙*]", text):
        plain = text.replace(found.group(), ".")
        raise Refusal("bad-formula", f"`{found.group()}` in `{text}` is not read", f"write a full stop: `{plain}`")
    try:
        Formula(text).mass  # noqa: B018  # the elements are looked up only when asked for
    except (FormulaError, ValueError) as error:
        raise Refusal("bad-formula", f"`{text}` is not a formula", remedy) from error
    return text


def parse_cas(text: str) -> str:
    """A CAS number whose check digit holds (the sum of the digits by their place, modulo ten)."""
    if not re.fullmatch(patterns.CAS, text):
        raise Refusal("bad-cas", f"`{text}` is not a CAS number", "write it like `497-19-8`")
    digits = text.replace("-", "")
    # The last digit is the sum of the others, each times its place from the right, modulo ten.
    total = sum(place * int(digit) for place, digit in enumerate(reversed(digits[:-1]), start=1))
    if total % 10 != int(digits[-1]):
        note = f"the last digit would be {total % 10}"
        raise Refusal(
            "bad-cas",
            f"the check digit of `{text}` is wrong",
            "compare it with the label of the jar",
            (note,),
        )
    return text


def parse_flag(text: str) -> bool:
    """Yes or no."""
    if text.casefold() not in ("yes", "no", "true", "false"):
        raise Refusal("not-yes-or-no", f"`{text}` is neither yes nor no", "write `yes` or `no`")
    return text.casefold() in ("yes", "true")


def parse_mark(text: str) -> int:
    """A time mark of a moving picture, in seconds: `1:23`, `1:02:03`."""
    if not re.fullmatch(patterns.MARK, text):
        raise Refusal("bad-time-mark", f"`{text}` is not a time mark", "write minutes and seconds: `1:23`")
    seconds = 0
    for part in text.split(":"):
        seconds = seconds * 60 + int(part)
    return seconds
