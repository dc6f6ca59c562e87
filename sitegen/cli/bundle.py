"""`trayside bundle`: an edition as one zip file to hand on."""

from pathlib import Path

import click

from sitegen.cli.building import prepare
from sitegen.cli.shell import ARCHIVE_WRONG, archive_option, refusals, stop_if_failed, tell, this_day
from sitegen.read.theme import read_theme
from sitegen.render.bundle import bundle, bundle_name, edition_named
from sitegen.render.edition import editions
from sitegen.render.typesetting import Paper
from sitegen.write import WriteError
from sitegen.write.packed import write_zip


@click.command("bundle", short_help="Pack an edition into one file.")
@click.argument("edition")
@click.option(
    "--out",
    type=click.Path(path_type=Path, dir_okay=False),
    metavar="FILE",
    help="Where it is written; by default named after the archive and the edition, here.",
)
@click.option("--paper", type=click.Choice(["a4", "letter"]), default="a4", show_default=True)
@archive_option
def bundle_command(edition: str, out: Path | None, paper: Paper, folder: Path | None) -> None:
    """Pack EDITION into one zip: a start page, the archive, a printed list, all sheets in one PDF, an EPUB.

    It is made afresh from the recipes. It is open, even where the edition is sealed on the web: whoever has the
    file reads it. Nothing is written while there is an error, and a failure leaves the last bundle as it was.
    """
    with refusals():
        ready = prepare(folder, this_day())
    stop_if_failed(ready.loaded)
    tell(ready.loaded)
    archive = ready.loaded.archive
    assert archive, "problems were looked at first"
    with refusals():
        wanted = edition_named(editions(archive, this_day()), edition)
    path = out or Path(f"{bundle_name(archive, edition)}.zip")
    try:
        count = write_zip(path, bundle(wanted, read_theme(), ready.pictures, paper))
    except WriteError as error:
        click.echo(f"error[not-written] {error.path}: {error.reason}; the last bundle stands", err=True)
        raise SystemExit(ARCHIVE_WRONG) from error
    click.echo(f"{path}: {count} files, {path.stat().st_size:,} bytes; unpack it and open start.html")
