"""`trayside proof`: check everything, write nothing."""

from pathlib import Path

import click

from sitegen.cli.building import prepare
from sitegen.cli.cupboard import cupboard_data, cupboard_text
from sitegen.cli.explain import explain
from sitegen.cli.passphrases import given_text, look_for_passphrases, passphrases_option
from sitegen.cli.published import published_as_compiled
from sitegen.cli.shell import ARCHIVE_WRONG, answer, archive_option, json_option, refusals, tell, this_day
from sitegen.compute.cupboard import cupboard
from sitegen.compute.trial import moved_on
from sitegen.model.archive import Archive


@click.command("proof", short_help="Check everything, write nothing.")
@archive_option
@json_option
@passphrases_option
@click.option("--explain", "explained", metavar="RECIPE", help="Show how a recipe's labels were derived.")
@click.option("--mixture", "only", metavar="ID", help="With --explain: of this mixture alone.")
@click.option("--cupboard", "shelved", is_flag=True, help="Show every bottle implied, and which stand apart.")
@click.option("--published", "where", metavar="PLACE", help="Compare a folder or a web address with what was compiled.")
@click.option("--edition", "of", metavar="NAME", help="Which edition stands there; by default the widest.")
@click.option(
    "--build",
    type=click.Path(path_type=Path, file_okay=False),
    default=Path("build"),
    show_default=True,
    metavar="DIR",
    help="Where it was compiled.",
)
def proof_command(  # noqa: PLR0913  # one parameter an option
    folder: Path | None,
    secrets_file: Path | None,
    *,
    explained: str | None,
    only: str | None,
    shelved: bool,
    where: str | None,
    of: str | None,
    build: Path,
    as_data: bool,
) -> None:
    """Check the whole archive: every file, every amount, every hazard block. Writes nothing.

    Files that hold a passphrase of a sealed edition are found as well.

    With --json the problems are printed as data, for editors. With --published what is missing, stale or left
    over at a place is told as well, above all what belongs to a higher edition. With --explain each rule, sum and
    threshold behind a recipe's derived labels is shown instead; with --cupboard the bottles that the recipes need or
    keep, on shelves that stand apart, with the reasons.
    """
    with refusals():
        ready = prepare(folder, this_day())
        loaded = ready.loaded
        text = given_text(secrets_file, loaded.folder)
        if loaded.archive:
            look_for_passphrases(loaded.archive.settings, text, loaded.folder, loaded.problems)
        if explained is not None:
            explain(loaded, explained, only, as_data=as_data)
            return
    if shelved and loaded.archive and not loaded.problems.failed:
        _show_cupboard(loaded.archive, as_data=as_data)
        return
    tell(loaded, as_data=as_data)
    if loaded.problems.failed:
        raise SystemExit(ARCHIVE_WRONG)
    if not as_data and loaded.archive:
        recipes, cards = len(loaded.archive.recipes), len(loaded.archive.substances)
        click.echo(f"{recipes} {'recipe' if recipes == 1 else 'recipes'} and {cards} substance cards are sound")
        for trial in moved_on(loaded.archive):
            click.echo(f"journal/{trial.slug}.yaml tried revision {trial.revision}; its recipe has moved on since")
    if where:
        with refusals():
            sound = published_as_compiled(ready, where, build, of, today=this_day())
        if not sound:
            raise SystemExit(ARCHIVE_WRONG)


def _show_cupboard(archive: Archive, *, as_data: bool) -> None:
    found = cupboard(archive)
    if as_data:
        answer(cupboard_data(found))
    else:
        click.echo(cupboard_text(found), nl=False)
