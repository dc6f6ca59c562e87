"""The archive: its settings, recipes and substances, checked and ready to compute."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from fractions import Fraction
from functools import cached_property
from typing import Any

from sitegen.model.amount import Basis
from sitegen.model.edition import Audience, Teased, edition_on, visible
from sitegen.model.recipe import Line, Mixture, Prose, Recipe
from sitegen.model.substance import Form, Substance
from sitegen.model.trial import Trial, newest_first
from sitegen.model.trial_edition import visible_trials
from sitegen.model.water import Water


@dataclass(frozen=True, slots=True, kw_only=True)
class Vessel:
    """A measuring vessel: it holds `holds` ml and is read to `step` ml."""

    holds: Fraction
    step: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Measuring:
    """What the author weighs and measures with: g, ml, drops."""

    balance: Fraction = Fraction(1, 10)
    vessels: tuple[Vessel, ...] = (
        Vessel(holds=Fraction(10), step=Fraction(1, 10)),
        Vessel(holds=Fraction(100), step=Fraction(1)),
        Vessel(holds=Fraction(1000), step=Fraction(10)),
    )
    drops_per_ml: Fraction | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Process:
    """A group of recipes."""

    id: str
    name: str
    summary: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """What `archive.yaml` says."""

    title: str
    studio: str = ""
    summary: str = ""
    address: str = ""
    """Where it is published; in an edition's view, where that edition is."""
    sealed: bool = False
    """Whether what lies at that address is opened with a passphrase."""
    language: str = "en"
    editions: tuple[str, ...] = ("public",)
    audiences: tuple[Audience, ...] = ()
    """What is said of the editions beyond their ids; see `audience`."""
    default_edition: str = "public"
    licence: str = ""
    percent_means: Basis | None = None
    measuring: Measuring = Measuring()
    allowance: Fraction = Fraction(0)
    """Extra mixed for sheets, as a fraction: 0.15 for 15 %."""
    processes: tuple[Process, ...] = ()
    welcome: Prose | None = None
    waters: tuple[Water, ...] = ()
    """The first is the one that advice is for until a reader names another."""

    def audience(self, edition: str) -> Audience:
        """An edition with its name and whether it is sealed."""
        return next(
            (a for a in self.audiences if a.id == edition), Audience(id=edition, name=edition.replace("-", " "))
        )


