"""The data blocks hold every number exactly, and nothing a script would have to parse or guess."""

import json
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from sitegen.check import check_archive
from sitegen.compute.molar import molar_mass
from sitegen.compute.notes import WORDS
from sitegen.compute.whole import Computed, compute
from sitegen.model.archive import Archive, Measuring, Settings
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from sitegen.render.browser import bench_json, common_json, plan_json

RECIPE = """
title: Two baths
code: TB-01
summary: For the test only.
process: toning
revision: 1
revised: 2026-01-31
credits: own
mixtures:
  stock:
    name: Stock
    makes: 300 ml
    contains:
      citric-acid-monohydrate: 100 g
      water: to make 300 ml
  working:
    name: Working
    contains:
      stock: 1 part
      water: 2 parts
    coverage: 40-50 ml/m²
hazards:
  wear: Gloves and eye protection.
  air: Do not breathe the dust.
  first aid: Rinse with water.
  disposal: Local rules decide.
  never: [Never taste it.]
"""
ARCHIVE = "title: For the test\nprocesses: {toning: {name: Toning, summary: Baths.}}\nallowance: 15 %\n"


@pytest.fixture(scope="module")
def archive() -> Archive:
    problems = Problems()
    texts = {**base_cards(), "archive.yaml": ARCHIVE, "recipes/two-baths.yaml": RECIPE}
    archive = check_archive(compose_sources(texts, problems), problems)
    assert archive is not None
    assert not problems.failed, problems.in_order()
    return archive


@pytest.fixture(scope="module")
def computed(archive: Archive) -> Computed:
    return compute(archive, Problems())


@pytest.fixture(scope="module")
def plan(computed: Computed) -> dict[str, Any]:
    return plan_json("two-baths", computed.targets["two-baths"], computed.strengths, computed.archive)


def test_ingredients_say_how_they_are_added_up_and_mixtures_are_none(plan: dict[str, Any]) -> None:
    assert plan["things"] == {
        "citric-acid-monohydrate": {"liquid": False, "density": None},
        "water": {"liquid": True, "density": ["499/500", "499/500"]},
    }


def leaves(value: object) -> Iterator[object]:
    if isinstance(value, dict | list | tuple):
        for each in value.values() if isinstance(value, dict) else value:
            yield from leaves(each)
    else:
        yield value


def test_numbers_are_text_so_that_none_passes_through_floating_point(plan: dict[str, Any]) -> None:
    assert not [leaf for leaf in leaves(plan) if isinstance(leaf, int | float) and not isinstance(leaf, bool)]
    assert json.loads(json.dumps(plan)) == json.loads(json.dumps(plan, sort_keys=True))


def test_amounts_that_never_end_stay_fractions(plan: dict[str, Any]) -> None:
    working = next(t for t in plan["targets"] if t["id"] == "two-baths/working")
    stock = working["mixtures"][0]
    assert (stock["makes"], stock["lines"][0]["low"]) == ("100/3", "100/9")
    assert working["coverage"] == ["40", "50"]
    assert working["nominal"] is True
    assert {total["of"] for total in working["totals"]} == {"citric-acid-monohydrate", "water", "two-baths/stock"}


def test_strengths_are_pairs_or_nothing(plan: dict[str, Any]) -> None:
    [citric] = plan["strengths"]["two-baths/stock"]
    assert citric["gPerL"] == ["1000/3", "1000/3"]
    assert citric["vv"] is None


def test_words_and_measures_are_the_programs_own() -> None:
    common = common_json(Settings(title="x", measuring=Measuring(balance=Fraction(1, 100))))
    assert common["words"] == WORDS
    assert (common["balance"], common["dropsPerMl"], common["allowance"]) == ("1/100", "20", "0")
    assert common["papers"]["A4"] == ["297", "210"]
    assert common["ladders"]["metric"]["mass"][0] == {"upto": "10000", "unit": "g", "per": "1", "step": "1/100"}
    assert {"symbol": "oz av", "dimension": "mass", "per": "45359237/1600000"} in common["units"]
    assert {"symbol": "in", "dimension": "length", "per": "127/5"} in common["units"]


def test_drops_are_the_archives_own_where_it_counted_them() -> None:
    settings = Settings(title="x")
    counted = replace(settings, measuring=replace(settings.measuring, drops_per_ml=Fraction(25, 2)))
    assert common_json(counted)["dropsPerMl"] == "25/2"


def test_targets_of_other_recipes_go_along_when_they_are_given(computed: Computed) -> None:
    targets = computed.targets["two-baths"]
    plan = plan_json("other", (), {}, computed.archive, others=targets[:1])
    assert plan["targets"] == []
    assert [t["id"] for t in plan["others"]] == [targets[0].id]


def test_the_bench_knows_every_form_by_all_its_names(archive: Archive) -> None:
    forms = {form["id"]: form for form in bench_json(archive)["forms"]}
    assert set(forms) == set(archive.forms)
    soda = forms["sodium-carbonate-decahydrate"]
    assert soda["molarMass"] == str(molar_mass("Na2CO3.10H2O"))
    assert soda["card"] == "sodium-carbonate"
    assert "sodium carbonate" in [name.lower() for name in soda["called"]]
    assert {"sodium-carbonate", soda["id"], "Na2CO3.10H2O"} <= set(soda["codes"])


def test_what_a_card_does_not_say_is_null_for_the_bench(archive: Archive) -> None:
    for form in bench_json(archive)["forms"]:
        known = archive.forms[form["id"]]
        assert (form["molarMass"] is None) == (not known.formula)
        assert (form["density"] is None) == (known.density is None)
        assert (form["assay"] is None) == (known.assay is None)
