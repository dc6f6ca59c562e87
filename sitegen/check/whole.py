"""Checking, whole: structure and references first, then the sentences, the hazard blocks and the pairs."""

from sitegen.check.archive import check_archive
from sitegen.check.hazards import check_hazards
from sitegen.check.pairs import check_pairs
from sitegen.check.prose import check_prose
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read.sources import Sources


def check(sources: Sources, problems: Problems) -> Archive | None:
    """The archive, with every problem of every file; None when there is too little to go on with."""
    archive = check_archive(sources, problems)
    if archive is not None:
        check_prose(archive, problems, texts=sources.texts)
        check_hazards(archive, problems)
        check_pairs(archive, problems)
    return archive
