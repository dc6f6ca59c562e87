"""Passphrases at the edge: from the environment or a file outside the archive, never from inside it."""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final, TypeVar

import click

from sitegen.model.archive import Settings
from sitegen.problems import Problems, Refusal
from sitegen.read.anywhere import texts_below
from sitegen.read.words import word_list
from sitegen.sealing.given import HINT, Given, looking_like_one, read_given, standing_in

VARIABLE: Final = "TRAYSIDE_PASSPHRASES"

Decorated = TypeVar("Decorated", bound=Callable[..., Any])


def passphrases_option(function: Decorated) -> Decorated:
    """Adds `--passphrases FILE`."""
    return click.option(
        "--passphrases",
        "secrets_file",
        type=click.Path(path_type=Path, dir_okay=False),
        metavar="FILE",
        help=f"Passphrases of sealed editions, in a file outside the archive ({HINT}). "
        f"Without it, the environment's {VARIABLE} is read.",
    )(function)


def given_text(secrets_file: Path | None, folder: Path) -> str:
    """The lines given, '' for none. `Refusal` for a file inside the archive, or one that cannot be read."""
    if secrets_file is None:
        return os.environ.get(VARIABLE, "")
    if secrets_file.resolve().is_relative_to(folder.resolve()):
        raise Refusal(
            "passphrases-in-archive",
            f"`{secrets_file}` lies in the archive's folder",
            "move it out: what lies in the folder is copied and shared with it",
        )
    try:
        return secrets_file.read_text(encoding="utf-8-sig")
    except (OSError, UnicodeDecodeError) as error:
        raise Refusal(
            "passphrases-not-read", f"`{secrets_file}` cannot be read", "name a text file in UTF-8"
        ) from error


def passphrases_for(settings: Settings, text: str) -> Given:
    """Passphrases by sealed edition; none are needed where none is sealed."""
    return read_given(text, settings, word_list()) if any(a.sealed for a in settings.audiences) else {}


def look_for_passphrases(settings: Settings, text: str, folder: Path, problems: Problems) -> None:
    """Add a problem for every file of the archive that holds a passphrase, or looks as if it did."""
    if not any(a.sealed for a in settings.audiences):
        return
    words = word_list()
    given = read_given(text, settings, words) if text.strip() else {}
    for file, content in texts_below(folder):
        found = standing_in(file, content, given) or looking_like_one(file, content, words)
        if found:
            problems.add(found)
