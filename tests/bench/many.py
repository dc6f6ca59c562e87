"""Archives of many recipes, made from the demo archive: real sentences, and invented words as they come in texts.

Words follow Zipf's law over thirty thousand invented ones, so that the vocabulary grows as that of real texts
does; half of the sentences stay the demo's. The same on every run.
"""

import random
from collections.abc import Iterator
from dataclasses import replace
from itertools import accumulate
from pathlib import Path

from sitegen.check import check_archive
from sitegen.model.amount import Unscaled
from sitegen.model.archive import Archive
from sitegen.model.recipe import Line, Mixture, Prose, Recipe, Stage, Trouble
from sitegen.problems import Problems
from sitegen.read import read_folder
from tests.bench.generated import code

CONTENT = Path(__file__).parents[2] / "content"
SEED = 1842
VOCABULARY = 30_000
SOUNDS = (
    ("b", "c", "d", "f", "g", "h", "j", "k", "l", "m", "n", "p", "r", "s", "t",
     "v", "w", "br", "ch", "cl", "cr", "dr", "fl", "gr", "pl", "sh", "st", "th", "tr"),
    ("a", "e", "i", "o", "u", "ea", "ou", "ai"),
    ("", "n", "r", "l", "s", "t", "m", "nd", "rt", "ck", "ng", "sh"),
)  # fmt: skip


def demo() -> Archive:
    """The demo archive."""
    problems = Problems()
    archive = check_archive(read_folder(CONTENT, problems), problems)
    assert archive is not None
    assert not problems.failed, problems.found[:3]
    return archive


class Writer:
    """Makes recipes out of the demo's."""

    def __init__(self, archive: Archive) -> None:
        """The demo archive is what the sentences are taken from."""
        self.dice = random.Random(SEED)
        self.words = list(dict.fromkeys(self._word() for _ in range(2 * VOCABULARY)))[:VOCABULARY]
        self.odds = list(accumulate(1 / (rank + 2.7) for rank in range(len(self.words))))
        steps = [s.do.text for r in archive.recipes for stage in r.stages for s in stage.steps]
        self.real = [word for text in steps for word in text.split() if word.isalpha()]
        self.forms = [form.id for card in archive.substances for form in card.forms]

    def _word(self) -> str:
        count = self.dice.choice((1, 2, 2, 3))
        return "".join(self.dice.choice(sounds) for _ in range(count) for sounds in SOUNDS)

    def sentence(self, length: int) -> str:
        """A third of invented words among real ones."""
        invented = self.dice.choices(self.words, cum_weights=self.odds, k=length)
        mixed = (word if self.dice.random() < 0.33 else self.dice.choice(self.real) for word in invented)
        return " ".join(mixed).capitalize() + "."

    def recipe(self, base: Recipe, number: int) -> Recipe:
        """Another recipe like `base`."""
        slug = f"{base.slug}-{number}"
        title = f"{base.title}, {self.sentence(2)[:-1].lower()}"
        return replace(
            base,
            slug=slug,
            code=code(number + 2000),
            title=title,
            summary=self.sentence(14),
            keywords=(*base.keywords[:3], *self.dice.choices(self.words, cum_weights=self.odds, k=3)),
            about=Prose(text=self.sentence(60), at=base.at),
            mixtures=tuple(self._mixture(m, base.slug, slug) for m in base.mixtures),
            stages=tuple(self._stage(stage) for stage in base.stages),
            troubles=tuple(self._trouble(t) for t in base.troubles),
            derived_from=None,
            image=None,
            edition="public",
            status=self.dice.choice(("settled", "settled", "trial", "retired")),
        )

    def _mixture(self, mixture: Mixture, old: str, new: str) -> Mixture:
        lines = [replace(line, mixture=line.mixture.replace(f"{old}/", f"{new}/")) for line in mixture.lines]
        form = self.dice.choice(self.forms)
        if all(line.form != form for line in lines):
            lines.append(
                Line(key=form, amount=Unscaled(words="as needed"), written="as needed", form=form, at=mixture.at)
            )
        return replace(mixture, id=mixture.id.replace(f"{old}/", f"{new}/"), lines=tuple(lines), note=None)

    def _stage(self, stage: Stage) -> Stage:
        texts = (self.sentence(24) if self.dice.random() < 0.5 else _unlinked(step.do.text) for step in stage.steps)
        steps = (
            replace(step, do=Prose(text=text, at=step.do.at), image=None)
            for text, step in zip(texts, stage.steps, strict=True)
        )
        return replace(stage, steps=tuple(steps))

    def _trouble(self, trouble: Trouble) -> Trouble:
        causes = tuple(replace(c, cause=self.sentence(8)) if self.dice.random() < 0.5 else c for c in trouble.causes)
        words = self.sentence(2)[:-1].lower()
        symptom, place = f"{trouble.symptom}, {words}", f"{trouble.id}-{words.replace(' ', '-')}"
        return replace(trouble, id=place, symptom=symptom, causes=causes)


def _unlinked(text: str) -> str:
    return "".join(part.partition(")")[2] if at else part for at, part in enumerate(text.split("](")))


def many(count: int) -> Archive:
    """An archive of that many recipes beside the demo's own."""
    archive = demo()
    writer = Writer(archive)
    bases = archive.recipes
    made = (writer.recipe(bases[number % len(bases)], number) for number in range(count))
    return replace(archive, recipes=tuple(_with(bases, made)))


def _with(bases: tuple[Recipe, ...], made: Iterator[Recipe]) -> Iterator[Recipe]:
    yield from bases
    yield from made
