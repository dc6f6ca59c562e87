"""Compute: everything a page, a sheet and a command show, worked out once from a checked archive."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from sitegen.compute.batch import Batch, batches
from sitegen.compute.bath_life import mixed_again
from sitegen.compute.plan import Target, targets
from sitegen.compute.strength import Strength, over_solubility, strengths
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.problems import Problem, Problems


@dataclass(frozen=True, slots=True, kw_only=True)
class Computed:
    """An archive (or one edition of it) with its plans, by recipe slug, and strengths, by mixture id."""

    archive: Archive
    batches: Mapping[str, Batch]
    """Every mixture at the size it is written for, by mixture id."""
    targets: Mapping[str, tuple[Target, ...]]
    strengths: Mapping[str, tuple[Strength, ...]]
    warnings: Mapping[str, tuple[str, ...]]


def compute(archive: Archive, problems: Problems) -> Computed:
    """Plans and strengths of every mixture; amounts that do not fit together add problems."""
    found = batches(archive, problems)
    plans = {r.slug: _planned(r, archive, found, problems) for r in archive.recipes}
    planned = {t.id for ts in plans.values() for t in ts}
    held = {i: strengths(found[i], archive, found) for i in found if i in planned}
    warnings = {
        r.slug: tuple(w for m in r.mixtures if m.id in held for w in _over(found[m.id], held[m.id], archive, problems))
        for r in archive.recipes
    }
    return Computed(archive=archive, batches=found, targets=plans, strengths=held, warnings=warnings)


def _planned(recipe: Recipe, archive: Archive, found: Mapping[str, Batch], problems: Problems) -> tuple[Target, ...]:
    again = mixed_again(recipe, archive)
    return tuple(replace(t, again=again.get(t.id, "")) for t in targets(recipe, archive, found, problems))


def _over(batch: Batch, held: tuple[Strength, ...], archive: Archive, problems: Problems) -> tuple[str, ...]:
    """Warn of what cannot dissolve, where the mixture is written and wherever it is scaled."""
    said = []
    for strength in held:
        if strength.g_per_l is None:
            continue
        form, card = archive.forms[strength.of], archive.substance_of[strength.of]
        if words := over_solubility(form, strength.g_per_l, card, archive):
            said.append(f"{batch.mixture.name}: {words}")
            problems.add(
                Problem(
                    code="over-solubility",
                    at=batch.mixture.at,
                    message=f"`{batch.mixture.local}` holds more than dissolves",
                    notes=(words,),
                    help="raise the volume, warm it, or name another form; check the form that is meant",
                    level="warning",
                )
            )
    return tuple(said)
