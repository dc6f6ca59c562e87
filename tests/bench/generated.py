"""Generated archives: the starter's recipe, repeated with other names and figures."""

import random
from importlib.resources import files

SEED = 1842


def generated(count: int) -> dict[str, str]:
    """The texts of an archive of `count` recipes, the same on every run."""
    dice = random.Random(SEED)
    start = files("sitegen").joinpath("data", "start")
    recipe = start.joinpath("recipes", "first-blue.yaml").read_text(encoding="utf-8")
    texts = {"archive.yaml": start.joinpath("archive.yaml").read_text(encoding="utf-8")}
    for number in range(count):
        grams = dice.randrange(15, 35)
        texts[f"recipes/blue-{number:05d}.yaml"] = (
            recipe.replace("title: Iron-blue sensitiser", f"title: Iron-blue sensitiser, trial {number}")
            .replace("code: IB-01", f"code: {code(number)}")
            .replace("25 g", f"{grams} g")
        )
    return texts


def code(number: int) -> str:
    """A code of its own for each: AA-00, AA-01 …"""
    letters, digits = divmod(number, 100)
    first, second = divmod(letters, 26)
    return f"{chr(65 + first)}{chr(65 + second)}-{digits:02d}"
