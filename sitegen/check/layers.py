"""Layers: from a checked document to the domain's layer, and the mixtures it names.

Which layers go together is `layer_rules`.
"""

from collections.abc import Iterator, Mapping

from sitegen.check.ingredients import Pantry, Reference, resolve
from sitegen.check.layer_documents import BathDoc, LayerDoc, NegativeDoc
from sitegen.model.layers import Bath, Exposure, Layer, Negative, Shrink
from sitegen.problems import Problem, Problems
from sitegen.read.nodes import ListNode, MapNode, TextNode, text_at


def layer_references(slug: str, root: MapNode, pantry: Pantry, problems: Problems) -> tuple[Reference, ...]:
    """The mixtures that a recipe's layers are coated with, bleached and toned in; problems for what is none."""
    layers = root.get("layers")
    entries = layers.items if isinstance(layers, ListNode) else ()
    found = []
    for n, layer in enumerate(entries):
        for node in _baths(layer) if isinstance(layer, MapNode) else ():
            where = Reference(recipe=slug, owner=_owner(slug, n), key=node.text, at=node.at)
            reference = resolve(where, None, pantry, problems)
            if reference.form:
                problems.add(_substance(reference))
            found.append(reference)
    return tuple(found)


def _owner(slug: str, n: int) -> str:
    return f"{slug}/layers:{n}"


def _baths(layer: MapNode) -> Iterator[TextNode]:
    for node in (text_at(layer, "coat"), *(text_at(layer.get(name), "in") for name in ("bleach", "tone"))):
        if node and node.text.strip():
            yield node


def _substance(reference: Reference) -> Problem:
    return Problem(
        code="mixture-expected",
        at=reference.at,
        message=f"`{reference.key}` is a substance; a mixture was expected here",
        help="write the short name of one of this recipe's `mixtures`, or `other-recipe/mixture`",
    )


def layer_of(slug: str, n: int, doc: LayerDoc, references: Mapping[tuple[str, str], Reference]) -> Layer:
    """The domain's layer; every mixture that it names must be resolved."""

    def mixture(key: str) -> str:
        return references[_owner(slug, n), key].mixture

    def bath(found: BathDoc | None) -> Bath | None:
        return Bath(mixture=mixture(found.in_), lasts=found.for_, look_for=found.look_for or "") if found else None

    expose, shrink = doc.expose, doc.shrink
    return Layer(
        name=doc.name,
        record=doc.record or "",
        coat=mixture(doc.coat) if doc.coat else "",
        negative=_negative(doc.negative) if doc.negative else None,
        expose=Exposure(to=expose.to or "", lasts=expose.for_, distance=expose.at) if expose else None,
        bleach=bath(doc.bleach),
        tone=bath(doc.tone),
        shrink=Shrink(across=shrink.across, along=shrink.along) if shrink else None,
    )


def _negative(doc: NegativeDoc) -> Negative:
    return Negative(
        label=doc.label or "",
        polarity=doc.polarity,
        faces=doc.faces,
        top_edge=doc.top_edge or "",
        size=doc.size,
        marks=doc.marks,
        mirrored=doc.mirrored,
    )
