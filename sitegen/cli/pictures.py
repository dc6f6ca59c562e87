"""Loading pictures: each file a recipe shows, prepared once, with a problem for each that is no picture."""

from pathlib import Path

from sitegen.model.archive import Archive
from sitegen.problems import Problems, Refusal
from sitegen.render.edition import pictures_of
from sitegen.render.pictures import published


def load_pictures(archive: Archive, folder: Path, problems: Problems) -> dict[str, bytes]:
    """Pictures ready to publish, by their path below `images/`."""
    ready: dict[str, bytes] = {}
    for recipe in archive.recipes:
        for picture in pictures_of(recipe):
            if picture.file not in ready:
                with problems.at(picture.at):
                    ready[picture.file] = published(_content(folder / "images" / picture.file), picture.file)
    return ready


def _content(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError as error:
        reason = (error.strerror or "it cannot be opened").casefold()
        message = f"the picture `{path.name}` cannot be read: {reason}"
        raise Refusal("picture-not-read", message, "check the file and its permissions") from error
