"""`trayside trial` starts an entry of the journal; `trayside adopt` puts what one found out into its recipe."""

import difflib
from dataclasses import replace
from pathlib import Path
from typing import Final

import click

from sitegen.check.values import slug_of
from sitegen.check.whole import check
from sitegen.cli.recipe import of_recipe
from sitegen.cli.shell import (
    ARCHIVE_WRONG,
    Loaded,
    archive_option,
    load,
    refusals,
    stop_if_failed,
    tell,
    this_day,
)
from sitegen.compute.adoption import as_revision, as_trouble
from sitegen.compute.new_trial import new_trial
from sitegen.compute.whole import compute
from sitegen.labels.check import check_labels
from sitegen.model.trial import Trial
from sitegen.problems import Problems, Refusal, did_you_mean
from sitegen.read.sources import compose_sources
from sitegen.write import WriteError
from sitegen.write.single import write_several

_MARK: Final = b"\xef\xbb\xbf"
"""A byte order mark, which some editors put before a text and expect again."""


@click.command("trial", short_help="Start an entry of the journal.")
@click.argument("recipe")
@click.option("--title", metavar="TEXT", help="What the entry is called; its file is named after it.")
@archive_option
def trial_command(recipe: str, folder: Path | None, title: str | None) -> None:
    """Start an entry on a trial of RECIPE (its file name without .yaml, or its code).

    The recipe's revision and today's date are filled in, and its figures stand beside as comments. Nothing is ever
    overwritten; `trayside proof` says what is still to be filled in.

    \b
    trayside trial iron-blue --title "A fifth more iron"
    """
    with refusals():
        loaded = load(folder)
        computed, slug = of_recipe(recipe, loaded)
        tried, today = computed.archive.recipe_named[slug], this_day()
        words = title or f"Trial of {tried.code}"
        name = f"journal/{today.isoformat()}-{slug_of(title) if title else slug}.yaml"
        if title is not None and not slug_of(title):
            raise Refusal("title-without-words", f"`{title}` has no letters for a file's name", "write a few words")
        path = loaded.folder / name
        if path.exists():
            raise Refusal("entry-exists", f"there is an entry `{name}` already", "give this one another `--title`")
    _write(loaded, {name: new_trial(tried, computed.archive.settings.waters, today, words)})
    click.echo(f"{path}: fill in what was done otherwise, how it came out and the verdict; then `trayside proof`")


@click.command("adopt", short_help="Put what a trial found out into its recipe.")
@click.argument("entry")
@click.option("--symptom", metavar="TEXT", help="Of a failure: what is seen; by default the entry's title.")
@click.option("--remedy", metavar="TEXT", help="Of a failure: what to do next time.")
@click.option("--show", "only_shown", is_flag=True, help="Show what would be changed, and write nothing.")
@archive_option
def adopt_command(
    entry: str, folder: Path | None, *, symptom: str | None, remedy: str | None, only_shown: bool
) -> None:
    """Put what ENTRY (a file name of journal/) found out into its recipe.

    If it worked, its amounts, times and coverage become the recipe's next revision. If it failed, it becomes a
    trouble of the recipe, with what is suspected as the cause. The rest of both files stays as it is, comments too.
    The whole archive is checked first: nothing is written while anything would be wrong.

    \b
    trayside adopt 2026-10-24-longer-weak-bleach --show
    trayside adopt 2026-06-06-more-iron-in-part-a --remedy "Stay with the recipe's iron."
    """
    loaded = load(folder)
    stop_if_failed(loaded)
    with refusals():
        trial = _named(entry.removesuffix(".yaml").rpartition("/")[2], loaded)
        changed = _changed(trial, loaded, symptom, remedy)
        _checked(changed, loaded)
    for path, text in changed.items():
        before = loaded.sources.texts[path].splitlines()
        for line in difflib.unified_diff(before, text.splitlines(), path, path, lineterm="", n=2):
            click.echo(line)
    if only_shown:
        return
    _write(loaded, changed)
    click.echo(f"written: {', '.join(changed)}")


def _named(slug: str, loaded: Loaded) -> Trial:
    assert loaded.archive, "an archive is only missing with an error"
    trials = {trial.slug: trial for trial in loaded.archive.trials}
    if slug not in trials:
        near = did_you_mean(slug, trials) or "write the file name of an entry in journal/, without `.yaml`"
        raise Refusal("unknown-trial", f"there is no entry `{slug}`", near)
    return trials[slug]


def _changed(trial: Trial, loaded: Loaded, symptom: str | None, remedy: str | None) -> dict[str, str]:
    assert loaded.archive, "an archive is only missing with an error"
    texts = loaded.sources.texts
    if trial.verdict == "open":
        raise Refusal("trial-open", "this entry is not decided", "write `verdict: worked` or `verdict: failed` first")
    if trial.verdict == "worked":
        return as_revision(trial, loaded.archive, texts, this_day())
    if not remedy:
        raise Refusal("remedy-missing", "a trouble needs a remedy", "say what to do next time: `--remedy TEXT`")
    return as_trouble(trial, loaded.archive, texts, symptom=symptom or trial.title, remedy=remedy)


def _checked(changed: dict[str, str], loaded: Loaded) -> None:
    """End with status 1, everything said, when the archive would have an error."""
    problems = Problems()
    before = loaded.sources
    sources = compose_sources(
        {**before.texts, **changed}, problems, pictures=before.pictures, unreadable=before.unreadable
    )
    archive = check(sources, problems)
    if archive:
        check_labels(compute(archive, problems), problems)
    if problems.failed:
        tell(replace(loaded, sources=sources, problems=problems))
        click.echo("nothing was written: the archive would not be sound", err=True)
        raise SystemExit(ARCHIVE_WRONG)


def _write(loaded: Loaded, changed: dict[str, str]) -> None:
    try:
        write_several({loaded.folder / path: _bytes(loaded.folder / path, text) for path, text in changed.items()})
    except WriteError as error:
        click.echo(f"error[not-written] {error.path}: {error.reason}", err=True)
        raise SystemExit(ARCHIVE_WRONG) from error


def _bytes(path: Path, text: str) -> bytes:
    marked = path.is_file() and path.read_bytes().startswith(_MARK)
    return (_MARK if marked else b"") + text.encode()
