"""`trayside find`: search an archive from the terminal, in the order in which its pages find things."""

import re
import shutil
import sys
from collections.abc import Mapping
from pathlib import Path
from textwrap import fill
from typing import Any, Final

import click

from sitegen.cli.shell import answer, archive_option, json_option, load, no, refusals, stop_if_failed
from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems, Refusal, did_you_mean
from sitegen.render.search_index import shelf
from sitegen.search.query import Query, Word, parse_query
from sitegen.search.rank import Finder, Ranked
from sitegen.search.snippet import Snippet, snippet
from sitegen.search.words import composed

Json = dict[str, Any]
MOST: Final = 1000
"""Results that may be asked for."""
_WITHOUT: Final = re.compile(r"-(?=[^\W\d_]{2})")
_MINUS: Final = "\u2212"
"""The sign, which no option begins with."""


class _Words(click.Command):
    """A command whose words may begin with a minus, as in the field of the pages; options of two letters have two."""

    def parse_args(self, ctx: click.Context, args: list[str]) -> list[str]:
        return super().parse_args(
            ctx, [_WITHOUT.sub(_MINUS, arg, count=1) if _WITHOUT.match(arg) else arg for arg in args]
        )


@click.command("find", cls=_Words, short_help="Search recipes, substances and troubles.")
@click.argument("words", nargs=-1, required=True)
@click.option("--number", metavar="N", type=click.IntRange(1, MOST), default=10, show_default=True, help="How many.")
@click.option("--edition", metavar="NAME", help="As that edition's readers find it; by default everything.")
@archive_option
@json_option
def find_command(
    words: tuple[str, ...], number: int, edition: str | None, folder: Path | None, *, as_data: bool
) -> None:
    """Search for WORDS: half words, household names, formulas, CAS numbers, symptoms.

    \b
    trayside find washing soda
    trayside find toner -silver
    trayside find '"first bath"' --json
    """
    with refusals():
        loaded = load(folder)
    stop_if_failed(loaded)
    assert loaded.archive, "an archive is only missing with an error"
    shards = shelf(compute(_edition(loaded.archive, edition), Problems()))
    finder = Finder(shards.__getitem__)
    typed = " ".join(words).replace(_MINUS, "-")
    query = parse_query(typed)
    ranked = finder.rank(query)
    found = [_found(n, score, finder, ranked, shards) for n, score in ranked.order[:number]]
    if as_data:
        unknown = list(ranked.unknown)
        answer({"query": typed, "count": len(ranked.order), "found": found, "unknown": unknown})
        return
    _tell(found)
    _tell_more(len(found), ranked, query, finder)


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


def _tell(found: list[Json]) -> None:
    """Two lines a result, which only a terminal's width breaks: other programs read whole lines."""
    width = shutil.get_terminal_size().columns if sys.stdout.isatty() else sys.maxsize
    for each in found:
        name = f"{each['code']} {each['title']}".strip()
        click.echo(f"{name}  [{each['kind']}]  {each['path']}")
        if each["snippet"]:
            where = f"{each['where']}: {each['snippet']}"
            click.echo(fill(where, width, initial_indent="    ", subsequent_indent="    ", break_on_hyphens=False))


def _tell_more(shown: int, ranked: Ranked, query: Query, finder: Finder) -> None:
    """What is said beside: words like nothing, how many more there are, and what to ask where there is nothing."""
    count = len(ranked.order)
    if ranked.unknown:
        click.echo("nothing is like: " + ", ".join(ranked.unknown), err=True)
    if shown < count:
        click.echo(f"{shown} of {count} found; `--number {min(count, MOST)}` shows more", err=True)
    if count:
        return
    click.echo("nothing found", err=True)
    texts = [word.text for word in query.words] + [word for row in query.phrases for word in row]
    wider = Query(words=tuple(Word(text=text) for text in texts))
    left = len(finder.rank(wider).order) if query != wider else 0
    if not texts:
        click.echo("  = help: write a word to be found; a minus only leaves out", err=True)
    elif left:
        click.echo(f"  = help: without quotes and minuses there are {left}", err=True)
    else:
        click.echo("  = help: half a word or another name is enough; troubles are found by what is seen", err=True)
