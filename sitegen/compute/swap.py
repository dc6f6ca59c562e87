"""Swaps: one form in place of another, by molar mass, so that the same number of moles goes in.

A heavier molar mass in the jar needs more grams. Where there is no formula (green and brown citrate)
the factor is a range from what both hold of the useful part, and the answer says it is not exact.
"""

from dataclasses import dataclass
from fractions import Fraction

from sitegen.compute.molar import molar_mass
from sitegen.compute.names import forms_named
from sitegen.model.amount import Percent
from sitegen.model.archive import Archive
from sitegen.model.quantity import Quantity, exact_text, format_quantity
from sitegen.model.substance import Form
from sitegen.problems import Refusal

Pair = tuple[Fraction, Fraction]


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """`amount` of `wanted` (as the recipe says) is answered by `answer` of `in_jar`; both g or ml."""

    wanted: Form
    in_jar: Form
    amount: Quantity
    answer: Quantity
    factor: Pair
    """Grams of what is in the jar for each gram the recipe wants."""
    exact: bool
    warnings: tuple[str, ...]


def swaps(amount: Quantity, wanted: str, in_jar: str, archive: Archive) -> tuple[Swap, ...]:
    """Every swap two names may mean: one for names that tell the form, several for those that do not.

    `Refusal` when no pair of forms can stand in for each other.
    """
    found, refused = [], []
    for first in forms_named(wanted, archive):
        for second in forms_named(in_jar, archive):
            try:
                found.append(swap(amount, first, second, archive))
            except Refusal as refusal:
                refused.append(refusal)
    if not found:
        raise refused[0]
    return tuple(found)


def swap(amount: Quantity, wanted: Form, in_jar: Form, archive: Archive) -> Swap:
    """How much of the form in the jar does the work of `amount` of the form wanted."""
    factor, exact, warnings = _factor(wanted, in_jar, archive)
    grams = _grams(amount, wanted)
    low, high = grams[0] * factor[0], grams[1] * factor[1]
    unit = "g"
    if amount.dimension == "volume" and in_jar.state == "liquid":
        density = _density(in_jar)
        low, high, unit = low / density, high / density, "ml"
    return Swap(
        wanted=wanted,
        in_jar=in_jar,
        amount=amount,
        answer=Quantity(low=low, high=high, unit=unit),
        factor=factor,
        exact=exact,
        warnings=tuple(dict.fromkeys((*warnings, *(f.note for f in (wanted, in_jar) if f.note)))),
    )


def _grams(amount: Quantity, form: Form) -> Pair:
    if amount.dimension == "mass":
        return amount.base()
    if amount.dimension != "volume":
        raise Refusal(
            "wrong-dimension",
            f"`{format_quantity(amount)}` cannot be swapped",
            "write a mass, such as `100 g`",
        )
    density = _density(form)
    low, high = amount.base()
    return low * density, high * density


def _density(form: Form) -> Fraction:
    if form.density is None:
        raise Refusal(
            "no-density",
            f"{form.name} has no density on its card, so its volume cannot be weighed",
            "ask with a mass, such as `100 g`",
        )
    return form.density.base()[0]


def _factor(wanted: Form, in_jar: Form, archive: Archive) -> tuple[Pair, bool, tuple[str, ...]]:
    if wanted.id == in_jar.id:
        return (Fraction(1), Fraction(1)), True, ()
    cards = archive.substance_of[wanted.id], archive.substance_of[in_jar.id]
    if wanted.formula and in_jar.formula and (moles := _moles(wanted, in_jar, same=cards[0] is cards[1])):
        part, per_wanted, per_jar = moles
        pure = _purity_ratio(wanted, in_jar)
        ratio = pure * per_wanted / molar_mass(wanted.formula) * molar_mass(in_jar.formula) / per_jar
        if cards[0] is cards[1]:
            return (ratio, ratio), True, ()
        warning = f"{in_jar.name} is not {wanted.name}: only the {part} is the same, the rest of the salt differs"
        return (ratio, ratio), False, (warning,)
    return _by_content(wanted, in_jar)


def _moles(wanted: Form, in_jar: Form, *, same: bool) -> tuple[str, Fraction, Fraction] | None:
    """The part both supply and how much of it each formula unit holds."""
    theirs = dict(in_jar.supplies)
    for part, moles in wanted.supplies:
        if part in theirs:
            return part, moles, theirs[part]
    return ("", Fraction(1), Fraction(1)) if same else None


def _purity_ratio(wanted: Form, in_jar: Form) -> Fraction:
    """Pure substance per gram of the one, over the same of the other."""
    first, second = wanted.assay, in_jar.assay
    if first and second and first.basis == second.basis == "v/v":  # ml of pure per ml, not per g
        return first.low / _density(wanted) / (second.low / _density(in_jar))
    return _purity(wanted, first) / _purity(in_jar, second)


def _purity(form: Form, assay: Percent | None) -> Fraction:
    """Grams of the formula's substance in a gram of what is in the jar."""
    if assay is None:
        return Fraction(1)
    if assay.basis == "w/w":
        return assay.low / 100
    if assay.basis == "w/v":
        return assay.low / 100 / _density(form)
    raise Refusal(
        "swap-unrelated",
        f"{form.name} is known by volume only, so its grams cannot be compared",
        "dilute it by volume instead: `trayside dilute`",
    )


def _by_content(wanted: Form, in_jar: Form) -> tuple[Pair, bool, tuple[str, ...]]:
    theirs = dict(in_jar.content)
    for part, ours in wanted.content:
        if other := theirs.get(part):
            factor = (ours.low / other.high, ours.high / other.low)
            said = (
                f"not exact: {wanted.name} holds {_range(ours)} % {part}, {in_jar.name} {_range(other)} %; "
                "the maker's own figure for both would narrow it, and the two may behave differently"
            )
            return factor, False, (said,)
    raise Refusal(
        "swap-unrelated",
        f"{in_jar.name} cannot stand in for {wanted.name}: nothing on their cards says what they share",
        "name two forms of one substance, or two salts whose cards list the same part under `supplies`",
    )


def _range(percent: Percent) -> str:
    low, high = exact_text(percent.low), exact_text(percent.high)
    return low if low == high else f"{low}–{high}"
