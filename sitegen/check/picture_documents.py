"""Picture documents: pictures, pairs of them and moving ones, as fields of a step or a recipe."""

from pydantic import Field

from sitegen.check import leaves as t
from sitegen.check.document import Document, EditionOf


class PictureDoc(Document):
    """A picture."""

    file: t.Text = Field(description="File name below images/.")
    alt: t.Text = Field(description="What the picture shows, in words, for those who cannot see it.")
    edition: EditionOf = None


class PairDoc(Document):
    """Two pictures of one thing, taken alike, to be compared."""

    before: PictureDoc = Field(description="The picture before.")
    after: PictureDoc = Field(description="The picture after, of the same proportions.")


class MomentDoc(Document):
    """A place in a moving picture."""

    at: t.Mark = Field(description="Minutes and seconds from the start: 1:23.")
    says: t.Text = Field(description="What is seen from there.")


class MovingPictureDoc(Document):
    """A moving picture on the web; it is linked, never embedded."""

    title: t.Text = Field(description="What it is called.")
    address: t.Address = Field(description="Where it can be seen.")
    poster: PictureDoc = Field(description="A still picture that stands for it.")
    marks: tuple[MomentDoc, ...] = Field((), description="What is seen from when on, in order.")
