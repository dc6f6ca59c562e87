"""How much to mix: liquid for coats, for trays, and for baths that are spent by prints and by time.

The answer is a volume in ml, to be asked of `compute.scale` as so much to make. A capacity is the
author's or a maker's figure: it is never carried over from one paper or process to another here.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.compute.ask import Sheets, Tray, parse_sheets
from sitegen.model.capacity import Capacity
from sitegen.model.quantity import Quantity, parse_quantity
from sitegen.problems import Refusal

UNTESTED: Final = (
    "a capacity found with factory paper does not hold untested for hand-coated sheets: they can carry far more metal"
)
SHALLOW: Final = Fraction(13)
"""mm: an old photographic handbook fills a dish to half an inch at least."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """So many prints of one size (mm²), evenly over so many minutes (None: not said)."""

    prints: int
    area: Fraction
    minutes: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bath:
    """A bath over a session. Volumes in ml; `lasts` is how many prints one filling does."""

    volume: Fraction
    lasts: int
    fillings: int
    replaced: Fraction
    """Mixed in all when a spent filling is thrown out whole."""
    per_print: Fraction | None
    """Thrown out and topped up after each print instead; None without a capacity, or where age ends the bath."""
    replenished: Fraction | None
    """Mixed in all when topped up: the filling, and `per_print` after each print but the last."""
    warnings: tuple[str, ...]


def coats(sheets: Sheets, coverage: Quantity) -> tuple[Fraction, Fraction]:
    """ml for the sheets with their coats and allowance, at both ends of the coverage; mix for the upper."""
    area = sheets.count * sheets.length * sheets.width / 1_000_000 * sheets.coats * (1 + sheets.allowance)
    low, high = (sheets.coverage or coverage).base()
    return area * low, area * high


def trays(tray: Tray, count: int) -> tuple[Fraction, tuple[str, ...]]:
    """ml to fill so many trays to their depth, and what to mind."""
    said = () if tray.depth >= SHALLOW else ("shallower than 13 mm, a sheet may not stay covered",)
    return tray.length * tray.width * tray.depth / 1000 * count, said


def parse_session(text: str, *, lasting: str = "") -> Session:
    """`12 of 24x30 cm`, `lasting` such as `5 h`."""
    sheets = parse_sheets(text, coats="1", allowance=Fraction(0))
    minutes = parse_quantity(lasting, "time").base()[1] if lasting else None
    return Session(prints=int(sheets.count), area=sheets.length * sheets.width, minutes=minutes)


def bath(volume: Fraction, session: Session, *, capacity: Capacity | None, keeps: Quantity | None) -> Bath:
    """A bath of `volume` ml over a session: spent by prints, by time, or by whichever comes first.

    Of a range of keeping the shorter end counts. `Refusal` when one filling does not do one print.
    """
    by_use = _by_use(volume, session, capacity)
    by_age = _by_age(session, keeps)
    lasts = min(by_use, by_age, session.prints)
    fillings = -(-session.prints // lasts)
    per_print = session.area / capacity.area if capacity and by_age >= session.prints else None
    warnings = [UNTESTED] if capacity else []
    if by_age < min(by_use, session.prints):
        warnings.append("its keeping time ends before it is spent: mix each filling when the one before is thrown out")
    return Bath(
        volume=volume,
        lasts=lasts,
        fillings=fillings,
        replaced=volume * fillings,
        per_print=per_print,
        replenished=None if per_print is None else volume + per_print * (session.prints - 1),
        warnings=tuple(warnings),
    )


def _by_use(volume: Fraction, session: Session, capacity: Capacity | None) -> int:
    if capacity is None:
        return session.prints
    prints = int(volume * capacity.area / session.area)
    if prints < 1:
        raise Refusal(
            "bath-too-small",
            "one filling is spent before the first print is done",
            f"fill the tray with {-(-session.area // capacity.area)} ml at least",
        )
    return prints


def _by_age(session: Session, keeps: Quantity | None) -> int:
    """Prints within its keeping time, when they follow each other evenly through the session."""
    if keeps is None or session.minutes is None:
        return session.prints
    life = keeps.base()[0]
    return session.prints if life >= session.minutes else max(1, int(session.prints * life / session.minutes))
