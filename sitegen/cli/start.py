"""`trayside start`: a new archive with one worked recipe and the schemas editors complete it by."""

import json
from importlib.resources import files
from pathlib import Path

import click

from sitegen.cli.shell import ARCHIVE_WRONG, refusals
from sitegen.problems import Refusal
from sitegen.schema import (
    archive_schema,
    dispute_schema,
    recipe_schema,
    substance_schema,
    trial_schema,
    trouble_schema,
)
from sitegen.write import WriteError
from sitegen.write.single import write_new


@click.command("start", short_help="Make a new archive with one worked recipe.")
@click.argument("folder", metavar="DIR", type=click.Path(path_type=Path))
def start_command(folder: Path) -> None:
    """Make a new archive in DIR: its settings, one worked recipe, and schemas for your editor.

    DIR must be new or empty; nothing of yours is ever overwritten.
    """
    with refusals():
        if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
            raise Refusal("folder-not-empty", f"`{folder}` is already in use", "name a new folder")
    try:
        count = write_new(folder.resolve(), starter())
    except WriteError as error:
        click.echo(f"error[not-written] {error.path}: {error.reason}", err=True)
        raise SystemExit(ARCHIVE_WRONG) from error
    click.echo(f"{folder}: {count} files. Next: cd {folder}, then `trayside compile` or `trayside preview --open`")


def starter() -> dict[str, bytes]:
    """Every file of a new archive by its path."""
    kept = files("sitegen").joinpath("data", "start")
    texts = {name: kept.joinpath(*name.split("/")).read_bytes() for name in ("archive.yaml", "recipes/first-blue.yaml")}
    schemas = {
        "recipe": recipe_schema(),
        "archive": archive_schema(),
        "substance": substance_schema(),
        "trouble": trouble_schema(),
        "dispute": dispute_schema(),
        "journal": trial_schema(),
    }
    return texts | {
        f"schema/{name}.schema.json": (json.dumps(schema, ensure_ascii=False, indent=1) + "\n").encode()
        for name, schema in schemas.items()
    }
