"""A postcard: picture, a few words and a QR code to the recipe, A6 or 4 by 6 inches, as a tagged PDF."""

from typing import Final, Literal, get_args

import typst

from sitegen.problems import Refusal
from sitegen.read.theme import Theme
from sitegen.render.announce import STANDING, Post
from sitegen.render.pictures import Pictures
from sitegen.render.typesetting import EPOCH, Json, qr_code, set_pdf

Size = Literal["a6", "4x6"]
SIZES: Final[tuple[Size, ...]] = get_args(Size)
_FULL: Final = "the postcard has too many words"


def postcard_pdf(said: Post, size: Size, theme: Theme, pictures: Pictures) -> bytes:
    """The card of a post that has a page; of its cautions as many as fit, whole.

    `Refusal` when its own words do not fit at a size that can be read.
    """
    recipe = said.page
    assert recipe, "a teaser has no page to lead to"
    files = {**theme.print, "main.typ": theme.print["postcard.typ"]}
    card: dict[str, Json] = {
        "language": said.language,
        "size": size,
        "code": recipe.code,
        "title": recipe.title,
        "text": said.text,
        "changed": " ".join(said.changes),
        "cautions": said.cautions,
        "standing": STANDING,
        "studio": said.studio,
        "address": said.address,
        "qr": qr_code(said.address),
        # Numbers, since the setter takes text files only.
        "picture": list(pictures[said.picture.file].whole.content) if said.picture else [],
        "alt": said.picture.alt if said.picture else "",
        "lacking": "",
    }
    try:
        return set_pdf(files, {"postcard.json": card}, (recipe.revised.toordinal() - EPOCH) * 86_400)
    except typst.TypstError as error:
        if _FULL not in str(error):
            raise
        raise Refusal(
            "postcard-too-full",
            f"the words for `{recipe.slug}` do not fit on a postcard",
            f"write a shorter `teaser` in recipes/{recipe.slug}.yaml",
        ) from error
