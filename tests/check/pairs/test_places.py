"""Where pairs meet: warmed mixtures, metal, baths in their order, waste."""

import pytest

from sitegen.check.pairs.bath_order import is_wash
from sitegen.check.pairs.metal import metals_needed
from tests.check.pairs.bench import codes, found, mix, recipe, said, severities, stage

STOP = mix("acetic-acid-28-percent 10 ml", "stop")
FIX = mix("sodium-thiosulfate-pentahydrate 20 g", "fix")
SULFIDE = mix("sodium-sulfide-nonahydrate 1 g", "sulfide")
BLUE = mix("potassium-ferricyanide 1 g", "blue")
CITRIC = mix("citric-acid-monohydrate 1 g", "citric")


@pytest.mark.parametrize(
    "step",
    [
        pytest.param("Use [it](mixture:m). @ 41 °C", id="over-40"),
        pytest.param("Boil down [it](mixture:m).", id="words"),
        pytest.param("Simmer, then add [the acid](amount:citric-acid-monohydrate).", id="by-an-amount"),
    ],
)
def test_a_step_that_warms_a_mixture(step: str) -> None:
    made = recipe("potassium-ferricyanide + citric-acid-monohydrate", stages=[stage(step)])
    assert codes(made) == [("pair-warmed", "error")]


@pytest.mark.parametrize("step", ["Use [it](mixture:m). @ 40 °C", "Boil the kettle.", "Never boil [it](mixture:m)."])
def test_a_step_that_does_not(step: str) -> None:
    made = recipe("potassium-ferricyanide + citric-acid-monohydrate", stages=[stage(step)])
    assert codes(made) == [("dangerous-pair", "warning")]


def test_a_pair_is_said_once_and_again_only_where_it_is_warmed() -> None:
    part = mix("potassium-ferricyanide + citric-acid-monohydrate", "part")
    assert codes(recipe(part, mix("part 10 ml"))) == [("dangerous-pair", "warning")]
    warmed = recipe(part, mix("part 10 ml", mixing=["Boil it."]))
    assert codes(warmed) == [("dangerous-pair", "warning"), ("pair-warmed", "error")]


def test_a_step_between_without_a_wash_carries_one_level_less() -> None:
    made = recipe(STOP, FIX, stages=[stage("Into [the stop](mixture:stop).", "Into [the fixer](mixture:fix).")])
    assert severities(made)["X37"] == "note"
    strong = mix("hydrochloric-acid-10-percent", "stop")
    made = recipe(strong, FIX, stages=[stage("Into [the stop](mixture:stop).", "Into [the fixer](mixture:fix).")])
    assert codes(made) == [("baths-unwashed", "warning")]


def test_hydrogen_sulfide_is_carried_as_it_is() -> None:
    made = recipe(STOP, SULFIDE, stages=[stage("In [a](mixture:stop).", "Drain.", "In [b](mixture:sulfide).")])
    assert codes(made) == [("baths-unwashed", "error")]


def test_a_cold_wash_of_prints_in_weak_acid_is_a_warning_and_a_warm_or_strong_one_an_error() -> None:
    def washed(acid: str, at: str) -> str:
        steps = stage("Coat with [a](mixture:blue).", f"Slide into [b](mixture:acid). @ {at}")
        return severities(recipe(BLUE, mix(acid, "acid"), stages=[steps]))["X01"]

    assert washed("hydrochloric-acid-10-percent 1 ml", "20 °C") == "warning"
    assert washed("hydrochloric-acid-10-percent 20 ml", "20 °C") == "error"
    assert washed("hydrochloric-acid-10-percent 1 ml", "60 °C") == "error"


def test_a_blue_print_in_cold_citric_acid_is_practice_and_in_hot_an_error() -> None:
    cold = stage("Coat with [a](mixture:blue).", "Slide into [b](mixture:citric). @ 20 °C")
    hot = stage("Coat with [a](mixture:blue).", "Slide into [b](mixture:citric). @ 60 °C")
    assert severities(recipe(BLUE, CITRIC, stages=[cold]))["X02"] == "note"
    assert codes(recipe(BLUE, CITRIC, stages=[hot])) == [("pair-warmed", "error")]


@pytest.mark.parametrize(
    "between",
    [
        "Wash in running water.",
        "Rinse.",
        "Drain it, then rinse in two changes.",
        "Stop in three fillings of plain water.",
        "Slide through [water](mixture:water).",
    ],
)
def test_a_wash_between_clears(between: str) -> None:
    water = mix("dry: water 1 l", "water")
    steps = stage("In [a](mixture:stop).", between, "In [b](mixture:sulfide).")
    assert codes(recipe(STOP, SULFIDE, water, stages=[steps])) == []


@pytest.mark.parametrize(
    "between",
    ["Do not rinse.", "Wash your hands.", "Rinse the tray.", "Let it drip.", "Slide it over without a rinse."],
)
def test_what_is_no_wash_of_the_print_does_not_clear(between: str) -> None:
    steps = stage("In [a](mixture:stop).", between, "In [b](mixture:sulfide).")
    assert codes(recipe(STOP, SULFIDE, stages=[steps])) == [("baths-unwashed", "error")]


