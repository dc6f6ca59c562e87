"""Loading pictures: each file a recipe shows, prepared once, with a problem for each that is no picture."""

from pathlib import Path
from typing import Final

from sitegen.model.archive import Archive
from sitegen.model.recipe import Pair, Recipe
from sitegen.problems import Problems, Refusal
from sitegen.render.pictures import Published, alike, published
from sitegen.render.shown import pictures_in

MOST_BYTES: Final = 60_000_000
"""Of one picture file; a camera's largest JPEG holds some 40,000,000."""


def load_pictures(archive: Archive, folder: Path, problems: Problems) -> dict[str, Published]:
    """Pictures ready to publish, by their path below `images/`; what the check missed is not said again."""
    ready: dict[str, Published] = {}
    missed = {problem.at for problem in problems.found if problem.code == "picture-missing"}
    for picture in pictures_in(archive):
        if picture.file not in ready and picture.at not in missed:
            with problems.at(picture.at):
                ready[picture.file] = published(_content(folder / "images" / picture.file), picture.file)
    for recipe in archive.recipes:
        for pair in _pairs(recipe):
            with problems.at(pair.after.at):
                _compare(pair, ready)
    return ready


def _pairs(recipe: Recipe) -> tuple[Pair, ...]:
    return tuple(step.compare for stage in recipe.stages for step in stage.steps if step.compare)


def _compare(pair: Pair, ready: dict[str, Published]) -> None:
    before, after = ready.get(pair.before.file), ready.get(pair.after.file)
    if before and after and not alike(before, after):
        one, other = (f"{p.whole.width} × {p.whole.height}" for p in (before, after))
        raise Refusal(
            "pictures-differ",
            f"`{pair.before.file}` and `{pair.after.file}` differ in their proportions: {one} and {other} pixels",
            "crop both alike, so that one can be laid on the other",
        )


def _content(path: Path) -> bytes:
    try:
        if path.stat().st_size > MOST_BYTES:
            raise Refusal(
                "picture-too-large",
                f"the picture `{path.name}` is over {MOST_BYTES // 1_000_000} MB",
                "save it smaller: 3000 pixels along the longer side are plenty",
            )
        return path.read_bytes()
    except OSError as error:
        reason = (error.strerror or "it cannot be opened").casefold()
        message = f"the picture `{path.name}` cannot be read: {reason}"
        raise Refusal("picture-not-read", message, "check the file and its permissions") from error
