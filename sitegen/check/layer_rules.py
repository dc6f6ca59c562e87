"""Layer rules: what must hold among the layers of a print, so that they fall on each other.

A stage says by `layer:` which one it works on. A wait or a check about drying between the last stage of
a layer and the first of the next lets it dry; nothing else does, as far as can be told.
"""

import re
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Final

from sitegen.check.documents import StageDoc
from sitegen.check.layer_documents import LayerDoc
from sitegen.check.recipes import Draft
from sitegen.model.layers import Size
from sitegen.problems import Problem, Problems, did_you_mean
from sitegen.read.nodes import MapNode

_DRY: Final = re.compile(r"\b(?:dry|dries|dried)\b", re.IGNORECASE)


def _names_differ(draft: Draft, problems: Problems) -> None:
    """A layer is named by the stages that work on it."""
    seen: set[str] = set()
    for n, layer in enumerate(draft.doc.layers):
        if layer.name in seen:
            problems.add(
                Problem(
                    code="duplicate-layer",
                    at=draft.places.value("layers", n, "name"),
                    message=f"the layer `{layer.name}` stands here twice",
                    help="give one of them another name",
                )
            )
        seen.add(layer.name)


_FIELDS: Final[tuple[tuple[str, Callable[[LayerDoc], object]], ...]] = (
    ("faces", lambda layer: layer.negative and layer.negative.faces and layer.negative.faces.down),
    ("top edge", lambda layer: layer.negative and layer.negative.top_edge and _plain(layer.negative.top_edge)),
    ("size", lambda layer: layer.negative and layer.negative.size and _sides(layer.negative.size)),
    ("mirrored", lambda layer: layer.negative and layer.negative.mirrored),
)


def _plain(text: str) -> str:
    return " ".join(text.casefold().split())


def _sides(size: Size) -> tuple[object, object]:
    return size.width, size.height


def _negatives_agree(draft: Draft, problems: Problems) -> None:
    """Films that are laid on one sheet lie alike: the same side down, the same edge up, of one size."""
    for name, of in _FIELDS:
        found = [(n, layer, of(layer)) for n, layer in enumerate(draft.doc.layers) if layer.negative]
        told = [entry for entry in found if entry[2] not in (None, "")]
        if not told:
            continue
        first = told[0]
        for n, layer, value in found:
            if value in (None, ""):
                problems.add(_untold(draft, n, layer, name, first))
            elif value != first[2]:
                problems.add(_disagrees(draft, n, layer, name, first))


def _disagrees(draft: Draft, n: int, layer: LayerDoc, name: str, first: tuple[int, LayerDoc, object]) -> Problem:
    here, there = (_written(draft, at, name) for at in (n, first[0]))
    notes = {
        "top edge": ("what tells the films apart is their `label`",),
        "size": ("write the size before any shrink; what the paper lost goes to `shrink`",),
    }
    return Problem(
        code="negatives-disagree",
        at=draft.places.value("layers", n, "negative", name),
        message=f"`{name}` is `{here}` for the layer `{layer.name}`, and `{there}` for `{first[1].name}`",
        help="write the same for both, or make one of the films anew: the layers would not fall on each other",
        notes=notes.get(name, ()),
    )


def _untold(draft: Draft, n: int, layer: LayerDoc, name: str, first: tuple[int, LayerDoc, object]) -> Problem:
    return Problem(
        code="negative-untold",
        at=draft.places.key("layers", n, "negative"),
        message=f"the layer `{layer.name}` does not say `{name}`, as `{first[1].name}` does",
        help=f"look at the film and write `{name}: …`",
        level="warning",
    )


def _written(draft: Draft, n: int, name: str) -> str:
    node = draft.places.found(("layers", n, "negative", name))[1]
    return str(getattr(node, "text", "")).strip()


