"""Water and recipes: acid against an outside program, states of rules, and where no acid may be worked out."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.check import check_archive
from sitegen.compute.water import Advice, figure, rounded, state, water_places
from sitegen.compute.water_table import acid_per_mmol, water_table
from sitegen.model.archive import Archive
from sitegen.model.water import Reading, Water, parse_reading
from sitegen.problems import Problems
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards
from tests.golden_cases import sound

# pH of a litre after the acid, by PHREEQC 3 (phreeqpython 1.6.2, phreeqc.dat, with the acids' pK added as in our
# table), closed to the air and open to it (log pCO2 -3.4). The mmol of acid are what `acid_per_mmol` gives.
# (pH before, mmol/l of alkalinity as Ca(HCO3)2, acid, mmol of acid, pH closed, pH open)
PHREEQC = [
    ("7.2", "1", "citric-acid-monohydrate", 0.5765, 4.955, 5.069),
    ("7.6", "3", "citric-acid-monohydrate", 1.7295, 4.908, 5.009),
    ("7.8", "5", "citric-acid-monohydrate", 2.8825, 4.881, 4.976),
    ("8.2", "2", "citric-acid-monohydrate", 1.1530, 4.933, 5.032),
    ("7.2", "1", "acetic-acid-vinegar", 1.5030, 4.987, 5.047),
    ("7.6", "3", "acetic-acid-vinegar", 4.5091, 4.970, 5.027),
    ("7.8", "5", "acetic-acid-vinegar", 7.5151, 4.961, 5.017),
    ("7.2", "1", "sulfamic-acid", 0.9572, 5.020, 6.831),
    ("7.8", "5", "sulfamic-acid", 4.7862, 4.972, 7.500),
]
MOLAR = {"citric-acid-monohydrate": 210.139, "acetic-acid-vinegar": 60.052 / 0.05, "sulfamic-acid": 97.093}
# OpenStax, Chemistry 2e, appendix H (github osbooks-chemistry-bundle, modules/m68866), read 2026-11-25.
OPENSTAX = {"acetic": (4.76, 1.8e-5), "carbonic": (6.35, 4.3e-7)}


@pytest.mark.parametrize("row", PHREEQC, ids=lambda row: f"{row[2]} {row[1]}")
def test_the_acid_brings_the_water_to_the_aim(row: tuple[str, str, str, float, float, float]) -> None:
    _, alkalinity, acid, mmol, closed, in_air = row
    assert float(acid_per_mmol(acid) * Fraction(alkalinity)) == pytest.approx(mmol * MOLAR[acid] / 1000, rel=2e-3)
    assert closed == pytest.approx(float(water_table().aim.ph), abs=0.13)
    # Only the weak acids hold it once the air has taken the carbon dioxide: that is why the strong one has a note.
    assert (in_air < 5.1) == (not water_table().acids[acid].note)


@pytest.mark.parametrize(("pk", "constant"), OPENSTAX.values(), ids=OPENSTAX)
def test_constants_agree_with_a_textbook(pk: float, constant: float) -> None:
    assert 10**-pk == pytest.approx(constant, rel=0.06)


def test_a_tooth_of_the_simplest_case_by_hand() -> None:
    # Sulfamic acid gives one proton: 97.09 mg a mmol, less the 4.3 % of bicarbonate left at pH 5 (pK 6.35).
    left = 1 / (1 + 10**1.35)
    assert float(acid_per_mmol("sulfamic-acid")) == pytest.approx(0.097093 * (1 - left), rel=1e-3)


def advice(measure: str | None, over: str | None) -> Advice:
    limit = parse_reading(measure, over) if measure and over else None  # type: ignore[arg-type]  # a measure
    return Advice(rule="r", title="t", says="s", brief="b", source="x", measure=measure, over=limit)  # type: ignore[arg-type]


def water(**readings: str) -> Water:
    found = {m: parse_reading(m, text) for m, text in readings.items()}  # type: ignore[arg-type]  # measures
    return Water(id="w", name="W", readings=found)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("readings", "expected"),
    [
        ({"pH": "7.1"}, "holds"),
        ({"pH": "7"}, "below"),
        ({"pH": "6.5-7"}, "below"),
        ({"pH": "6.5-7.5"}, "at times"),
        ({"pH": "7-7.5"}, "at times"),
        ({"pH": "7.2-7.5"}, "holds"),
        ({"hardness": "20 °dH"}, "unknown"),
        ({}, "unknown"),
    ],
)
def test_a_rule_holds_for_all_of_a_range_a_part_of_it_or_nobody_knows(readings: dict[str, str], expected: str) -> None:
    assert state(advice("pH", "7"), water(**readings)) == expected


def test_a_rule_without_a_figure_is_told_of_every_water() -> None:
    assert state(advice(None, None), water()) == "always"


def test_units_do_not_matter_to_a_rule() -> None:
    rule = advice("hardness", "180 mg/l CaCO3")
    assert state(rule, water(hardness="10 °dH")) == "below"  # 178 mg/l
    assert state(rule, water(hardness="10.2 °dH")) == "holds"  # 182 mg/l
    assert state(rule, water(hardness="18.1 °fH")) == "holds"


@given(st.fractions(0, 2000))
def test_rounding_is_half_up_and_near(value: Fraction) -> None:
    step = Fraction(1, 100) if value < 1 else Fraction(1, 10) if value < 10 else Fraction(1)
    found = Fraction(rounded(value))
    assert -step / 2 < found - value <= step / 2


BLUE = """
title: Blue
code: IB-09
summary: Blue.
process: iron-blue
revision: 1
revised: 2026-03-02
credits: [{work: The mill, relation: own}]
mixtures:
  coat: {name: Coat, coverage: 40 ml/m², contains: {potassium-ferricyanide: 8 g, water: to make 100 ml}}
  bath: {name: Bath, contains: {HELD: 10 g, water: to make 1 l}}
