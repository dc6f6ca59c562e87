"""The kitchen of a recipe: what each mixture holds and what is done with it, read once for all rules."""

from contextlib import suppress
from dataclasses import dataclass
from functools import cached_property
from typing import Final

from sitegen.check.pairs.judge import Meeting
from sitegen.check.pairs.present import Present, draws_on, is_wet, present
from sitegen.check.pairs.table import Condition, table
from sitegen.check.pairs.texts import tells
from sitegen.check.prose.passages import Passage
from sitegen.model.archive import Archive
from sitegen.model.once import once
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Mixture, Prose, Recipe, Stage, Step
from sitegen.model.reference import find_link, resolve_amount, split_scheme
from sitegen.problems import Refusal

_NEVER_KEPT: Final = ("not kept", "not keep", "not be kept", "never", "at once", "same day", "discard", "throw")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bath:
    """A mixture a sentence links to, and where in the sentence."""

    mixture: str
    start: int


LinkedStep = tuple[Step, tuple[Bath, ...]]


def baths(prose: Prose, recipe: Recipe, archive: Archive) -> tuple[Bath, ...]:
    """The mixtures that `mixture:` and `amount:` links of a text name, in its order; broken links are left out."""
    found: list[Bath] = []
    if "](" not in prose.text:
        return ()
    for link in Passage(field="do", text=prose.text, at=prose.at, markdown=True).links:
        scheme, target = split_scheme(link.address)
        if scheme == "mixture" and (named := find_link(recipe, archive, "mixture", target)):
            found.append(Bath(mixture=named.id, start=link.start))
        elif scheme == "amount":
            with suppress(Refusal):  # said by the check of prose
                found.append(Bath(mixture=resolve_amount(recipe, archive, target).mixture, start=link.start))
    return tuple(found)


@dataclass(frozen=True, kw_only=True)  # not slotted: what is read is kept
class Kitchen:
    """A recipe in its archive."""

    recipe: Recipe
    archive: Archive

    @cached_property
    def held(self) -> dict[str, tuple[Present, ...]]:
        """What every mixture that is met here holds, by id; those of other recipes that steps link to, too."""
        ids = [m.id for m in self.recipe.mixtures]
        ids += [bath.mixture for _, found in self.steps for bath in found]
        return {id_: present(self.archive.mixtures[id_], self.archive) for id_ in ids}

    @cached_property
    def drawn(self) -> dict[str, frozenset[str]]:
        """What every one of those mixtures draws on."""
        return {id_: draws_on(self.archive.mixtures[id_], self.archive) for id_ in self.held}

    @cached_property
    def stages(self) -> tuple[tuple[Stage, tuple[LinkedStep, ...]], ...]:
        """Every stage, its steps with the mixtures they link to."""
        return tuple(
            (stage, tuple((step, baths(step.do, self.recipe, self.archive)) for step in stage.steps))
            for stage in self.recipe.stages
        )

    @cached_property
    def steps(self) -> tuple[LinkedStep, ...]:
        """Every step with the mixtures it links to."""
        return tuple(linked for _, steps in self.stages for linked in steps)

    def steps_with(self, mixture: str) -> tuple[Step, ...]:
        """The steps that link to a mixture."""
        return tuple(step for step, found in self.steps if any(bath.mixture == mixture for bath in found))

    def texts(self, mixture: Mixture) -> tuple[str, ...]:
        """What is said of a mixture: how it is mixed and kept, and the steps that link to it."""
        own = [*(prose.text for prose in mixture.mixing), mixture.store]
        return (*own, *(step.do.text for step in self.steps_with(mixture.id)))

    def tells(self, mixture: Mixture, condition: Condition) -> str:
        """The word or temperature that tells of a condition; '' when nothing does."""
        if word := tells(condition, self.texts(mixture)):
            return word
        for step in self.steps_with(mixture.id):
            if condition.over and step.temperature and step.temperature.base()[1] > condition.over.base()[1]:
                return "the temperature of a step"
        if condition.kept_over and mixture.keeps and mixture.keeps.base()[1] > condition.kept_over.base()[1]:
            return "how long it is kept"
        return ""

    def meeting(self, mixture: Mixture) -> Meeting:
        """How its ingredients meet in a mixture."""
        return Meeting(
            company=frozenset(group for one in self.held[mixture.id] for group in one.groups),
            wet=is_wet(mixture, self.archive),
            warmed=bool(self.tells(mixture, table().conditions["warmed"])),
            kept=keeps_longer(mixture, table().session),
            texts=self.texts(mixture),
        )


@once
def kitchen_of(recipe: Recipe, archive: Archive) -> Kitchen:
    """The one kitchen of a recipe, for every rule of every check and page."""
    return Kitchen(recipe=recipe, archive=archive)


def keeps_longer(mixture: Mixture, session: Quantity) -> bool:
    """Whether a mixture is kept longer than that; a text on storing without a time counts, unless it forbids it."""
    if mixture.keeps:
        return mixture.keeps.base()[1] > session.base()[1]
    return bool(mixture.store) and not any(words in mixture.store.casefold() for words in _NEVER_KEPT)
