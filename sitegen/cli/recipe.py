"""The recipe a command is about, by its file's name or its code."""

import click

from sitegen.cli.shell import Loaded, no, stop_if_failed, tell
from sitegen.compute.whole import Computed
from sitegen.problems import Refusal, did_you_mean


def of_recipe(name: str, loaded: Loaded) -> tuple[Computed, str]:
    """The recipe asked for; the archive's other mistakes do not stand in its way, its own do."""
    computed = loaded.computed
    if computed is None:
        stop_if_failed(loaded)
        raise AssertionError("an archive is only missing with an error")
    found = next((r for r in computed.archive.recipes if name in (r.slug, r.code)), None)
    file = f"recipes/{found.slug if found else name}.yaml"
    broken = [p for p in loaded.problems.found if p.level == "error"]
    if any(p.at.file == file for p in broken) or (broken and not found):
        tell(loaded)
        raise SystemExit(1)
    if found is None:
        known = {r.slug for r in computed.archive.recipes} | {r.code for r in computed.archive.recipes}
        no(
            Refusal(
                "unknown-recipe",
                f"there is no recipe `{name}`",
                did_you_mean(name, known)
                or "the recipes are: " + ", ".join(sorted(r.slug for r in computed.archive.recipes)),
            )
        )
    if broken:
        click.echo("the archive has errors elsewhere; `trayside proof` lists them", err=True)
    return computed, found.slug
