"""What every command shares: finding the archive, showing problems, saying no."""

import gc
import json
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any, NoReturn, TypeVar

import click
from rich.console import Console

from sitegen.check.whole import check
from sitegen.compute.whole import Computed, compute
from sitegen.labels.check import check_labels
from sitegen.model.archive import Archive
from sitegen.problems import Problems, Refusal
from sitegen.read import Sources, read_folder
from sitegen.report import as_json, show, styled, summary

DONE, ARCHIVE_WRONG, COMMAND_WRONG = 0, 1, 2

Decorated = TypeVar("Decorated", bound=Callable[..., Any])


def archive_option(function: Decorated) -> Decorated:
    """Adds `--archive DIR`."""
    return click.option(
        "--archive",
        "folder",
        type=click.Path(path_type=Path),
        metavar="DIR",
        help="The archive's folder; by default this one, else content/ below it.",
    )(function)


def json_option(function: Decorated) -> Decorated:
    """Adds `--json`."""
    return click.option("--json", "as_data", is_flag=True, help="Answer as JSON, numbers as decimal strings.")(function)


@dataclass(frozen=True, slots=True, kw_only=True)
class Loaded:
    """An archive as far as it could be read, checked and computed."""

    folder: Path
    sources: Sources
    problems: Problems
    archive: Archive | None
    computed: Computed | None


def find_archive(folder: Path | None) -> Path:
    """The folder named, else this one, else content/ below it. `Refusal` when there is none."""
    if folder is not None:
        return folder
    for place in (Path(), Path("content")):
        if (place / "archive.yaml").is_file():
            return place
    raise Refusal(
        "no-archive-here",
        "there is no archive here: neither archive.yaml nor content/archive.yaml",
        "name it with `--archive DIR`, or make one with `trayside start DIR`",
    )


def load(folder: Path | None) -> Loaded:
    """Read, check and compute; whatever is wrong is in `problems`."""
    place = find_archive(folder)
    problems = Problems()
    with _nothing_thrown_away():
        sources = read_folder(place, problems)
        archive = check(sources, problems)
        computed = compute(archive, problems) if archive else None
        if computed:
            check_labels(computed, problems)
    return Loaded(folder=place, sources=sources, problems=problems, archive=archive, computed=computed)


@contextmanager
def _nothing_thrown_away() -> Iterator[None]:
    """No search for garbage: nearly all that is read stays, and looking through it takes a fifth of the time."""
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


def tell(loaded: Loaded, *, as_data: bool = False) -> None:
    """Print all problems to stderr in order, or as one JSON list to stdout."""
    found = loaded.problems.in_order()
    if as_data:
        click.echo(json.dumps({"problems": [as_json(p) for p in found]}, ensure_ascii=False, indent=2))
        return
    console = stderr_console()
    for problem in found:
        if console.is_terminal:
            console.print(styled(problem, loaded.sources.texts), soft_wrap=True)
            console.print()
        else:
            click.echo(show(problem, loaded.sources.texts) + "\n", err=True)
    if found:
        click.echo(summary(found), err=True)


def stop_if_failed(loaded: Loaded, *, as_data: bool = False) -> None:
    """End with status 1, everything said, when the archive has an error."""
    if loaded.problems.failed:
        tell(loaded, as_data=as_data)
        raise SystemExit(ARCHIVE_WRONG)


def this_day() -> date:
    """Today, where this machine stands."""
    return datetime.now().astimezone().date()


def stderr_console() -> Console:
    """A console on stderr; colour and progress only on a terminal, and never with NO_COLOR."""
    return Console(stderr=True, highlight=False)


def no(refusal: Refusal) -> NoReturn:
    """Say why a question is refused, and end with status 2."""
    click.echo(f"error[{refusal.code}] {refusal.message}", err=True)
    for note in refusal.notes:
        click.echo(f"  = note: {note}", err=True)
    if refusal.help:
        click.echo(f"  = help: {refusal.help}", err=True)
    raise SystemExit(COMMAND_WRONG)


@contextmanager
def refusals() -> Iterator[None]:
    """Turn a `Refusal` raised inside into its message and status 2."""
    try:
        yield
    except Refusal as refusal:
        no(refusal)


def answer(data: dict[str, Any]) -> None:
    """Print a JSON answer."""
    json.dump(data, sys.stdout, ensure_ascii=False, indent=2)
    sys.stdout.write("\n")
