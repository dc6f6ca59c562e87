"""A post about a new or revised recipe, ready to paste: as plain text, Markdown and HTML.

For readers of a lower edition only what archive.yaml lets them see goes in: the title and the teaser.
"""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from markupsafe import Markup

from sitegen.model.archive import Archive
from sitegen.model.recipe import Picture, Recipe
from sitegen.problems import Refusal
from sitegen.render.address import address_of
from sitegen.render.frame import revised_text
from sitegen.render.links import picture_path, recipe_path
from sitegen.render.warned import gravest

STANDING: Final = (
    "Read the hazards first. The supplier's safety data sheets, your local rules and licensed practice come first."
)
_MARKS: Final = re.compile(r"([\\`*_\[\]<>|~])")
_FIRST: Final = re.compile(r"^(\d*)([#+\-.)=])")
"""What would begin a heading, a list or a rule."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Post:
    """What a post says; '' and () for what it leaves out. A post that only teases has no `page`."""

    head: str
    title: str
    text: str
    page: Recipe | None = None
    language: str = "en"
    changes: tuple[str, ...] = ()
    dated: str = ""
    picture: Picture | None = None
    picture_address: str = ""
    address: str = ""
    studio: str = ""
    cautions: tuple[str, ...] = ()
    """The gravest of the recipe's hazards, for a card that is read without its page."""


def post(archive: Archive, recipe: Recipe, since: int | None, *, teaser: str, pictured: bool) -> Post:
    """The post for those who may read the recipe; `archive` is the edition they read, `recipe` as it has it.

    `since` is the last revision they were told of, 0 for none; without it, the one before this. `Refusal` when
    there is nothing newer, or no picture where one is wanted.
    """
    told = recipe.revision - 1 if since is None else since
    if told >= recipe.revision:
        raise Refusal(
            "nothing-new",
            f"`{recipe.slug}` is at revision {recipe.revision}: there is nothing after {told}",
            f"name an earlier one, or raise `revision` in recipes/{recipe.slug}.yaml",
        )
    if pictured and recipe.image is None:
        raise Refusal(
            "picture-missing",
            f"`{recipe.slug}` has no picture for its post",
            f"add `image: {{file: ..., alt: ...}}` to recipes/{recipe.slug}.yaml, or ask with --no-picture",
        )
    picture = recipe.image if pictured else None
    return Post(
        head="New recipe" if told == 0 else "Revised recipe",
        title=f"{recipe.code} {recipe.title}",
        text=teaser or recipe.summary,
        page=recipe,
        language=archive.settings.language,
        changes=_changes(archive, recipe, told),
        dated=f"Revision {recipe.revision}, {revised_text(recipe)}",
        picture=picture,
        picture_address=address_of(archive.settings, picture_path(picture.file)) if picture else "",
        address=address_of(archive.settings, recipe_path(recipe.slug)),
        studio=archive.settings.studio,
        cautions=gravest(recipe, archive),
    )


def teaser_post(archive: Archive, recipe: Recipe) -> Post:
    """The post for readers of an edition that lacks the recipe. `Refusal` where it may not be named there."""
    teased = next((t for t in archive.teased if t.slug == recipe.slug), None)
    if teased is None or not teased.teaser:
        raise Refusal(
            "no-teaser",
            f"`{recipe.slug}` may not be named to readers of that edition",
            f"add a `teaser` to recipes/{recipe.slug}.yaml, or post it where its own readers are",
        )
    return Post(
        head=f"New for {teased.audience.name}",
        title=teased.title,
        text=teased.teaser,
        language=archive.settings.language,
        studio=archive.settings.studio,
    )


def untold(recipe: Recipe, since: int | None) -> tuple[int, ...]:
    """The revisions after `since` of which no change is written down; the first revision needs none."""
    told = recipe.revision - 1 if since is None else since
    written = {change.revision for change in recipe.changes}
    return tuple(n for n in range(max(told + 1, 2), recipe.revision + 1) if n not in written) if told else ()


def _changes(archive: Archive, recipe: Recipe, told: int) -> tuple[str, ...]:
    """What is different: from the recipe it varies when it is new, from the revisions told of when it is not."""
    if told == 0:
        parent = recipe.derived_from
        named = archive.recipe_named.get(parent.recipe) if parent else None
        lead = f"Varied from {named.code} {named.title}: " if named else "Varied from another recipe: "
        return (f"{lead}{parent.changes}",) if parent else ()
    newer = sorted((c for c in recipe.changes if c.revision > told), key=lambda c: c.revision)
    return tuple(f"Revision {c.revision}: {c.told}" for c in newer)


def as_text(said: Post) -> str:
    """The post as plain text."""
    blocks = [f"{said.head}: {said.title}"]
    if said.picture:
        blocks.append(f"[Picture: {said.picture.file}. {said.picture.alt}]")
    blocks.append(said.text)
    if said.changes:
        blocks.append("What changed\n" + "\n".join(f"- {change}" for change in said.changes))
    blocks += [line for line in (said.dated, STANDING, said.address, said.studio) if line]
    return "\n\n".join(blocks) + "\n"


def as_markdown(said: Post) -> str:
    """The post as CommonMark; what the author typed stays text."""
    blocks = [f"## {_plain(said.head)}: {_plain(said.title)}"]
    if said.picture:
        blocks.append(f"![{_plain(said.picture.alt)}](<{said.picture_address or said.picture.file}>)")
    blocks.append(_plain(said.text))
    if said.changes:
        blocks.append("**What changed**\n\n" + "\n".join(f"- {_plain(change)}" for change in said.changes))
    blocks += [_plain(line) for line in (said.dated, STANDING) if line]
    if said.address:
        blocks.append(f"<{said.address}>")
    if said.studio:
        blocks.append(_plain(said.studio))
    return "\n\n".join(blocks) + "\n"


def as_html(said: Post) -> str:
    """The post as a fragment of HTML."""
    blocks = [Markup("<h2>{}: {}</h2>").format(said.head, said.title)]
    if said.picture:
        source = said.picture_address or said.picture.file
        blocks.append(Markup('<p><img src="{}" alt="{}"></p>').format(source, said.picture.alt))
    blocks.append(Markup("<p>{}</p>").format(said.text))
    if said.changes:
        rows = Markup("\n").join(Markup("<li>{}</li>").format(change) for change in said.changes)
        blocks.append(Markup("<h3>What changed</h3>\n<ul>\n{}\n</ul>").format(rows))
    blocks += [Markup("<p>{}</p>").format(line) for line in (said.dated, STANDING) if line]
    if said.address:
        blocks.append(Markup('<p><a href="{0}">{0}</a></p>').format(said.address))
    if said.studio:
        blocks.append(Markup("<p>{}</p>").format(said.studio))
    return "\n".join(blocks) + "\n"


WAYS: Final[dict[str, Callable[[Post], str]]] = {"text": as_text, "markdown": as_markdown, "html": as_html}


def _plain(text: str) -> str:
    """The text with what Markdown would read as a mark escaped, and nothing more: not every reader takes escapes."""
    marked = _MARKS.sub(r"\\\1", " ".join(text.split())).replace("&", "&amp;")
    return _FIRST.sub(r"\1\\\2", marked)
