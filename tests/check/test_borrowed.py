"""Borrowed mixtures: what layers and steps of one recipe take from another stands on its bench, too."""

from sitegen.check import check_archive
from sitegen.check.borrowed import borrowed_mixtures
from sitegen.check.hazards import check_hazards
from sitegen.compute.whole import compute
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards

HEAD = """
summary: A print.
process: blue
revision: 1
revised: 2026-03-02
credits: [{work: The mill, relation: own}]
"""

FULL = "wear: Gloves and eye protection., first aid: Rinse with water."

TONER = f"""
title: Toner
code: TN-01
{HEAD}
mixtures:
  soda: {{name: Soda stock, contains: {{sodium-carbonate-decahydrate: 200 g, water: to make 1 l}}}}
  bleach: {{name: Bleach, contains: {{soda: 100 ml, water: to make 1 l}}}}
  brew: {{name: Tea, contains: {{tea: 4 pieces, water: to make 1 l}}}}
hazards: {{{FULL}, never: No acid., air: No dust., disposal: Ask.}}
"""

PRINT = f"""
title: Print
code: IB-01
{HEAD}
mixtures:
  bleach: {{name: Own bleach, contains: {{water: 1 l}}}}
hazards: {{HAZARDS}}
layers:
  - name: one
    tone: {{in: toner/brew}}
stages:
  - title: Work
    layer: one
    steps:
      - do: Slide it into [the bleach](mixture:toner/bleach), then [your own](mixture:bleach).
      - do: Back into [the bleach](mixture:toner/bleach).
"""


def archive(hazards: str) -> Archive:
    problems = Problems()
    texts = {
        "archive.yaml": "title: Mill\nprocesses: {blue: {name: Blue prints}}\n",
        "recipes/print.yaml": PRINT.replace("HAZARDS", hazards),
        "recipes/toner.yaml": TONER,
    }
    found = check_archive(compose_sources(base_cards() | texts, problems), problems)
    assert found is not None, problems.found
    assert not [p for p in problems.found if p.level == "error"], problems.found
    return found


def test_mixtures_of_other_recipes_are_borrowed_once_in_the_order_of_use() -> None:
    found = archive(FULL)
    assert [m.id for m in borrowed_mixtures(found.recipe_named["print"], found)] == ["toner/bleach", "toner/brew"]
    assert borrowed_mixtures(found.recipe_named["toner"], found) == ()


def test_a_borrowed_mixture_is_planned_with_what_goes_into_it() -> None:
    problems = Problems()
    computed = compute(archive(FULL), problems)
    plans = {t.local: t for t in computed.targets["print"]}
    assert list(plans) == ["toner/bleach", "bleach", "toner/brew"]
    assert [m.id for m in plans["toner/bleach"].mixtures] == ["toner/soda", "toner/bleach"]
    assert plans["toner/bleach"].recipe == "print"


def test_the_hazard_block_covers_what_is_borrowed() -> None:
    problems = Problems()
    check_hazards(archive("note: Ask the supplier."), problems)
    asked = [p for p in problems.found if p.level == "error" and p.at.file == "recipes/print.yaml"]
    assert any("sodium carbonate" in f"{p.message} {p.notes}" for p in asked), problems.found
    problems = Problems()
    check_hazards(archive(f"{FULL}, never: No acid into the bleach., air: No dust."), problems)
    assert [p for p in problems.found if p.level == "error" and p.at.file == "recipes/print.yaml"] == []