hazards:
  {wear: "Gloves, eye protection", air: No dust., never: "No acid, no bleach, no heat.", first aid: Rinse.,
   disposal: Local rules.}
stages:
  - title: Wash
    steps:
      - {do: "Brush on [the coat](mixture:coat)."}
      STEPS
"""
WASHED = "- {do: Wash., for: 30 min, water: wash}"
BATHED = '- {do: "Lay it in [the bath](mixture:bath)."}'


def archive_of(held: str, *steps: str) -> Archive:
    text = BLUE.replace("HELD", held).replace("STEPS", "\n      ".join(steps))
    problems = Problems()
    sources = compose_sources(
        base_cards() | {"archive.yaml": sound()["archive.yaml"], "recipes/blue.yaml": text}, problems
    )
    archive = check_archive(sources, problems)
    assert archive is not None
    assert not problems.failed, problems.in_order()
    return archive


def alkaline(held: str, *steps: str) -> Advice:
    archive = archive_of(held, *steps)
    found = [a for place in water_places(archive.recipes[0], archive) for a in place.advice]
    return next(a for a in found if a.rule == "blue-alkaline")


def test_a_coated_blue_is_told_of_acid_with_what_to_heed() -> None:
    found = alkaline("sodium-chloride", WASHED)
    assert found.acid is not None
    assert figure(found.acid, water(alkalinity="4 mmol/l")) == ("0.48", "0.48")
    assert figure(found.acid, water(hardness="20 °dH")) is None, "hardness is not alkalinity"
    assert not found.refused
    assert "X02" in found.heed
    assert found.too_long


@pytest.mark.parametrize(
    "held",
    [
        "sodium-thiosulfate-pentahydrate",
        "sodium-sulfite-anhydrous",
        "sodium-metabisulfite",
        "sodium-sulfide-nonahydrate",
        "potassium-thiocyanate",
        "sodium-dithionite",
    ],
)
@pytest.mark.parametrize("steps", [(BATHED, WASHED), (WASHED, BATHED)], ids=["before", "after"])
def test_no_acid_where_the_print_meets_what_acid_must_not_reach(held: str, steps: tuple[str, ...]) -> None:
    found = alkaline(held, *steps)
    assert found.acid is None
    assert "No acid is worked out here" in found.refused


def test_no_acid_before_a_bath_with_a_cyano_complex_in_solution() -> None:
    found = alkaline("potassium-ferrocyanide", WASHED, BATHED)
    assert found.acid is None
    assert "X02" in found.refused


def test_no_acid_into_a_warm_wash_of_a_blue() -> None:
    found = alkaline("sodium-chloride", "- {do: Wash., at: 60 °C, water: wash}")
    assert found.acid is None


def test_a_wash_between_keeps_the_next_bath_away() -> None:
    assert alkaline("sodium-thiosulfate-pentahydrate", WASHED, WASHED, BATHED).acid is not None


@pytest.mark.parametrize("group", ["thiosulfate", "sulfite", "hypochlorite", "sulfide", "dithionite"])
def test_the_table_names_what_acid_must_never_reach(group: str) -> None:
    assert group in water_table().no_acid_with


def test_every_rule_and_acid_of_the_table_can_be_used() -> None:
    table = water_table()
    for id_, rule in table.rules.items():
        assert rule.groups or rule.substances, id_
        assert bool(rule.measure) == bool(rule.over), id_
        assert rule.acid is None or rule.acid in table.acids, id_
        if rule.measure and rule.over:
            assert isinstance(parse_reading(rule.measure, rule.over), Reading)
    assert all(acid_per_mmol(acid) > 0 for acid in table.acids)


def test_silver_that_chloride_throws_down_is_by_molar_mass() -> None:
    archive = archive_of("silver-nitrate", WASHED)
    found = [a for place in water_places(archive.recipes[0], archive) for a in place.advice if a.lost]
    assert [a.rule for a in found] == ["silver-mixing"]
    assert found[0].lost is not None
    # 169.87 / 35.45: 35 mg of chloride and 168 mg of silver nitrate.
    assert figure(found[0].lost, water(chloride="35 mg/l")) == ("168", "168")


def test_cards_that_the_archive_has_cut_down_stop_the_acid() -> None:
    archive = archive_of("sodium-chloride", WASHED)
    less = replace(archive, substances=tuple(s for s in archive.substances if s.id != "citric-acid"))
    found = [a for place in water_places(less.recipes[0], less) for a in place.advice if a.rule == "blue-alkaline"]
    assert [a.acid for a in found] == [None]
    assert "do not name" in found[0].refused
