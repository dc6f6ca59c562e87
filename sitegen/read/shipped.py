"""Where the theme, the demo and the starter archive lie: in an installed wheel, or in the checkout."""

from importlib.resources import files
from pathlib import Path


def shipped(*parts: str) -> Path:
    """The path of something that comes with the program, such as `shipped("themes", "card")`.

    A wheel carries the top-level folders inside the package; a checkout has them beside it.
    """
    package = Path(str(files("sitegen")))
    inside = package.joinpath("_shipped", *parts)
    return inside if inside.exists() else package.parent.joinpath(*parts)
