"""A bottle label in words: name, strengths, hazards, dates. Setting it, and whether it fits, is `bottle_sheet`.

How much of the hazard text may go when a label is small follows CLP Article 29 and Annex I 1.5.2 (packages up
to 125 ml): first the precautions, then the statements of milder classes, never the signal word, a pictogram
or a severe statement. A studio's bottle is not on the market; the full text is printed wherever it fits.
"""

from dataclasses import dataclass
from datetime import date
from typing import Final

from sitegen.compute.use_by import use_by
from sitegen.compute.whole import Computed
from sitegen.labels.archive import labels_of
from sitegen.labels.label import NOT_SAFE, Label
from sitegen.labels.reactions import CHANGES
from sitegen.labels.tables import tables
from sitegen.model.batch_code import batch_code_before
from sitegen.model.recipe import Mixture, Recipe
from sitegen.problems import Refusal
from sitegen.render.address import address_of
from sitegen.render.label_view import unknown_lines
from sitegen.render.links import sheet_place
from sitegen.render.typesetting import qr_code
from sitegen.render.wording import spoken

NOTICE: Final = (
    "Derived from this archive’s cards, not a supplier’s classification. "
    "Safety data sheets, local rules and licensed practice come first."
)
CHILDREN: Final = "Keep out of reach of children."
# Which classes may a small package leave to the page? CLP Annex I 1.5.2.1.1, MEMORY: not opened.
MILDER: Final[frozenset[str]] = frozenset({
    "Met. Corr. 1", "Flam. Liq. 2", "Flam. Liq. 3", "Flam. Sol. 1", "Flam. Sol. 2", "Ox. Liq. 2", "Ox. Liq. 3",
    "Ox. Sol. 2", "Ox. Sol. 3", "Skin Irrit. 2", "Eye Irrit. 2", "Acute Tox. 4 (oral)", "Acute Tox. 4 (dermal)",
    "Acute Tox. 4 (inhalation)", "STOT SE 3 (respiratory irritation)", "STOT SE 3 (narcotic effects)",
    "Aquatic Acute 1", "Aquatic Chronic 1", "Aquatic Chronic 2", "Aquatic Chronic 3", "Aquatic Chronic 4",
})  # fmt: skip
STRENGTHS: Final = 4
"""Substances named with their strength; of more, the strongest."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """What one level says: statements, precautions, and where the rest stands."""

    h: tuple[str, ...]
    p: tuple[str, ...]
    more: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BottleLabel:
    """Everything one label says; dates '' are lines for a pencil. `levels`: the fullest first."""

    id: str
    name: str
    code: str
    strengths: str
    signal: str
    signs: tuple[str, ...]
    levels: tuple[Words, ...]
    answer: str
    unknown: str
    changes: str
    mixed: str
    use_by: str
    keeps: str
    batch: str
    maker: str
    notice: str
    address: str
    """Where it is told whether this revision is current; the recipe is one step on."""
    qr: str


def bottle_label(computed: Computed, mixture: Mixture, mixed: date | None) -> BottleLabel:
    """The label of a mixture, mixed on a day or (None) on one to be written in by hand."""
    archive = computed.archive
    settings = archive.settings
    recipe = archive.recipe_named[mixture.id.partition("/")[0]]
    labelled = labels_of(computed)(mixture.id)
    label = labelled.label
    address = address_of(settings, sheet_place(recipe.code, recipe.revision))
    day = mixed.isoformat() if mixed else ""
    return BottleLabel(
        id=mixture.id,
        name=mixture.name,
        code=recipe.code,
        strengths=_strengths(computed, mixture),
        signal=label.signal,
        signs=tuple(p.code for p in label.pictograms),
        levels=_levels(label, recipe),
        answer=_answer(label),
        unknown="; ".join(unknown_lines(label.unknown)),
        changes=CHANGES if labelled.changes else "",
        mixed=day,
        use_by=_use_by(mixture, mixed),
        keeps=spoken(mixture.keeps),
        batch=f"{batch_code_before(recipe.code, recipe.revision, mixture.local)}{day}",
        maker=settings.studio,
        notice=NOTICE,
        address=address,
        qr=qr_code(address),
    )


def _strengths(computed: Computed, mixture: Mixture) -> str:
    known = [s for s in computed.strengths[mixture.id] if s.shown]
    strongest = sorted(known, key=lambda s: -(s.g_per_l or s.percent_vv or s.percent_ww or (0, 0))[1])
    named = [f"{s.name} {'≈ ' if s.estimate else ''}{_figure(s.shown)}" for s in strongest[:STRENGTHS]]
    more = len(computed.strengths[mixture.id]) - len(named)
    return "; ".join([*named, *([f"and {more} more"] if more and named else [])])


def _figure(shown: tuple[str, ...]) -> str:
    """The strength with its basis: by volume for what was measured so, else percent, where one is known."""
    wanted_first = (text for unit in ("% v/v", "% w/v") for text in shown if text.endswith(unit))
    return next(wanted_first, shown[0])


def _answer(label: Label) -> str:
    return {
        "classified": "",
        "not classified": f"Not classified. {NOT_SAFE}",
        "not enough data": "Not enough data to classify it: handle it as harmful.",
    }[label.answer]


def _levels(label: Label, recipe: Recipe) -> tuple[Words, ...]:
    h = (*(text.text for text in label.h), *(text.text for text in label.euh))
    p = (CHILDREN, *(text.text for text in label.p if text.text != CHILDREN))
    fullest = Words(h=h, p=p, more="")
    severe = (*_severe(label), *(text.text for text in label.euh))
    found = [fullest]
    if len(p) > 1:
        found.append(Words(h=h, p=(CHILDREN,), more=f"Precautions: see recipe {recipe.code}."))
    if severe and severe != h:
        found.append(Words(h=severe, p=(CHILDREN,), more=f"All hazards and precautions: see recipe {recipe.code}."))
    return tuple(found)


def _severe(label: Label) -> tuple[str, ...]:
    """The statements that a small package keeps, too."""
    rows = ((c.hazard, tables().statements.row(c.hazard)) for c in label.classifications if not c.when)
    kept = {row.code for hazard, row in rows if row and hazard.text not in MILDER}
    return tuple(text.text for text in label.h if text.code in kept)


def _use_by(mixture: Mixture, mixed: date | None) -> str:
    if mixture.keeps is None or mixed is None:
        return ""
    end = use_by(mixed, mixture.keeps)
    if end.soonest is None:
        return "the same session"
    if end.latest is None or end.latest == end.soonest:
        return end.soonest.isoformat()
    return f"{end.soonest.isoformat()}, {end.latest.isoformat()} at the latest"


def wanted(recipe: Recipe, local: str) -> Mixture:
    """The mixture of that id, also as `recipe/mixture`; `Refusal` naming those there are."""
    found = recipe.mixture(local.removeprefix(f"{recipe.slug}/"))
    if found is None:
        raise Refusal(
            "unknown-mixture",
            f"`{recipe.slug}` has no mixture `{local}`",
            "write one of " + ", ".join(f"`{m.local}`" for m in recipe.mixtures),
        )
    return found
