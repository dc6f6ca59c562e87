"""`trayside announce`: a ready post about a recipe, and a postcard to print."""

from pathlib import Path

import click

from sitegen.cli.building import Ready, prepare
from sitegen.cli.shell import ARCHIVE_WRONG, answer, archive_option, json_option, refusals, stop_if_failed, this_day
from sitegen.model.archive import Archive
from sitegen.model.edition import edition_on
from sitegen.model.recipe import Recipe
from sitegen.problems import Refusal, did_you_mean
from sitegen.read.theme import read_theme
from sitegen.render.announce import WAYS, Post, post, teaser_post, untold
from sitegen.render.postcard import SIZES, postcard_pdf
from sitegen.write import WriteError
from sitegen.write.single import write_new

ENDINGS = {"text": "txt", "markdown": "md", "html": "html"}


@click.command("announce", short_help="A ready post and a postcard for a recipe.")
@click.argument("recipe")
@click.option("--since", type=click.IntRange(min=0), metavar="REVISION", help="The last revision readers were told of.")
@click.option("--edition", metavar="NAME", help="Who reads the post; by default those who may read the recipe.")
@click.option("--as", "way", type=click.Choice(list(WAYS)), default="text", show_default=True, help="What is printed.")
@click.option("--no-picture", is_flag=True, help="A post without a picture.")
@click.option(
    "--out",
    type=click.Path(path_type=Path, file_okay=False),
    metavar="DIR",
    help="Also write the post in all three ways, its picture and postcards (A6, 4x6 in) here.",
)
@archive_option
@json_option
def announce_command(  # noqa: PLR0913  # one parameter an option
    recipe: str,
    *,
    since: int | None,
    edition: str | None,
    way: str,
    out: Path | None,
    folder: Path | None,
    no_picture: bool,
    as_data: bool,
) -> None:
    """Tell people of RECIPE (its file name without .yaml, or its code): title, teaser, what changed, address.

    For readers of an edition that lacks the recipe, only its title and teaser are told.

    \b
    trayside announce iron-blue
    trayside announce iron-blue --since 3 --as markdown --out posts/iron-blue
    """
    with refusals():
        ready = prepare(folder, this_day())
    stop_if_failed(ready.loaded)
    archive = ready.loaded.archive
    assert archive, "problems were looked at first"
    with refusals():
        found = _recipe(archive, recipe)
        said = _post(archive, found, since, edition, pictured=not no_picture)
        files = _files(ready, said) if out else {}
    for revision in untold(found, since) if said.page else ():
        click.echo(
            f"note: nothing says what revision {revision} changed; "
            f"add `changes: [{{revision: {revision}, what: ...}}]` to recipes/{found.slug}.yaml",
            err=True,
        )
    if out:
        _write(out, files)
    if as_data:
        answer({name: render(said) for name, render in WAYS.items()})
    else:
        click.echo(WAYS[way](said), nl=False)


def _recipe(archive: Archive, name: str) -> Recipe:
    found = next((r for r in archive.recipes if name in (r.slug, r.code)), None)
    if found is None:
        known = {word for r in archive.recipes for word in (r.slug, r.code)}
        listed = "the recipes are: " + ", ".join(sorted(r.slug for r in archive.recipes))
        raise Refusal("unknown-recipe", f"there is no recipe `{name}`", did_you_mean(name, known) or listed)
    return found


def _post(archive: Archive, recipe: Recipe, since: int | None, edition: str | None, *, pictured: bool) -> Post:
    """The post as its readers' edition allows it."""
    order, today = archive.settings.editions, this_day()
    own = edition_on(recipe, order, today)
    readers = edition or own
    if readers not in order:
        listed = ", ".join(f"`{name}`" for name in order)
        raise Refusal("unknown-edition", f"there is no edition `{readers}`", f"the editions are {listed}")
    seen = archive.edition(readers, today)
    visible = seen.recipe_named.get(recipe.slug)
    if visible is None:
        return teaser_post(seen, recipe)
    return post(seen, visible, since, teaser=recipe.teaser, pictured=pictured)


def _files(ready: Ready, said: Post) -> dict[str, bytes]:
    """Everything to write, by name; all of it is made before anything is written."""
    theme = read_theme()
    files = {f"post.{ENDINGS[name]}": render(said).encode() for name, render in WAYS.items()}
    if said.picture:
        files[Path(said.picture.file).name] = ready.pictures[said.picture.file].whole.content
    for size in SIZES if said.page else ():
        files[f"postcard-{size}.pdf"] = postcard_pdf(said, size, theme, ready.pictures)
    return files


def _write(out: Path, files: dict[str, bytes]) -> None:
    try:
        write_new(out.resolve(), files)
    except WriteError as error:
        click.echo(f"error[not-written] {error.path}: {error.reason}; what was there stands", err=True)
        raise SystemExit(ARCHIVE_WRONG) from error
    click.echo(f"{out}: {', '.join(sorted(files))}", err=True)