@pytest.mark.parametrize(
    ("do", "clear"),
    [
        ("Leave it in [a](mixture:stop), rinse, then slide it into [b](mixture:sulfide).", True),
        ("Leave it in [a](mixture:stop) and rinse. Slide it into [b](mixture:sulfide).", True),
        ("Wash off [a](mixture:stop) in [b](mixture:sulfide).", False),
        ("Tone in [a](mixture:stop) or [b](mixture:sulfide).", True),
        ("Tone in [a](mixture:stop) and [b](mixture:sulfide).", False),
    ],
)
def test_clauses_of_one_step(do: str, clear: bool) -> None:
    assert (codes(recipe(STOP, SULFIDE, stages=[stage(do)])) == []) == clear


def test_a_stage_named_wash_clears_when_it_links_to_no_bath() -> None:
    first, last = stage("In [a](mixture:stop)."), stage("In [b](mixture:sulfide).")
    assert codes(recipe(STOP, SULFIDE, stages=[first, stage("Twice.", title="Wash"), last])) == []
    named = stage("In [b](mixture:sulfide).", title="Wash and tone")
    assert codes(recipe(STOP, SULFIDE, stages=[first, named])) == [("baths-unwashed", "error")]


def test_the_other_order_is_looked_at_too() -> None:
    steps = stage("In [b](mixture:sulfide).", "In [a](mixture:stop).")
    assert codes(recipe(STOP, SULFIDE, stages=[steps])) == [("baths-unwashed", "error")]


def test_every_bath_since_the_last_wash_counts() -> None:
    salt = mix("sodium-chloride", "salt")
    steps = stage("In [a](mixture:stop).", "In [c](mixture:salt).", "In [b](mixture:sulfide).")
    assert codes(recipe(STOP, SULFIDE, salt, stages=[steps])) == [("baths-unwashed", "error")]


def test_baths_of_other_recipes_and_broken_links() -> None:
    other = recipe(mix("sodium-sulfide-nonahydrate 1 g", "sulfide", slug="o"), slug="o")
    steps = stage("In [a](mixture:stop).", "In [x](mixture:nothing), see [o](recipe:o).", "In [b](mixture:o/sulfide).")
    assert codes(recipe(STOP, stages=[steps]), other) == [("baths-unwashed", "error")]


def test_a_clause_is_a_wash_of_the_print() -> None:
    assert is_wash("Wash in still changes")
    assert not is_wash("rinse the jug")
    assert not is_wash("do not wash it")


@pytest.mark.parametrize(
    ("need", "names"),
    [
        ("Copper plate with bevelled edges", ["copper plate"]),
        ("An old zinc etching plate and a steel wool pad", ["zinc plate", "steel wool"]),
        ("No aluminium pans", []),
        ("Plastic tray, never a copper tray", []),
        ("A container for copper waste", []),
        ("Brush without a metal ferrule, steel rule", []),
    ],
)
def test_metal_that_is_needed(need: str, names: list[str]) -> None:
    assert [one.name for one in metals_needed((need,))] == names


@pytest.mark.parametrize(
    ("id_", "need", "contains", "level"),
    [
        pytest.param("X106", "Zinc plate", "ferric-chloride-40-percent", "warning", id="zinc-in-ferric-chloride"),
        pytest.param("X108", "Aluminium pan", "sodium-hydroxide", "warning", id="aluminium-and-lye"),
        pytest.param("X109", "Aluminium plate", "copper-sulfate-pentahydrate", "warning", id="saline-etch"),
        pytest.param("X55", "Copper bowl", "silver-nitrate", "warning", id="silver-in-copper"),
        pytest.param("X110", "Copper plate", "ferric-chloride-40-percent", "note", id="copper-in-ferric-chloride"),
        pytest.param("X65", "Brass tray", "hydrogen-peroxide-3-percent", "warning", id="peroxide-in-brass"),
    ],
)
def test_metal_meets_what_is_mixed(id_: str, need: str, contains: str, level: str) -> None:
    one = found(recipe(contains, needs=[need]))[id_]
    assert (one.where, one.severity) == ("metal", level)


def test_waste_that_is_not_parted_is_a_warning_once_a_rule() -> None:
    mixtures = (STOP, FIX, CITRIC)
    assert codes(recipe(*mixtures, disposal="Collect everything.")) == [("pair-in-waste", "warning")]
    assert codes(recipe(*mixtures, disposal="Collect the acids apart.")) == []
    assert codes(recipe(*mixtures, disposal="", never="Never pour together acid and hypo.")) == []


def test_waste_is_never_an_error_and_part_and_whole_are_one() -> None:
    assert codes(recipe(STOP, SULFIDE, disposal="Collect it.")) == [("pair-in-waste", "warning")]
    whole = recipe(mix("citric-acid-monohydrate", "a"), mix("a 10 ml + sodium-bicarbonate"), disposal="Collect it.")
    assert codes(whole) == [("dangerous-pair", "warning")]


def test_the_message_says_what_meets_where_and_how_it_is_known() -> None:
    (one,) = said(recipe(STOP, SULFIDE, stages=[stage("In [a](mixture:stop).", "In [b](mixture:sulfide).")]))
    assert one.message == (
        "`acetic acid 28 %` of `stop` goes into `sulfide` with `sodium sulfide, nonahydrate`, and no wash is between: "
        "hydrogen sulfide"
    )
    assert one.notes[-2].startswith("rule X30, sodium sulfide SDSs (read)")
    assert "washes in plain water" in one.help
