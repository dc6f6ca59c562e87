"""`trayside proof`: check everything, write nothing."""

from pathlib import Path

import click

from sitegen.cli.building import prepare
from sitegen.cli.shell import ARCHIVE_WRONG, archive_option, json_option, refusals, tell


@click.command("proof", short_help="Check everything, write nothing.")
@archive_option
@json_option
def proof_command(folder: Path | None, *, as_data: bool) -> None:
    """Check the whole archive: every file, every amount, every hazard block. Writes nothing.

    With --json the problems are printed as data, for editors.
    """
    with refusals():
        loaded = prepare(folder).loaded
    tell(loaded, as_data=as_data)
    if loaded.problems.failed:
        raise SystemExit(ARCHIVE_WRONG)
    if not as_data and loaded.archive:
        recipes, cards = len(loaded.archive.recipes), len(loaded.archive.substances)
        click.echo(f"{recipes} recipes and {cards} substance cards are sound")
