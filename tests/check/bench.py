"""A bench to try sentences and hazard blocks on: one recipe with real cards, and what is said of it."""

from dataclasses import replace
from functools import cache

from sitegen.check import check_archive
from sitegen.check.hazards import check_hazards
from sitegen.check.prose import check_prose
from sitegen.model.archive import Archive
from sitegen.model.substance import Substance
from sitegen.problems import Problem, Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards

ARCHIVE = """\
title: Bench book
processes: {iron-blue: {name: Iron-blue prints}}
welcome: |
  {welcome}
"""

RECIPE = """\
title: Iron-blue sensitiser
code: IB-07
summary: Two solutions.
process: iron-blue
revision: 3
revised: 2026-03-02
credits: own
{about}mixtures:
  part-a:
    name: Part A
    contains:
      ferric-ammonium-citrate-green: 35 g
      water: to make 200 ml
    mixing:
      - {mixing}
  part-b:
    name: Part B
    makes: 200 ml
    contains:
      potassium-ferricyanide: 10 % w/v
      hydrogen-peroxide-3-percent: 20 drops
      water: to make 200 ml
  working:
    name: Working sensitiser
    makes: 40 ml
    contains:
      part-a: 20 ml
      part-b: 20 ml
{more}needs:
  - {needs}
hazards:
  wear: Gloves and eye protection.
  never: {never}
stages:
  - title: Coat
    steps:
      - do: Brush on [the sensitiser](mixture:working).
      - do: {do}
        look for: {look}
troubles:
  - symptom: Blues wash away
    causes: [{{cause: Too short, remedy: {remedy}}}]
"""


@cache
def shelf() -> tuple[Substance, ...]:
    """All built-in cards, checked once."""
    problems = Problems()
    archive = check_archive(compose_sources(base_cards() | {"archive.yaml": ARCHIVE}, problems), problems)
    assert problems.found == []
    assert archive is not None
    return archive.substances


@cache
def _card_texts() -> dict[str, str]:
    return base_cards()


def recipe(
    *,
    do: str = "Rock the tray.",
    mixing: str = "Stir.",
    about: str = "",
    more: str = "",
    needs: str = "A brush",
    never: str = "Never add acid.",
    look: str = "An even sheen.",
    remedy: str = "Double it.",
) -> str:
    """The recipe with these texts in it, each written in one line."""
    return RECIPE.format(
        do=do, mixing=mixing, about=about, more=more, needs=needs, never=never, look=look, remedy=remedy
    )


def built(*recipes: str, welcome: str = "Come in.", percent: str = "") -> tuple[Archive, dict[str, str]]:
    """The archive that holds these recipes, sound but for what prose and hazards say; and its texts."""
    texts = {"archive.yaml": ARCHIVE.replace("{welcome}", welcome) + percent}
    texts |= {f"recipes/{name}.yaml": text for name, text in zip(("blue", "other"), recipes, strict=False)}
    # The few cards the recipes draw on make the check quick; all of them are named in the sentences.
    cards = {p: t for p, t in _card_texts().items() if p[len("base/") : -len(".yaml")] in " ".join(recipes)}
    problems = Problems()
    archive = check_archive(compose_sources(texts | cards, problems), problems)
    assert {p.code for p in problems.found} <= {"unknown-look-alike"}
    assert archive is not None
    return replace(archive, substances=shelf()), texts


def prose(*recipes: str, welcome: str = "Come in.", percent: str = "") -> tuple[Problem, ...]:
    """What the check of prose says, in order."""
    archive, texts = built(*recipes, welcome=welcome, percent=percent)
    problems = Problems()
    check_prose(archive, problems, texts=texts)
    return problems.in_order()


def hazards(*recipes: str) -> tuple[Problem, ...]:
    """What the check of hazard blocks says, in order."""
    archive, _ = built(*recipes)
    problems = Problems()
    check_hazards(archive, problems)
    return problems.in_order()


def words(problem: Problem, text: str) -> str:
    """The very words of a file that a problem stands under."""
    return text.split("\n")[problem.at.line][problem.at.column : problem.at.end]
