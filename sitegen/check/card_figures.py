"""Card figures: what a card gives for the classification of mixtures, as the model has it, with its places.

Whether a class exists and limits are in order is said where labels are derived (`labels.check`).
"""

from sitegen.check.card_documents import FiguresDoc
from sitegen.check.places import Places
from sitegen.model.card_figures import NO_FIGURES, CardFigures, CardLimit, CardPoint, CardStatement


def figures_of(doc: FiguresDoc | None, places: Places) -> CardFigures:
    """The figures of a card; empty for one that gives none."""
    if doc is None:
        return NO_FIGURES
    way = ("hazards", "figures")
    return CardFigures(
        limits=tuple(
            CardLimit(
                hazard=one.class_,
                above=one.from_,
                below=one.below,
                source=one.source,
                at=places.key(*way, "limits", n),
            )
            for n, one in enumerate(doc.limits)
        ),
        points=tuple(
            CardPoint(route=one.route, value=one.value, inhaled=one.as_, source=one.source) for one in doc.ate
        ),
        m_acute=doc.m.acute if doc.m else None,
        m_chronic=doc.m.chronic if doc.m else None,
        statements=tuple(
            CardStatement(code=one.code, above=one.from_, source=one.source, at=places.value(*way, "euh", n, "code"))
            for n, one in enumerate(doc.euh)
        ),
    )
