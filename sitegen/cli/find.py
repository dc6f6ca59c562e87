"""`trayside find`: search an archive from the terminal, in the order in which its pages find things."""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click

from sitegen.cli.shell import answer, archive_option, json_option, load, no, refusals, stop_if_failed
from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems, Refusal, did_you_mean
from sitegen.render.search_index import shelf
from sitegen.search.query import parse_query
from sitegen.search.rank import Finder, Ranked
from sitegen.search.snippet import Snippet, snippet
from sitegen.search.words import composed

Json = dict[str, Any]


@click.command("find", short_help="Search recipes, substances and troubles.")
@click.argument("words", nargs=-1, required=True)
@click.option("--number", metavar="N", type=click.IntRange(1, 1000), default=10, show_default=True, help="How many.")
@click.option("--edition", metavar="NAME", help="As that edition's readers find it; by default everything.")
@archive_option
@json_option
def find_command(
    words: tuple[str, ...], number: int, edition: str | None, folder: Path | None, *, as_data: bool
) -> None:
    """Search for WORDS: half words, household names, formulas, CAS numbers, symptoms.

    \b
    trayside find washing soda
    trayside find '"first bath" -silver' --json
    """
    with refusals():
        loaded = load(folder)
    stop_if_failed(loaded)
    assert loaded.archive, "an archive is only missing with an error"
    shards = shelf(compute(_edition(loaded.archive, edition), Problems()))
    finder = Finder(shards.__getitem__)
    typed = " ".join(words)
    ranked = finder.rank(parse_query(typed))
    found = [_found(n, score, finder, ranked, shards) for n, score in ranked.order[:number]]
    if as_data:
        unknown = list(ranked.unknown)
        answer({"query": typed, "count": len(ranked.order), "found": found, "unknown": unknown})
        return
    _tell(found, ranked)


def _edition(archive: Archive, name: str | None) -> Archive:
    editions = archive.settings.editions
    if name is not None and name not in editions:
        no(
            Refusal(
                "unknown-edition",
                f"there is no edition `{name}`",
                did_you_mean(name, editions) or "the editions are: " + ", ".join(editions),
            )
        )
    return archive.edition(name or editions[-1])


def _found(number: int, score: int, finder: Finder, ranked: Ranked, shards: Mapping[str, Any]) -> Json:
    kind, title, code, path, texts, _ = finder.document(number)
    fields = shards["index"]["fields"]
    where = snippet(((name, composed(text)) for name, text in texts), ranked.meant, list(fields))
    return {
        "kind": kind,
        "title": title,
        "code": code,
        "path": path,
        "score": str(score),
        "where": fields[where.field] if where else "title",
        "snippet": _marked(where) if where else "",
    }


def _marked(found: Snippet) -> str:
    """The passage with its words between asterisks."""
    return "".join(f"*{text}*" if at % 2 else text for at, text in enumerate(found.stretches))


def _tell(found: list[Json], ranked: Ranked) -> None:
    for each in found:
        name = f"{each['code']} {each['title']}".strip()
        click.echo(f"{name}  [{each['kind']}]  {each['path']}")
        if each["snippet"]:
            click.echo(f"    {each['where']}: {each['snippet']}")
    if ranked.unknown:
        click.echo("nothing is like: " + ", ".join(ranked.unknown), err=True)
    if not found:
        click.echo("nothing found", err=True)
