"""A derived label as pages show it: what is printed on a bottle, what is not known, and how it was worked out.

The rules are `labels`; here are only words. The three answers stay three: classified, not classified, not
enough data, and what is missing stands beside a classification, too.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from sitegen.labels.archive import Labelled
from sitegen.labels.classes import Family
from sitegen.labels.ingredient import Ingredient
from sitegen.labels.label import NOT_SAFE, Label, Text
from sitegen.labels.reason import Answer, Finding, Lack, percent
from sitegen.labels.tables import tables

# What is each family of hazards called by those who have not read the regulation?
FAMILIES: Final[dict[Family, str]] = {
    "acute-oral": "poison when swallowed",
    "acute-dermal": "poison through the skin",
    "acute-inhalation": "poison when breathed in",
    "skin": "skin burns and irritation",
    "eye": "eye damage and irritation",
    "respiratory-sensitisation": "allergy of the airways",
    "skin-sensitisation": "allergy of the skin",
    "mutagenicity": "genetic defects",
    "carcinogenicity": "cancer",
    "reproduction": "fertility and the unborn child",
    "breast-milk": "harm through breast milk",
    "organs-once": "damage to organs, once",
    "respiratory-irritation": "irritation of the airways",
    "narcotic-effects": "drowsiness",
    "organs-repeated": "damage to organs, over time",
    "aspiration": "danger in the airways when swallowed",
    "aquatic-acute": "harm to water life, at once",
    "aquatic-chronic": "harm to water life, lasting",
    "ozone": "the ozone layer",
    "oxidising": "feeding a fire",
    "flammable": "catching fire",
    "metal-corrosive": "corroding metals",
    "other-physical": "other physical dangers",
}
_NO_DATA: Final = "no hazard data"
_COVERED: Final = "no acute toxicity data"
FEW: Final = 4
"""Families that are named behind a lack; more are 'most of them'."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """A pictogram: its code and its text alternative."""

    code: str
    alt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FamilyView:
    """One family of hazards with its answer and each rule, sum and threshold that led to it."""

    name: str
    answer: str
    """One of the three, with the class where there is one."""
    sentences: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenView:
    """Families that one and the same lack leaves open, with no sum to show."""

    names: tuple[str, ...]
    lacks: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelView:
    """Everything a page says of a label. `quiet` names the families to which nothing in it belongs."""

    answer: Answer
    signal: str
    signs: tuple[Sign, ...]
    h: tuple[Text, ...]
    euh: tuple[Text, ...]
    p: tuple[Text, ...]
    unknown: tuple[str, ...]
    not_safe: str
    notice: str
    basis: str
    parts: tuple[tuple[str, str], ...]
    """Each ingredient with its percent by weight."""
    families: tuple[FamilyView, ...]
    open: tuple[OpenView, ...]
    quiet: tuple[str, ...]
    readings: tuple[str, ...]
    sprayed: tuple[str, ...]
    changes: tuple[str, ...]
    """What reacts in it; the label is then of what goes in."""


def label_view(found: Labelled) -> LabelView:
    """The label of a mixture."""
    return _view(found.label, basis=found.basis, ingredients=found.ingredients, changes=found.changes)


def jar_view(label: Label) -> LabelView:
    """The label of a substance in its own jar."""
    return _view(label, basis="", ingredients=(), changes=())


def _view(label: Label, *, basis: str, ingredients: tuple[Ingredient, ...], changes: tuple[str, ...]) -> LabelView:
    summed = tuple(f for f in label.findings if f.classified or any(r.terms for r in f.reasons))
    rest = tuple(f for f in label.findings if f not in summed)
    return LabelView(
        answer=label.answer,
        signal=label.signal,
        signs=tuple(sign(p.code) for p in label.pictograms),
        h=label.h,
        euh=label.euh,
        p=label.p,
        unknown=unknown_lines(label.unknown),
        not_safe=NOT_SAFE,
        notice=label.notice,
        basis=basis,
        parts=tuple((part.name, _share(part)) for part in ingredients),
        families=tuple(_family(f) for f in summed),
        open=_open(f for f in rest if f.lacks),
        quiet=tuple(FAMILIES[f.family] for f in rest if not f.lacks),
        readings=label.readings,
        sprayed=tuple(dict.fromkeys(c.hazard.text for c in label.if_sprayed)),
        changes=changes,
    )


def sign(code: str) -> Sign:
    """The pictogram of a code, with its words."""
    return Sign(code=code, alt=tables().drawings[code].alt)


def symbols(views: Iterable[LabelView]) -> Markup:
    """The drawings that these labels use, once each, for the page to hold."""
    codes = sorted({one.code for view in views for one in view.signs})
    drawn = "".join(tables().drawings[code].symbol() for code in codes)
    return Markup(drawn)  # noqa: S704  # our own drawings, escaped where they are made


def unknown_lines(lacks: Iterable[Lack]) -> tuple[str, ...]:
    """Which ingredient lacks what, one line each: `silver nitrate: no M-factor (harm to water life, at once)`."""
    found: dict[tuple[str, str], list[str]] = {}
    for lack in lacks:
        found.setdefault((lack.ingredient, lack.what), []).append(FAMILIES[lack.family])
    lines = []
    for (ingredient, what), families in found.items():
        if what == _COVERED and (ingredient, _NO_DATA) in found:
            continue
        behind = f" ({', '.join(dict.fromkeys(families))})" if len(families) <= FEW else ""
        lines.append(f"{ingredient}: {what}{behind}")
    return tuple(lines)


def _open(findings: Iterable[Finding]) -> tuple[OpenView, ...]:
    found: dict[tuple[str, ...], list[str]] = {}
    for finding in findings:
        lacks = tuple(dict.fromkeys(f"{lack.ingredient}: {_same(lack.what)}" for lack in finding.lacks))
        found.setdefault(lacks, []).append(FAMILIES[finding.family])
    return tuple(OpenView(names=tuple(names), lacks=lacks) for lacks, names in found.items())


def _same(what: str) -> str:
    """One name for the lack of everything."""
    return _NO_DATA if what == _COVERED else what


def _family(finding: Finding) -> FamilyView:
    classes = ", ".join(c.hazard.text + (" if sprayed" if c.when else "") for c in finding.classified)
    return FamilyView(
        name=FAMILIES[finding.family],
        answer=": ".join((finding.answer, *((classes,) if classes else ()))),
        sentences=(
            *(reason.sentence for reason in finding.reasons if reason.terms),
            *(f"not known of {lack.ingredient}: {lack.what}" for lack in finding.lacks),
        ),
    )


def _share(part: Ingredient) -> str:
    if part.percent is None:
        return "not known"
    low, high = percent(part.percent.low), percent(part.percent.high)
    return high if low == high else f"{low.removesuffix(' %')}–{high}"