def _stages_name_layers(draft: Draft, problems: Problems) -> None:
    """What a stage names is a layer; of several layers, each has its stages."""
    names = [layer.name for layer in draft.doc.layers]
    stages = draft.doc.stages
    for n, stage in enumerate(stages):
        if stage.layer and stage.layer not in names:
            listed = ", ".join(f"`{name}`" for name in names)
            problems.add(
                Problem(
                    code="unknown-layer",
                    at=draft.places.value("stages", n, "layer"),
                    message=f"there is no layer `{stage.layer}`",
                    help=did_you_mean(stage.layer, names)
                    or (f"write one of {listed}" if names else "describe it below `layers`, or delete this line"),
                )
            )
    worked_on = {stage.layer for stage in stages}
    for n, name in enumerate(names):
        if len(names) > 1 and stages and name not in worked_on:
            problems.add(
                Problem(
                    code="layer-without-stage",
                    at=draft.places.value("layers", n, "name"),
                    message=f"no stage works on the layer `{name}`",
                    help=f"write `layer: {name}` below the title of each stage that does",
                    notes=("without it nothing tells whether the layer before is dry",),
                )
            )


def _in_turn(draft: Draft, problems: Problems) -> None:
    """A layer begins when the one before it is done, and dry."""
    at = {layer.name: _stages_of(draft.doc.stages, layer.name) for layer in draft.doc.layers}
    worked = [(name, stages) for name, stages in at.items() if stages]
    for (before, first), (name, then) in pairwise(worked):
        where = draft.places.value("stages", then[0], "layer")
        title = draft.doc.stages[then[0]].title
        if then[0] < first[-1]:
            last = draft.doc.stages[first[-1]].title
            problems.add(
                Problem(
                    code="layer-out-of-turn",
                    at=where,
                    message=f"the layer `{name}` begins in `{title}`, before `{last}` ends the layer `{before}`",
                    help="put the stages, or the layers, into the order in which they are printed",
                )
            )
        elif not any(_lets_dry(stage) for stage in draft.doc.stages[first[-1] : then[0]]):
            last = draft.doc.stages[first[-1]].title
            problems.add(
                Problem(
                    code="layer-on-wet-paper",
                    at=where,
                    message=f"the layer `{name}` begins in `{title}`, and nothing lets `{before}` dry before it",
                    help=f"give `{last}` a wait, such as `then wait: 12-24 h`, or a check that says it is dry",
                    notes=("a film on damp paper sticks, and paper that is still shrinking fits no film",),
                )
            )


def _stages_of(stages: tuple[StageDoc, ...], layer: str) -> list[int]:
    return [n for n, stage in enumerate(stages) if stage.layer == layer]


def _lets_dry(stage: StageDoc) -> bool:
    return bool(stage.then_wait) or any(_DRY.search(check) for check in stage.checks)


def _bleach_before_tone(draft: Draft, problems: Problems) -> None:
    """The alkali of a bleach would take a tone away again: it goes first, in the list and in the steps."""
    for n, layer in enumerate(draft.doc.layers):
        if not layer.bleach or not layer.tone:
            continue
        node = draft.places.found(("layers", n))[1]
        order = [key.text for key, _ in node.entries] if isinstance(node, MapNode) else []
        if order.index("tone") < order.index("bleach"):
            problems.add(_toned_first(draft, layer, "layers", n, "tone"))
            continue
        bleach, tone = (next(_mentions(draft, layer.name, bath.in_), None) for bath in (layer.bleach, layer.tone))
        if bleach and tone and tone < bleach:
            problems.add(_toned_first(draft, layer, "stages", tone[0], "steps", tone[1], "do"))


def _toned_first(draft: Draft, layer: LayerDoc, *at: str | int) -> Problem:
    return Problem(
        code="tone-before-bleach",
        at=draft.places.value(*at),
        message=f"the layer `{layer.name}` is toned before it is bleached",
        help="put the bleach first, in `layers` and in the steps",
        notes=("a bleach takes a tone away again",),
    )


def _mentions(draft: Draft, layer: str, mixture: str) -> Iterator[tuple[int, int]]:
    """The stages and steps of a layer whose sentence links to a mixture, in order."""
    link = re.compile(rf"\]\((?:mixture|amount):(?:{re.escape(draft.slug)}/)?{re.escape(mixture)}\)")
    for n, stage in enumerate(draft.doc.stages):
        for m, step in enumerate(stage.steps):
            if stage.layer == layer and link.search(step.do):
                yield n, m


RULES: Final = (_names_differ, _negatives_agree, _stages_name_layers, _in_turn, _bleach_before_tone)
