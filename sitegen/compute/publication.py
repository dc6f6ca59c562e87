"""Publication: which recipes their day has opened. The day is given by the command line; no clock is read."""

from datetime import date

from sitegen.model.archive import Archive
from sitegen.problems import Problem, Problems


def publication_passed(archive: Archive, today: date, problems: Problems) -> None:
    """Warn of days of publication that have come: the file still says `supporters`, the recipe is open."""
    for recipe in archive.recipes:
        if recipe.publish_from and recipe.publish_from <= today:
            lowest = archive.settings.editions[0]
            problems.add(
                Problem(
                    code="publish-from-passed",
                    at=recipe.publish_from_at or recipe.at,
                    message=f"this recipe is open to `{lowest}` since {recipe.publish_from.isoformat()}",
                    help=f"write `edition: {lowest}` and delete `publish from`, so that the file says so",
                    level="warning",
                )
            )
