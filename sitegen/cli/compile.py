"""`trayside compile`: recipe files in, an archive of pages and sheets out, one folder an edition."""

from pathlib import Path

import click

from sitegen.cli.building import build, prepare
from sitegen.cli.shell import ARCHIVE_WRONG, archive_option, refusals, stderr_console, stop_if_failed, tell
from sitegen.read.theme import read_theme
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
def compile_command(folder: Path | None, out: Path) -> None:
    """Check the archive, then write one folder an edition: pages, calculators, search and PDF sheets.

    Nothing is written while there is an error, and a build that fails leaves the last good one.
    """
    with refusals():
        ready = prepare(folder)
    stop_if_failed(ready.loaded)
    tell(ready.loaded)
    try:
        for name, count in build(ready, out, read_theme(), stderr_console()):
            click.echo(f"{name}: {count} files; open {out / name / 'index.html'}")
    except WriteError as error:
        click.echo(f"error[not-written] {error.path}: {error.reason}; the last good build stands", err=True)
        raise SystemExit(ARCHIVE_WRONG) from error
