"""`trayside compile`: recipe files in, an archive of pages and sheets out, one folder an edition."""

from datetime import datetime
from pathlib import Path

import click

from sitegen.cli.building import Asked, build, prepare
from sitegen.cli.passphrases import given_text, look_for_passphrases, passphrases_for, passphrases_option
from sitegen.cli.shell import (
    ARCHIVE_WRONG,
    Loaded,
    archive_option,
    refusals,
    stderr_console,
    stop_if_failed,
    tell,
    this_day,
)
from sitegen.read.theme import read_theme
from sitegen.sealing.given import Given
from sitegen.write import WriteError


@click.command("compile", short_help="Write the archive's pages and sheets.")
@archive_option
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("build"),
    show_default=True,
    metavar="DIR",
    help="Where the editions are written, a folder each.",
)
@click.option(
    "--on",
    "day",
    type=click.DateTime(formats=["%Y-%m-%d"]),
    metavar="DATE",
    help="The day to compile for, by default today: it opens recipes by their `publish from`.",
)
@passphrases_option
def compile_command(folder: Path | None, out: Path, day: datetime | None, secrets_file: Path | None) -> None:
    """Check the archive, then write one folder an edition: pages, calculators, search and PDF sheets.

    Nothing is written while there is an error, and a build that fails leaves the last good one.
    """
    today = day.date() if day else this_day()
    with refusals():
        ready = prepare(folder, today)
        given = _passphrases(ready.loaded, secrets_file)
    stop_if_failed(ready.loaded)
    tell(ready.loaded)
    try:
        for name, count in build(ready, out, read_theme(), stderr_console(), Asked(today=today, given=given)):
            click.echo(f"{name}: {count} files; open {out / name / 'index.html'}")
    except WriteError as error:
        click.echo(f"error[not-written] {error.path}: {error.reason}; what stood there before is as it was", err=True)
        raise SystemExit(ARCHIVE_WRONG) from error


def _passphrases(loaded: Loaded, secrets_file: Path | None) -> Given:
    """The passphrases, after a look whether one stands in the archive; none for an archive with errors."""
    text = given_text(secrets_file, loaded.folder)
    if loaded.archive is None or loaded.problems.failed:
        return {}
    settings = loaded.archive.settings
    given = passphrases_for(settings, text)
    look_for_passphrases(settings, text, loaded.folder, loaded.problems)
    return given
