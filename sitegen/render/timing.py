"""What the timeline of a recipe page hands to its scripts: plain whole numbers that they only add and compare.

All times are whole counts of one part of a minute, as fine as the recipe needs (`perMinute` of them make one).
The shape is the contract with `themes/*/assets/timing.js` and `timing-calendar.js`.
"""

from fractions import Fraction
from math import lcm
from typing import Any

from sitegen.compute.bath_life import BathUse, uses_of
from sitegen.compute.timeline import (
    BRIGHT,
    DARK,
    DRAWN_OUT,
    LONG_DAY,
    MOST_PRINTS,
    NOTHING,
    SUMMER_TIME,
    Piece,
    Placed,
    Reach,
    pieces_of,
)
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.render.calendar import remarks_on, summary_of
from sitegen.render.dated import BATH_WORDS
from sitegen.render.frame import Frame, data_block
from sitegen.render.strip_drawing import strip_drawing
from sitegen.render.timeline_view import TimelineView, timeline_view

Json = dict[str, Any]
_Uses = list[tuple[str, BathUse]]


def timeline_fields(recipe: Recipe, frame: Frame) -> dict[str, Any]:
    """What `timeline.html` shows; `timeline` is None where the recipe has no times."""
    view = timeline_view(recipe)
    if view is None:
        return {"timeline": None}
    block = data_block(timing_json(recipe, frame.computed.archive, view))
    return {"timeline": view, "strip": strip_drawing(view), "timing": block}


def timing_json(recipe: Recipe, archive: Archive, view: TimelineView) -> Json:
    """The data block of a timeline; `view` is what the page shows of it."""
    pieces = pieces_of(recipe)
    uses = [list(uses_of(_at_nothing(piece), recipe, archive)) for piece in pieces]
    baths = list(dict.fromkeys(id_ for found in uses for id_, _ in found))
    keeping = {id_: keeps.base()[0] for id_ in baths if (keeps := archive.mixtures[id_].keeps)}
    parts = lcm(*(n.denominator for n in (*_numbers(pieces, uses), *keeping.values())))

    def whole(minutes: Fraction) -> str:
        return str(int(minutes * parts))

    def ends(reach: Reach) -> list[str]:
        return [whole(reach.low), whole(reach.high)]

    return {
        "recipe": recipe.slug,
        "name": f"{recipe.code} {recipe.title}",
        "perMinute": str(parts),
        "mostPrints": MOST_PRINTS,
        "bright": {"opens": whole(BRIGHT.opens), "closes": whole(BRIGHT.closes)},
        "pieces": [
            {
                "stage": piece.stage,
                "title": piece.title,
                "kind": piece.kind,
                "alone": shown.alone,
                "takes": shown.lasts,
                "untimed": piece.untimed,
                "daylight": piece.daylight,
                "lasts": ends(piece.lasts),
                "summary": summary_of(piece, recipe),
                "remarks": list(remarks_on(piece, recipe)),
                "uses": [{"bath": baths.index(i), "start": ends(u.start), "end": ends(u.end)} for i, u in found],
            }
            for piece, shown, found in zip(pieces, view.pieces, uses, strict=True)
        ],
        "baths": [
            {"name": archive.mixtures[i].name, "keeps": whole(keeping[i]) if i in keeping else None} for i in baths
        ],
        "words": {
            **BATH_WORDS,
            "long day": LONG_DAY,
            "drawn out": DRAWN_OUT,
            "dark": DARK,
            "summer time": SUMMER_TIME,
        },
    }


def _at_nothing(piece: Piece) -> Placed:
    return Placed(piece=piece, print=1, start=NOTHING, end=piece.lasts)


def _numbers(pieces: tuple[Piece, ...], uses: list[_Uses]) -> list[Fraction]:
    reaches = [piece.lasts for piece in pieces]
    reaches += [reach for found in uses for _, use in found for reach in (use.start, use.end)]
    return [end for reach in reaches for end in (reach.low, reach.high)]
