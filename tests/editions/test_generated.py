"""Archives made up at random, who may read what made up as well: no edition holds a word of a higher one.

Sheets are left out for speed; they are set from the same values as the pages (`test_leaks.py` unpacks them).
"""

import random
from dataclasses import dataclass, field
from datetime import date, timedelta

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from sitegen.check import check_archive
from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.theme import read_theme
from sitegen.render.site import pages
from tests.editions.planted import LETTERS
from tests.golden_cases import sound

ORDER = ("public", "students", "supporters")
THEME = read_theme()
TODAY = date(2026, 11, 25)
HAZARDS = (
    "hazards: {wear: Eye protection., air: No dust., never: No bleach., first aid: Rinse., disposal: Rules decide.}"
)

BASE = {path: text for path, text in sound().items() if path.startswith("base/")}


@dataclass(slots=True)
class Made:
    """An archive while it is made up: texts, and each mark with the lowest edition that may hold it."""

    draw: random.Random
    texts: dict[str, str] = field(default_factory=dict)
    lowest: dict[str, int] = field(default_factory=dict)
    named: dict[str, int] = field(default_factory=dict)
    """Marks that lower editions may show because the author allows it: titles and teasers."""
    declared: dict[str, int] = field(default_factory=dict)
    """Slug of each recipe and the edition its file names."""

    def mark(self, level: int) -> str:
        word = "".join(self.draw.choice(LETTERS) for _ in range(10))
        self.lowest[word] = level
        return word

    def part(self, level: int) -> tuple[str, int]:
        """An edition for a part of a recipe, as a line of YAML's flow style, and the level it comes to."""
        own = self.draw.randrange(len(ORDER))
        if own < level or self.draw.random() < 0.4:
            return "", level
        return f", edition: {ORDER[own]}", own


def made_up(seed: int, recipes: int) -> Made:
    """Between one and a few recipes that draw on, vary and link to each other."""
    made = Made(draw=random.Random(seed))
    levels = [made.draw.randrange(len(ORDER)) for _ in range(recipes)]
    slugs = []
    for number, declared in enumerate(levels):
        opens = declared > 0 and made.draw.random() < 0.3
        day = TODAY + timedelta(days=made.draw.choice((-9, 0, 1, 400)))
        level = 0 if opens and day <= TODAY else declared
        slug = made.mark(level)
        until = f"publish from: {day}\n" if opens else ""
        recipe(made, slug, number=number, declared=declared, level=level, opens=until, others=slugs)
        slugs.append(slug)
        made.declared[slug] = declared
    made.texts["archive.yaml"] = (
        f"title: Bench book\neditions: [{', '.join(ORDER)}]\nprocesses:\n  toning: {{name: Toning}}\n"
        f"welcome: |\n  Read {' and '.join(f'[this](recipe:{slug})' for slug in slugs)}.\n"
    )
    return made


