"""Derived labels in print: in short for a recipe sheet, and the drawings of pictograms for any printed page."""

from collections.abc import Iterable

from sitegen.labels.archive import Labelled
from sitegen.labels.label import NOT_SAFE, Label
from sitegen.labels.reactions import CHANGES
from sitegen.labels.tables import tables
from sitegen.render.label_view import unknown_lines
from sitegen.render.sheet_model import BatchLabel


def label_in_short(found: Labelled) -> BatchLabel:
    """Signal word, pictograms and codes of a mixture; the words stand on its page and its bottle."""
    label = found.label
    answer = {
        "classified": "",
        "not classified": f"Not classified. {NOT_SAFE}",
        "not enough data": "Not enough data to classify it.",
    }[label.answer]
    return BatchLabel(
        signs=tuple(p.code for p in label.pictograms),
        signal=label.signal,
        codes=", ".join(text.code for text in (*label.h, *label.euh)),
        answer=answer,
        unknown="; ".join(unknown_lines(label.unknown)),
        changes=CHANGES if found.changes else "",
    )


def sign_drawings(labels: Iterable[Label]) -> tuple[tuple[str, str, str], ...]:
    """Code, text alternative and drawing of every pictogram that one of the labels has."""
    drawings = tables().drawings
    codes = sorted({p.code for label in labels for p in label.pictograms})
    return tuple((code, drawings[code].alt, drawings[code].svg()) for code in codes)
