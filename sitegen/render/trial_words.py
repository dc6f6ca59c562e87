"""A trial in words: what was changed and by how much, how old each bottle was, what the verdict is called."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Final

from sitegen.compute.rounding import Shown, to_step
from sitegen.compute.trial import Age, Ends, change_in_percent, measured
from sitegen.model.amount import Absolute, Amount, FillUp, Unscaled, format_amount
from sitegen.model.archive import Archive
from sitegen.model.quantity import exact_number, exact_text
from sitegen.model.recipe import Mixture, Recipe
from sitegen.model.steps import find_step
from sitegen.model.trial import ChangedAmount, ChangedFigure, Trial
from sitegen.model.units import to_base
from sitegen.problems import Refusal
from sitegen.render.links import mixture_path, recipe_path, water_place
from sitegen.render.wording import NO_BREAK, shown_text, spoken

_TENTH: Final = Fraction(1, 10)


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeWords:
    """One changed figure. `of` is what it is a figure of, `way` a path with its fragment or ''; `was` may be ''."""

    of: str
    way: str
    was: str
    then: str
    by: str

    def sentence(self) -> str:
        """In one piece, for lists."""
        instead = f" instead of {self.was}" if self.was else ""
        by = f" ({self.by})" if self.by and "end" not in self.by else ""
        return f"{self.of}: {self.then}{instead}{by}"


def changes(trial: Trial, archive: Archive) -> tuple[ChangeWords, ...]:
    """Every figure that was other than the recipe's, in the order of the entry."""
    recipe = archive.recipe_named[trial.recipe]
    return (
        *(_amount(change, archive) for change in trial.amounts),
        *(_time(change, recipe) for change in trial.times),
        *(_coverage(change, recipe) for change in trial.coverage),
    )


def _amount(change: ChangedAmount, archive: Archive) -> ChangeWords:
    mixture = archive.mixtures.get(change.mixture)
    measuring = archive.settings.measuring
    return ChangeWords(
        of=_line_name(change, mixture, archive) if mixture else change.target,
        way=mixture_path(mixture.id) if mixture else "",
        was=amount_words(change.was, measured(change.was, measuring)) if change.was else "",
        then=amount_words(change.then, measured(change.then, measuring)),
        by=percent_words(change_in_percent(change.was, change.then)),
    )


def _line_name(change: ChangedAmount, mixture: Mixture, archive: Archive) -> str:
    line = next(line for line in mixture.lines if line.key == change.key)
    name = archive.forms[line.form].name if line.form else archive.mixtures[line.mixture].name
    return f"{name[:1].upper()}{name[1:]} in {mixture.name}"


def amount_words(amount: Amount, shown: Shown | None) -> str:
    """An amount as it is measured, with the exact figure where rounding hides some of it."""
    if shown is None or not isinstance(amount, Absolute | FillUp):
        return format_amount(amount).replace("-", "–" if not isinstance(amount, Unscaled) else "-")
    lead = "to make " if isinstance(amount, FillUp) else ""
    text = shown_text(shown).replace(" ", NO_BREAK)
    read = (to_base(Fraction(shown.low), shown.unit), to_base(Fraction(shown.high), shown.unit))
    exact = "" if read == amount.quantity.base() else f", exactly {spoken(amount.quantity)}"
    return f"{lead}{text}{exact}"


def percent_words(ends: Ends | None) -> str:
    """A change in percent to a tenth, with its sign; both ends where they were changed differently."""
    if ends is None:
        return ""
    low, high = (_signed(value) for value in ends)
    return low if low == high else f"lower end {low}, upper end {high}"


def _signed(value: Fraction) -> str:
    tenths = to_step(abs(value), _TENTH)
    about = "" if tenths == abs(value) else "≈ "
    sign = "+" if value > 0 else "−" if value < 0 else "±"
    return f"{about}{sign}{exact_text(tenths)}{NO_BREAK}%"


def _time(change: ChangedFigure, recipe: Recipe) -> ChangeWords:
    name, way = change.target, ""
    try:
        place = find_step(change.target, [(stage.title, len(stage.steps)) for stage in recipe.stages])
        name = f"{recipe.stages[place.stage - 1].title}, step {place.step}"
        way = f"{recipe_path(recipe.slug)}#stage-{place.stage}-step-{place.step}"
    except Refusal:  # a step of a revision that is left behind: it keeps the name it had
        way = ""
    return _figure(change, name, way)


def _coverage(change: ChangedFigure, recipe: Recipe) -> ChangeWords:
    mixture = recipe.mixture(change.target)
    name = f"Coverage of {mixture.name if mixture else change.target}"
    way = mixture_path(mixture.id) if mixture else ""
    return _figure(change, name, way)


def _figure(change: ChangedFigure, name: str, way: str) -> ChangeWords:
    return ChangeWords(
        of=name,
        way=way,
        was=spoken(change.was),
        then=spoken(change.then),
        by=percent_words(change_in_percent(change.was, change.then)),
    )


def humidity_words(humidity: tuple[Fraction, Fraction] | None) -> str:
    """Humidity in percent, or ''."""
    if humidity is None:
        return ""
    low, high = (exact_number(value) for value in humidity)
    return f"{low if low == high else f'{low}–{high}'}{NO_BREAK}%"


def conditions(trial: Trial, archive: Archive) -> tuple[tuple[str, str, str], ...]:
    """What it was made with and in, as far as it is known: name, text, and where more is told of it or ''."""
    told = trial.conditions
    found = (
        ("Paper", told.paper, ""),
        ("Light", told.lamp, ""),
        ("Room", ", ".join(filter(None, (spoken(told.temperature), _air(trial)))), ""),
        ("Water", water_words(trial, archive), water_place(told.place) if told.place else ""),
        *(("Also", text, "") for text in told.other),
    )
    return tuple((name, text, way) for name, text, way in found if text)


def water_words(trial: Trial, archive: Archive) -> str:
    """Which water it was: the name of one of the archive's waters, or the entry's own words."""
    told = trial.conditions
    return next((water.name for water in archive.settings.waters if water.id == told.place), told.water)


def _air(trial: Trial) -> str:
    said = humidity_words(trial.conditions.humidity)
    return f"{said} humidity" if said else ""


def age_words(age: Age) -> str:
    """How old a bottle was on the day, and whether it was past its keeping, as far as that can be told."""
    old = "mixed on the day" if age.days == 0 else f"{age.days} {'day' if age.days == 1 else 'days'} old"
    if age.keeps is None:
        return f"{old}; how long it keeps is not written down"
    keeps = f"keeps {spoken(age.keeps)}"
    if age.past and age.end:
        return f"{old}, past its keeping: it {keeps}, so to {age.end.isoformat()} at the shorter end"
    if age.past:
        return f"{old}, past its keeping: it {keeps}"
    if age.past is None:
        return f"{old}; it {keeps}, and the day alone does not tell whether that was over"
    return f"{old}, within its keeping: it {keeps}"
