"""Pre-flight: what to hold which way up before each exposure of a layered print, for pages and for sheets.

Everything here follows from the recipe's layers; what they do not say is asked, never guessed.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from sitegen.compute.shrink import fitted, millimetres, percent
from sitegen.model.layers import Layer, Negative, Shrink
from sitegen.model.recipe import Recipe
from sitegen.render.diagram import Drawing, lying, stack


@dataclass(frozen=True, slots=True, kw_only=True)
class Preflight:
    """One layer's card: `checks` are ticked before its exposure; `number` counts from 1.

    `size` is that of its film; where the paper has shrunk, also the size to print it at.
    """

    number: int
    layer: Layer
    size: str
    drawings: tuple[Drawing, ...]
    checks: tuple[str, ...]


def preflights(recipe: Recipe) -> tuple[Preflight, ...]:
    """The cards of a recipe's layers, in the order of printing."""
    return tuple(_card(n, recipe.layers) for n in range(len(recipe.layers)))


def _card(n: int, layers: tuple[Layer, ...]) -> Preflight:
    layer = layers[n]
    negative = layer.negative
    section = (stack(negative.faces),) if negative and negative.faces else ()
    return Preflight(
        number=n + 1,
        layer=layer,
        size=_size(layer),
        drawings=(*section, lying(negative)) if negative else (),
        checks=tuple(_checks(n, layers)),
    )


def _checks(n: int, layers: tuple[Layer, ...]) -> Iterator[str]:
    layer, before = layers[n], layers[n - 1] if n else None
    if before:
        yield f"The layer “{before.name}” is dry through, and the sheet lies flat."
    if layer.coat:
        yield "The new coating is dry to the touch and cool."
    if layer.negative:
        yield from _of_film(layer.negative)
        yield from _of_size(layer, layers[0])
        yield _of_date(layers)


def _of_date(layers: tuple[Layer, ...]) -> str:
    """Films lose density with age, and two days may differ in scale; a fitted film must wait for the paper."""
    if any(layer.shrink for layer in layers) or sum(1 for layer in layers if layer.negative) < 2:
        return "The date on the film’s rim is read: it is no older than you trust, and its ink is dry."
    return "The dates on the films’ rims are read: all were printed on one day, and their ink is dry."


def _of_film(film: Negative) -> Iterator[str]:
    named = f"This is film {film.label}" if film.label else "This is the right film; it has no label"
    yield f"{named}, a {film.polarity}." if film.polarity else f"{named}. Negative or positive? It is not written down."
    if film.faces is None:
        yield "Which side lies on the coating? It is not written down: decide, and write it on the rim."
    else:
        yield f"The side with the ink lies {'down, on the coating' if film.faces.down else 'up, towards the light'}."
    yield _reading(film)
    if film.top_edge:
        yield f"The film’s top edge ({film.top_edge}) lies at the top edge of the sheet."
    else:
        yield "Which edge is the top? It is not written down: mark it."
    if film.marks:
        yield f"The marks fall on each other at every corner: {'; '.join(_lower(mark) for mark in film.marks)}."
    else:
        yield "There are no registration marks: check the fit by eye at all four corners."


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _reading(film: Negative) -> str:
    """What writing on the film looks like as it lies there; the print will look the same."""
    if film.mirrored is None:
        return "Was the picture mirrored before it was printed on film? It is not written down: look at some writing."
    turned = f"The film was printed {'mirrored' if film.mirrored else 'not mirrored'}"
    match film.reads_right:
        case True:
            return f"{turned}: as it lies, writing reads the right way round, and so will the print."
        case False:
            return f"{turned}: as it lies, writing reads backwards, and so will the print."
        case None:
            return f"{turned}."


def _size(layer: Layer) -> str:
    size = layer.negative.size if layer.negative else None
    if size is None:
        return ""
    if layer.shrink is None:
        return size.written
    to = fitted(size, layer.shrink)
    return f"{size.written}, printed at {millimetres(to.width)} × {millimetres(to.height)} mm"


def _of_size(layer: Layer, first: Layer) -> Iterator[str]:
    size, shrink = (layer.negative.size if layer.negative else None), layer.shrink
    if size and shrink:
        to = fitted(size, shrink)
        ours = f"{millimetres(to.width)} × {millimetres(to.height)} mm where the paper lost {_lost(shrink)}"
        yield f"The film fits this sheet, measured now: {ours}, as ours did."
    elif shrink:
        yield f"The film was printed smaller than the first, as the paper lost {_lost(shrink)} here: measure yours."
    elif size:
        yield f"The film measures {millimetres(size.width)} × {millimetres(size.height)} mm."
    if layer != first and not shrink:
        yield "The marks on the sheet were measured again: has the paper shrunk since the first layer?"


def _lost(shrink: Shrink) -> str:
    return f"{percent(shrink.across)} % across and {percent(shrink.along)} % along"