def recipe(made: Made, slug: str, *, number: int, declared: int, level: int, opens: str, others: list[str]) -> None:
    """One recipe with parts for narrower circles, and a substance of its own now and then."""
    mark = made.mark
    named = declared > 0 and made.draw.random() < 0.5
    title, teaser = mark(level), mark(level) if named else ""
    if named:
        made.named |= {title: level, teaser: level}
    # A part kept back by the declared edition stays back, also when its recipe has been opened.
    note, note_level = made.part(declared)
    stage, stage_level = made.part(declared)
    trouble, trouble_level = made.part(declared)
    cause, cause_level = made.part(max(declared, trouble_level))
    note_level, stage_level, trouble_level, cause_level = (
        at if said else level
        for said, at in ((note, note_level), (stage, stage_level), (trouble, trouble_level), (cause, cause_level))
    )
    cause_level = max(cause_level, trouble_level)
    contains = own_substance(made, level) if made.draw.random() < 0.5 else "sodium-carbonate-anhydrous: 10 g"
    lower = [other for other in others if made.declared[other] <= declared and not opens]
    draws_on = f", {made.draw.choice(lower)}/bath: 5 ml" if lower and made.draw.random() < 0.5 else ""
    parent = made.draw.choice(others) if others and made.draw.random() < 0.5 else ""
    derived = f"derived from: {{recipe: {parent}, changes: {mark(level)}}}\n" if parent else ""
    links = " ".join(f"[it](recipe:{other}) [bath](mixture:{other}/bath)" for other in others)
    made.texts[f"recipes/{slug}.yaml"] = (
        f"title: {title}\ncode: IB-{number + 10}\nsummary: {mark(level)}\nabout: See {links or 'nothing'}.\n"
        f"process: toning\nkeywords: [{mark(level)}]\nedition: {ORDER[declared]}\n{opens}"
        f"{f'teaser: {teaser}' if named else ''}\nrevision: 1\nrevised: 2026-01-02\ncredits: own\n{derived}"
        f"mixtures:\n  bath:\n    name: {mark(level)}\n    makes: 1 l\n"
        f"    contains: {{{contains}, water: to make 1 l{draws_on}}}\n"
        f"    note: {{text: {mark(note_level)}{note}}}\n{HAZARDS}\n"
        f"stages:\n  - {{title: {mark(stage_level)}, steps: [{{do: {mark(stage_level)}}}]{stage}}}\n"
        f"troubles:\n  - {{symptom: {mark(cause_level)}{trouble}, "
        f"causes: [{{cause: {mark(cause_level)}, remedy: {mark(cause_level)}{cause}}}]}}\n"
    )


def own_substance(made: Made, level: int) -> str:
    card = made.mark(level)
    made.texts[f"substances/{card}.yaml"] = (
        f"name: {made.mark(level)}\nstate: solid\nother names: [{made.mark(level)}]\nnote: {made.mark(level)}\n"
        "hazards: {basis: no data, source: nobody looked}\n"
    )
    return f"{card}: 3 g"


def checked(made: Made) -> Archive:
    problems = Problems()
    archive = check_archive(compose_sources(BASE | made.texts, problems), problems)
    assert not problems.failed, [(p.at, p.message) for p in problems.in_order()]
    assert archive
    return archive


# A seed has no smaller one that is simpler: nothing is gained by shrinking, and much time lost.
unshrunk = settings(phases=(Phase.explicit, Phase.reuse, Phase.generate))


@given(seed=st.integers(0, 2**32 - 1), recipes=st.integers(1, 5))
@settings(unshrunk, max_examples=settings().max_examples // 4)  # each compiles three editions
def test_no_edition_holds_a_word_of_a_higher_one(seed: int, recipes: int) -> None:
    made = made_up(seed, recipes)
    archive = checked(made)
    for level, name in enumerate(ORDER):
        computed = compute(archive.edition(name, TODAY), Problems())
        whole = bytearray()
        for page in pages(computed, THEME, name):
            if not page.path.startswith("assets/"):
                whole += page.path.encode() + b"\n" + page.content.lower()
        for word, lowest in made.lowest.items():
            if word not in made.named:
                assert (word[2:9].encode() in whole) == (lowest <= level), f"{name}: {word}"


@given(seed=st.integers(0, 2**32 - 1), recipes=st.integers(2, 6))
@settings(unshrunk)
def test_a_higher_edition_holds_all_that_a_lower_one_holds(seed: int, recipes: int) -> None:
    archive = checked(made_up(seed, recipes))
    slugs = [{r.slug for r in archive.edition(name, TODAY).recipes} for name in ORDER]
    assert slugs[0] <= slugs[1] <= slugs[2] == {r.slug for r in archive.recipes}


@given(seed=st.integers(0, 2**32 - 1), recipes=st.integers(1, 6))
@settings(unshrunk)
def test_what_an_edition_holds_refers_to_nothing_that_it_lacks(seed: int, recipes: int) -> None:
    archive = checked(made_up(seed, recipes))
    for name in ORDER:
        held = archive.edition(name, TODAY)
        lines = [line for r in held.recipes for m in r.mixtures for line in m.lines]
        assert all((line.mixture in held.mixtures) if line.mixture else (line.form in held.forms) for line in lines)
        assert {r.derived_from.recipe for r in held.recipes if r.derived_from} <= {"", *held.recipe_named}
