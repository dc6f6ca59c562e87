"""Precedence: one signal word, pictograms with their causes, and statements that others make needless.

CLP Articles 20, 26 and 27. GHS06 removes GHS07 whatever its cause; GHS05 and GHS08 remove it only for the
causes they stand for, so each pictogram keeps the classes it stands for. GHS02 to GHS04 beside GHS01 or GHS06
are optional in the article; here they stay.
"""

from dataclasses import dataclass
from typing import Final

from sitegen.labels.reason import Classified
from sitegen.labels.statements import Row, Signal, Statements

Printed = tuple[Classified, Row]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pictogram:
    """A pictogram on the label, and the classes it stands for."""

    code: str
    causes: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hidden:
    """A cause of a pictogram, or a statement, that is left off, and what takes its place."""

    what: str
    cause: str
    by: str


# Which classes does a pictogram stand for, so that GHS07 need not? CLP Article 26(1)(b) to (d).
_STANDS_FOR: Final[dict[str, tuple[str, ...]]] = {
    "Skin Corr.": ("Skin Irrit.", "Eye Irrit."),
    "Eye Dam.": ("Skin Irrit.", "Eye Irrit."),
    "Resp. Sens.": ("Skin Sens.", "Skin Irrit.", "Eye Irrit."),
}
# Which statement makes which needless? CLP Article 27; H410 and H400: CLP Annex I Table 4.1.6.
_SAYS_ALREADY: Final[dict[str, tuple[str, ...]]] = {"H314": ("H318", "H315", "H319"), "H410": ("H400",)}


def signal_word(printed: tuple[Printed, ...]) -> Signal:
    """Danger beats Warning; '' when no class has one."""
    words = {row.signal for _, row in printed}
    return "Danger" if "Danger" in words else "Warning" if "Warning" in words else ""


def printed_rows(classified: tuple[Classified, ...], statements: Statements) -> tuple[Printed, ...]:
    """Each class that is printed, with its row."""
    found = ((c, statements.row(c.hazard)) for c in classified if not c.when)
    return tuple((c, row) for c, row in found if row is not None)


def pictograms(printed: tuple[Printed, ...]) -> tuple[tuple[Pictogram, ...], tuple[Hidden, ...]]:
    """The pictograms in order of their number, and what was hidden by which."""
    causes: dict[str, list[str]] = {}
    for one, row in printed:
        for code in row.pictograms:
            causes.setdefault(code, []).append(one.hazard.text)
    hidden: list[Hidden] = []
    kept: list[str] = []
    for cause in causes.get("GHS07", []):
        by = "GHS06" if "GHS06" in causes else _replaced(cause, printed)
        if by:
            hidden.append(Hidden(what="GHS07", cause=cause, by=by))
        else:
            kept.append(cause)
    if "GHS07" in causes:
        causes["GHS07"] = kept
    shown = tuple(Pictogram(code=code, causes=tuple(sorted(found))) for code, found in sorted(causes.items()) if found)
    return shown, tuple(hidden)


def _replaced(cause: str, printed: tuple[Printed, ...]) -> str:
    """The pictogram that stands for this cause of GHS07 already, or ''.

    GHS05 for metals alone replaces nothing: Article 26 speaks of skin and eyes.
    """
    for one, row in printed:
        if any(cause.startswith(f"{name} ") for name in _STANDS_FOR.get(one.hazard.name, ())):
            return row.pictograms[0]
    return ""


def needless(codes: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[Hidden, ...]]:
    """The statements that are printed, in order, and those that another one says already."""
    hidden = [
        Hidden(what=weak, cause=weak, by=strong)
        for strong, weaker in _SAYS_ALREADY.items()
        if strong in codes
        for weak in weaker
        if weak in codes
    ]
    gone = {h.what for h in hidden}
    return tuple(sorted({c for c in codes if c not in gone})), tuple(hidden)