@dataclass(frozen=True, kw_only=True)  # not slotted: the cached look-ups need a place
class Archive:
    """Everything read and checked; nothing refers to what is not there."""

    settings: Settings
    recipes: tuple[Recipe, ...]
    substances: tuple[Substance, ...]
    teased: tuple[Teased, ...] = ()
    """Recipes that this edition lacks but may name, in the order of their files."""
    trials: tuple[Trial, ...] = ()
    """The journal, in the order of the files, which begin with their day."""

    @cached_property
    def mixtures(self) -> Mapping[str, Mixture]:
        """Every mixture by `recipe/mixture`."""
        return {m.id: m for r in self.recipes for m in r.mixtures}

    @cached_property
    def forms(self) -> Mapping[str, Form]:
        """Every form by its id."""
        return {f.id: f for s in self.substances for f in s.forms}

    @cached_property
    def substance_of(self) -> Mapping[str, Substance]:
        """The card of every form id and of every substance id."""
        return {key: s for s in self.substances for key in (s.id, *(f.id for f in s.forms))}

    @cached_property
    def card_named(self) -> Mapping[str, Substance]:
        """Every card by its substance's id."""
        return {s.id: s for s in self.substances}

    @cached_property
    def recipe_named(self) -> Mapping[str, Recipe]:
        """Every recipe by its slug."""
        return {r.slug: r for r in self.recipes}

    @cached_property
    def teased_at(self) -> Mapping[str, int]:
        """The place of each recipe among those that are teased, by its slug."""
        return {teased.slug: number for number, teased in enumerate(self.teased)}

    @cached_property
    def recipe_coded(self) -> Mapping[str, Recipe]:
        """Every recipe by its code."""
        return {r.code: r for r in self.recipes}

    @cached_property
    def trials_of(self) -> Mapping[str, tuple[Trial, ...]]:
        """The journal's entries by the slug of their recipe, the newest first."""
        found: dict[str, list[Trial]] = {}
        for trial in newest_first(self.trials):
            found.setdefault(trial.recipe, []).append(trial)
        return {slug: tuple(trials) for slug, trials in found.items()}

    @cached_property
    def trial_named(self) -> Mapping[str, Trial]:
        """Every entry of the journal by its slug."""
        return {trial.slug: trial for trial in self.trials}

    @cached_property
    def solved_by(self) -> Mapping[str, tuple[Trial, ...]]:
        """The journal's entries by the slug of the one that solved them, in the order of the files."""
        found: dict[str, list[Trial]] = {}
        for trial in self.trials:
            found.setdefault(trial.solved_by, []).append(trial)
        return {slug: tuple(trials) for slug, trials in found.items() if slug}

    @cached_property
    def worked_out(self) -> dict[object, Any]:
        """What `model.once` keeps for this archive; nothing else reads it."""
        return {}

    def edition(self, name: str, today: date | None = None) -> "Archive":
        """The archive as that edition's readers see it on a day: what is of it or of the editions before it.

        Everything a compile writes is derived from this value, so what is left out here cannot leak. Without
        a day, nothing is opened by its day of publication.
        """
        order = self.settings.editions
        allowed = order[: order.index(name) + 1]
        held = {r.slug: edition_on(r, order, today) in allowed for r in self.recipes}
        kept = tuple(_without_lost_parent(visible(r, allowed), held) for r in self.recipes if held[r.slug])
        used = {line.form for line in _lines(kept)}
        cards = tuple(s for s in self.substances if not s.own or used & {f.id for f in s.forms})
        grouped = {r.process for r in kept}
        processes = tuple(p for p in self.settings.processes if p.id in grouped)
        teased = tuple(
            Teased(slug=r.slug, title=r.title, teaser=r.teaser, audience=self.settings.audience(r.edition))
            for r in self.recipes
            if r.teaser and not held[r.slug]
        )
        waters = tuple(w for w in self.settings.waters if not w.edition or w.edition in allowed)
        settings = replace(_published(self.settings, name), processes=processes, waters=waters)
        trials = visible_trials(self.trials, {r.slug: r for r in kept}, {w.id for w in waters}, allowed)
        return Archive(settings=settings, recipes=kept, substances=cards, teased=teased, trials=trials)

    def used_in(self, substance: Substance) -> tuple[Recipe, ...]:
        """The recipes that name one of the substance's forms."""
        forms = {f.id for f in substance.forms}
        return tuple(r for r in self.recipes if any(line.form in forms for line in _lines((r,))))


def _published(settings: Settings, edition: str) -> Settings:
    """The settings as the edition's readers see them: its own address, and no other edition's.

    A sealed edition without one has none where the archive's address leads to another edition.
    """
    own = settings.audience(edition)
    shared = "" if own.sealed and edition != settings.editions[0] else settings.address
    audiences = tuple(replace(audience, address="") for audience in settings.audiences)
    return replace(settings, address=own.address or shared, sealed=own.sealed, audiences=audiences)


def _lines(recipes: tuple[Recipe, ...]) -> Iterator[Line]:
    for recipe in recipes:
        for mixture in recipe.mixtures:
            yield from mixture.lines


def _without_lost_parent(recipe: Recipe, held: Mapping[str, bool]) -> Recipe:
    """The recipe; where its parent is not held, what was changed stays and the parent's name goes."""
    parent = recipe.derived_from
    if parent is None or held.get(parent.recipe, False):
        return recipe
    return replace(recipe, derived_from=replace(parent, recipe="", compare=()))
