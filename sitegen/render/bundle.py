"""A bundle: an edition as one zip to hand on, for a USB stick or a download; how it is laid out.

It is open: whoever has the file reads it. It is made afresh from the recipes, never from a build on disk.
"""

from collections.abc import Iterator

from sitegen.check.values import slug_of
from sitegen.model.archive import Archive
from sitegen.problems import Refusal, did_you_mean
from sitegen.read.theme import Theme
from sitegen.render.booklet import has_booklet
from sitegen.render.contents import contents_pdf, sheets_pdf
from sitegen.render.cross import by_title
from sitegen.render.edition import Edition, edition_pages
from sitegen.render.epub import epub
from sitegen.render.frame import frame
from sitegen.render.page import Page
from sitegen.render.pictures import Pictures
from sitegen.render.typesetting import Paper


def edition_named(editions: tuple[Edition, ...], name: str) -> Edition:
    """The edition to bundle. `Refusal` for one that does not exist, or that holds nothing."""
    found = next((edition for edition in editions if edition.name == name), None)
    if found is None:
        known = [edition.name for edition in editions]
        remedy = did_you_mean(name, known) or "the editions are " + ", ".join(f"`{known}`" for known in known)
        raise Refusal("unknown-edition", f"there is no edition `{name}`", remedy)
    if not found.computed.archive.recipes:
        raise Refusal("edition-empty", f"the edition `{name}` holds no recipe", "bundle one that does")
    return found


def bundle_name(archive: Archive, edition: str) -> str:
    """The name of the bundle and of the folder in it."""
    return f"{slug_of(archive.settings.title) or 'archive'}-{edition}"


def bundle(edition: Edition, theme: Theme, pictures: Pictures, paper: Paper) -> Iterator[Page]:
    """Every file of the bundle, lazily: a start page, the printed list, all sheets, the book, the archive."""
    archive = edition.computed.archive
    root = bundle_name(archive, edition.name)
    framed = frame(edition.computed, theme, edition.name)
    start = framed.page(
        "start.html",
        "start.html",
        title="Start here",
        audience=archive.settings.audience(edition.name).name,
        count=len(archive.recipes),
        book=f"{root}.epub",
        booklets=tuple(recipe for recipe in by_title(archive.recipes) if has_booklet(recipe)),
        paper=paper,
    )
    files = (
        start,
        Page(path="contents.pdf", content=contents_pdf(edition, theme, paper)),
        Page(path="sheets.pdf", content=sheets_pdf(edition, theme, paper)),
        Page(path=f"{root}.epub", content=epub(edition, theme, pictures)),
    )
    for page in files:
        yield Page(path=f"{root}/{page.path}", content=page.content)
    for page in edition_pages(edition, theme, pictures):
        yield Page(path=f"{root}/archive/{page.path}", content=page.content)
