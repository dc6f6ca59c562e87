"""The labels of an archive: every mixture's contents as the rules see them, and the label they give.

Worked out when it is first asked for and kept by what is in the mixture, so that a page, a sheet, a bottle
label and the command line show the same value. Pure substances have one, too: what is on their own jar.
"""

from collections.abc import Callable
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from typing import Final

from sitegen.compute.whole import Computed
from sitegen.labels.entries import Entries, ingredient_of, pure
from sitegen.labels.ingredient import Ingredient, Mixture, Share
from sitegen.labels.label import Label
from sitegen.labels.mixture import classify
from sitegen.labels.own_entries import with_own
from sitegen.labels.reactions import reactions
from sitegen.labels.tables import tables
from sitegen.labels.weights import by_weight, stock
from sitegen.model.archive import Archive
from sitegen.model.once import once
from sitegen.model.substance import Form


@dataclass(frozen=True, slots=True, kw_only=True)
class Labelled:
    """A mixture's label with what it was derived from. `basis` says how the percents are known.

    `changes` are pairs in it that react with each other: the label is then of what goes in, not of what forms.
    """

    id: str
    label: Label
    ingredients: tuple[Ingredient, ...]
    basis: str
    estimate: bool
    changes: tuple[str, ...] = ()


Labels = Callable[[str], Labelled]


def labels_of(computed: Computed) -> Labels:
    """A look-up of labels by mixture id (`recipe/mixture`), one for all pages and sheets.

    It raises `Refusal` for a card whose data contradict each other; `check` reports those with their place.
    """
    return _labels(computed, computed.archive)


@once
def _labels(computed: Computed, archive: Archive) -> Labels:
    shelf = stock(archive, computed.batches, tables().densities)
    entries = with_own(tables().entries, archive)
    reacting = reactions(archive)

    @lru_cache(maxsize=256)
    def find(mixture: str) -> Labelled:
        found = by_weight(mixture, shelf)
        held = tuple(_ingredient(form, share, archive, entries) for form, share in found.percent.items())
        whole = Mixture(
            name=archive.mixtures[mixture].name, ingredients=held, state=found.state, estimate=found.estimate
        )
        return Labelled(
            id=mixture,
            label=_label(whole),
            ingredients=held,
            basis=found.basis,
            estimate=found.estimate,
            changes=reacting(mixture),
        )

    return find


def jar_label(form: Form, archive: Archive) -> Label:
    """The label of one form as it is bought: its own strength, and nothing else in the jar."""
    held = _ingredient(form.id, pure(form, _WHOLE), archive, with_own(tables().entries, archive))
    if held.percent and held.percent.high > 100:  # counted as a weaker form: more than all of it is all of it
        held = replace(held, percent=_WHOLE)
    dry = form.state in ("solid", "plant")
    return _label(Mixture(name=form.name, ingredients=(held,), state="solid" if dry else "liquid"))


_WHOLE: Final = Share(low=Fraction(100), high=Fraction(100))


def _ingredient(form: str, percent: Share | None, archive: Archive, entries: Entries) -> Ingredient:
    return ingredient_of(archive.substance_of[form], archive.forms[form], percent, entries)


@lru_cache(maxsize=4096)
def _label(mixture: Mixture) -> Label:
    """Equal contents are classified once: editions, pages and sheets share them."""
    return classify(mixture, tables().statements)
