"""Layer documents: the layers of a print of several layers, as fields."""

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document
from sitegen.model.layers import Polarity


class NegativeDoc(Document):
    """The film of a layer and how it lies, its top edge up."""

    label: t.Text | None = Field(None, description="What is written on it.")
    polarity: Polarity | None = Field(None, description="negative or positive.")
    faces: t.Facing | None = Field(None, description="ink side to the coating, or ink side to the light.")
    top_edge: t.Text | None = Field(None, description="How the top edge is told; the same in all layers.")
    size: t.Size | None = Field(None, description="The picture's width and height before any shrink: 180 x 240 mm.")
    marks: t.Texts = Field((), description="Registration marks.")
    mirrored: t.Flag | None = Field(None, description="Whether it was turned left to right before it was printed.")


class ExposeDoc(Document):
    """The exposure of a layer."""

    to: t.Text | None = Field(None, description="The light: sun, UV lamp.")
    for_: t.Time | None = Field(None, description="How long: 8 min.")
    at: t.Length | None = Field(None, description="From how far: 20 cm.")


class BathDoc(Document):
    """A bath that a layer goes into."""

    in_: t.Text = Field(description="The mixture: bleach, or other-recipe/bleach.")
    for_: t.Time | None = Field(None, description="How long: 20-60 s.")
    look_for: t.Text | None = Field(None, description="How to see that it is done.")


class ShrinkDoc(Document):
    """How much the paper has shrunk when this layer is printed, measured."""

    across: t.ShrinkText = Field(description="Along the top edge: 0.33 %.")
    along: t.ShrinkText = Field(description="Down from the top edge: 0.2 %.")


class LayerDoc(Document):
    """One printed layer; its fields stand in the order of the work."""

    name: t.Text = Field(description="What the layer is called.")
    record: t.Text | None = Field(None, description="Which colour record it prints: what is on its film.")
    coat: t.Text | None = Field(None, description="The mixture it is coated with.")
    negative: NegativeDoc | None = Field(None, description="Its negative.")
    shrink: ShrinkDoc | None = Field(None, description="What the paper has lost since the first layer.")
    expose: ExposeDoc | None = Field(None, description="Its exposure.")
    bleach: BathDoc | None = Field(None, description="Its bleach.")
    tone: BathDoc | None = Field(None, description="Its toner; after the bleach.")
