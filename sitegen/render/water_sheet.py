"""Water on a printed sheet: at each step that uses water, a line for the archive's first water."""

from collections.abc import Iterator
from dataclasses import replace

from sitegen.compute.water import Advice, WaterPlace, figure, state, water_places
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.model.water import Water
from sitegen.render.sheet_model import SheetStage
from sitegen.render.water import NAMES, default_water
from sitegen.render.wording import spoken


def with_water(stages: tuple[SheetStage, ...], recipe: Recipe, archive: Archive) -> tuple[SheetStage, ...]:
    """The stages of a sheet, a remark added to every step where a rule speaks of the water."""
    water = default_water(archive.settings)
    said = {(p.stage, p.step): _line(p, water) for p in water_places(recipe, archive) if not p.mixture}
    return tuple(
        replace(
            stage,
            steps=tuple(
                replace(step, remarks=(*step.remarks, ("Water", line))) if (line := said.get((at, n))) else step
                for n, step in enumerate(stage.steps, start=1)
            ),
        )
        for at, stage in enumerate(stages, start=1)
    )


def _line(place: WaterPlace, water: Water) -> str:
    """What speaks at a place, in short; '' when nothing does."""
    parts = [part for one in place.advice for part in _parts(one, water)]
    return f"{water.name[:1].upper()}{water.name[1:]}: {'; '.join(parts)}." if parts else ""


def _parts(advice: Advice, water: Water) -> Iterator[str]:
    found = state(advice, water)
    if found == "below":
        return
    if found == "unknown" and advice.measure and advice.over:
        yield f"{NAMES[advice.measure]} not known (if above {advice.over.written}: {advice.brief})"
        return
    yield advice.brief + (" (at times)" if found == "at times" else "")
    if advice.longest:
        yield f"at most {spoken(advice.longest)}"
    ends = figure(advice.acid, water) if advice.acid else None
    if advice.acid and ends:
        amount = ends[0] if ends[0] == ends[1] else "–".join(ends)
        yield f"it takes up {amount} {advice.acid.unit} of {advice.acid.of} a litre (reckoned, not tried)"
