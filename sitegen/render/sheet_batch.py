"""One batch of a sheet: its rows, facts and mixing words, as `sheet_data` puts them together."""

from collections.abc import Iterator

from sitegen.compute.scale import ScaledLine, ScaledMixture
from sitegen.labels.archive import Labelled
from sitegen.model.amount import Absolute, FillUp
from sitegen.model.archive import Archive
from sitegen.model.recipe import Mixture, Recipe
from sitegen.render.sheet_label import label_in_short
from sitegen.render.sheet_model import Batch, Row
from sitegen.render.sheet_text import Follow, prose
from sitegen.render.spent import capacity_words
from sitegen.render.wording import NO_BREAK, dilution_text, measure_of, shown_text, spoken, written_apart


def batch_of(
    found: ScaledMixture, recipe: Recipe, archive: Archive, said: tuple[Follow, Labelled], *, as_is: bool
) -> Batch:
    """A mixture at one size on the sheet of `recipe`; `said` is what stands behind the links of its owner's words,
    and its label. `as_is`: at the size its author wrote."""
    follow, label = said
    mixture = archive.mixtures[found.plan.id]
    owner = owner_of(mixture.id, archive)
    return Batch(
        name=mixture.name,
        of="" if owner == recipe else f"{owner.code} {owner.title}",
        makes=_makes(found),
        rows=tuple(_row(line, mixture, owner, archive, as_is=as_is) for line in found.lines),
        facts=tuple(_facts(mixture)),
        mixing=tuple(prose(p.text, follow) for p in mixture.mixing),
        note=prose(mixture.note.text, follow) if mixture.note else (),
        label=label_in_short(label),
    )


def owner_of(mixture: str, archive: Archive) -> Recipe:
    """The recipe that a mixture's id belongs to."""
    return archive.recipe_named[mixture.partition("/")[0]]


def in_one_piece(text: str) -> str:
    """The text on one line."""
    return text.replace(" ", NO_BREAK)


def _makes(found: ScaledMixture) -> str:
    text = in_one_piece(shown_text(found.shown))
    if found.plan.base:
        return f"for {text} of {found.plan.base}"
    return f"makes about {text}" if found.plan.estimate else f"makes {text}"


def _facts(mixture: Mixture) -> Iterator[tuple[str, str]]:
    if mixture.keeps:
        yield "Keeps", spoken(mixture.keeps)
    if mixture.store:
        yield "Store", mixture.store
    if mixture.coverage:
        yield "Coverage", f"{spoken(mixture.coverage)} each coat"
    if capacity := capacity_words(mixture):
        yield "Capacity", capacity
    if mixture.dilute:
        yield "Dilute", ", ".join(dilution_text(d) for d in mixture.dilute)


def _row(scaled: ScaledLine, mixture: Mixture, owner: Recipe, archive: Archive, *, as_is: bool) -> Row:
    line = next(line for line in mixture.lines if line.key == scaled.line.key)
    notes = [n.text() for n in scaled.notes if n.code != "words"]
    source = owner_of(line.mixture, archive) if line.mixture else owner
    if source != owner:
        notes.append(f"from {source.code} {source.title}")
    # A share holds at every size; an amount in the author's own unit only at the size it was written for.
    lasting = not isinstance(line.amount, Absolute | FillUp)
    if scaled.shown and (lasting or as_is) and (own := written_apart(line, scaled.shown)):
        notes.append(f"as written: {own.replace('-', '–')}")
    if line.why:
        notes.append(line.why)
    measure = measure_of(scaled.shown) if scaled.shown else None
    return Row(
        whole=measure.whole if measure else "",
        fraction=measure.fraction if measure else "",
        unit=measure.unit if measure else "",
        words="" if measure else line.written,
        name=scaled.line.name,
        notes=tuple(notes),
    )
