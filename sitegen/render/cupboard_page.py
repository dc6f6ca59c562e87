"""The cupboard page: every bottle that this edition's recipes imply, on shelves, and why the shelves stand apart."""

from sitegen.compute.cupboard import Bottle, cupboard
from sitegen.render.frame import Frame
from sitegen.render.incompatible import SAID
from sitegen.render.links import mixture_anchor, recipe_path, substance_path
from sitegen.render.page import Page

PATH = "cupboard/index.html"


def cupboard_page(frame: Frame) -> Page:
    """Derived from the edition's own archive: a bottle of a recipe that it lacks is not on it."""
    archive = frame.computed.archive

    def place(bottle: Bottle) -> str:
        """The page that tells of a bottle."""
        if bottle.code:
            slug = bottle.id.partition("/")[0]
            return f"{recipe_path(slug)}#{mixture_anchor(bottle.id, slug)}"
        return f"{substance_path(archive.substance_of[bottle.id].id)}#{bottle.id}"

    return frame.page("cupboard.html", PATH, title="Cupboard", cupboard=cupboard(archive), place=place, said=SAID)
