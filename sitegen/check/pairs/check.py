"""The check of dangerous pairs in every recipe of an archive. What is looked at is in `findings`.

Errors stop the archive; a warning may be answered in the recipe with a reason that is printed. A help for
the author: supplier's safety data sheets, local rules and licensed practice come first.
"""

from sitegen.check.pairs.answers import check_answers, check_intentions, check_not_kept
from sitegen.check.pairs.findings import Standing, standings
from sitegen.check.pairs.wording import code_of, message, notes, remedy
from sitegen.model.archive import Archive
from sitegen.problems import Problem, Problems


def check_pairs(archive: Archive, problems: Problems) -> None:
    """Add every dangerous pair that is neither declared nor answered, and answers that answer nothing."""
    for recipe in archive.recipes:
        found = standings(recipe, archive)
        for standing in found:
            if standing.severity != "note" and not (standing.intended or standing.answer):
                problems.add(_problem(standing))
        check_answers(recipe, found, problems)
        check_intentions(recipe, found, problems)
        check_not_kept(recipe, archive, problems)


def _problem(standing: Standing) -> Problem:
    finding = standing.finding
    return Problem(
        code=code_of(finding),
        at=finding.at,
        message=message(finding),
        help=remedy(standing),
        notes=(*notes(finding.id, finding.rule), "the supplier's safety data sheet comes first"),
        level="error" if standing.severity == "error" else "warning",
    )
