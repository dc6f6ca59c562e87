"""What can be found of the pages that belong to no recipe: the bench, the cupboard, sheets that age, the registers."""

from collections.abc import Iterator
from typing import Final

from sitegen.model.archive import Archive
from sitegen.render.links import DISPUTES, SHEETS, verdict_path
from sitegen.search.document import Document

_ALWAYS: Final = (
    (
        "Bench",
        "bench/index.html",
        "calculators · dilute by parts · dilute to a strength · dilution · one form for another · swap hydrates · "
        "fill a tray · coat sheets · a bath for many prints · fit a film to paper that has shrunk · "
        "stops more or less · test strip · exposure · through an earlier layer · more or less light · "
        "another distance · long exposure on camera film · water",
        "Sums that belong to no recipe.",
    ),
    (
        "Cupboard",
        "cupboard/index.html",
        "storage · which bottles stand apart · what must not stand together · shelves",
        "Every bottle the recipes need, and which of them stand apart.",
    ),
    (
        "Is my printed sheet current?",
        SHEETS,
        "old sheet · revision · code on a sheet, a bottle or the back of a print · batch code · superseded",
        "What a printed sheet or a label of an earlier revision is today.",
    ),
    (
        "Troubles",
        "troubles/index.html",
        "what went wrong · symptoms · failures · remedies",
        "Every trouble, from what you see.",
    ),
    ("Recently revised", "revised/index.html", "what is new · latest changes · news", "The recipes last revised."),
)


def page_documents(archive: Archive) -> Iterator[Document]:
    """The pages this edition has."""
    found = list(_ALWAYS)
    if any(recipe.disputes for recipe in archive.recipes):
        said = "What handbooks and printers say, and what was found here."
        found.append(("Where sources disagree", DISPUTES, "disputes · contradictions · conflicting claims", said))
    if archive.trials:
        said = "What was tried, and how it came out."
        found.append(("Journal", verdict_path(None), "trials · experiments · notes · diary", said))
    for title, path, names, summary in found:
        yield Document(kind="page", title=title, path=path, texts=(("names", names), ("summary", summary)))
