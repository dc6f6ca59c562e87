"""What the check makes of sound files, and what it stays silent about."""

from datetime import date
from fractions import Fraction

import pytest

from sitegen.model.amount import Absolute
from sitegen.model.archive import Archive
from sitegen.model.dilution import Dilution
from sitegen.model.quantity import Quantity
from sitegen.model.recipe import Recipe
from tests.golden_cases import run, sound

RECIPE = "recipes/recipe.yaml"
SODA = "sodium-carbonate-anhydrous: 10 g"


def archive_of(texts: dict[str, str]) -> Archive:
    archive, problems = run(texts)
    assert problems == ()
    assert archive is not None
    return archive


def changed(old: str, new: str) -> dict[str, str]:
    text = sound()[RECIPE]
    assert old in text
    return sound() | {RECIPE: text.replace(old, new, 1)}


def recipe_of(old: str, new: str) -> Recipe:
    return archive_of(changed(old, new)).recipe_named["recipe"]


def codes(texts: dict[str, str]) -> list[tuple[str, str]]:
    return [(p.at.file, p.code) for p in run(texts)[1]]


def test_a_recipe_is_what_its_file_says() -> None:
    recipe = archive_of(sound()).recipe_named["recipe"]
    assert (recipe.code, recipe.revision, recipe.revised) == ("IB-07", 3, date(2026, 3, 2))
    assert (recipe.edition, recipe.status) == ("public", "settled")
    (mixture,) = recipe.mixtures
    assert mixture.id == "recipe/bath"
    assert mixture.keeps == Quantity(low=Fraction(6), high=Fraction(12), unit="months")
    soda, water = mixture.lines
    assert (soda.key, soda.form, soda.mixture) == ("sodium-carbonate-anhydrous",) * 2 + ("",)
    assert soda.written == "10 g"
    assert soda.amount == Absolute(quantity=Quantity(low=Fraction(10), high=Fraction(10), unit="g"))
    assert (water.form, water.written) == ("water", "to make 1 l")
    assert recipe.troubles[0].id == "nothing-happens"


def test_the_long_form_names_the_form() -> None:
    recipe = recipe_of(SODA, "sodium-carbonate: {amount: 10 g, form: decahydrate, why: cheap, optional: yes}")
    line = recipe.mixtures[0].lines[0]
    assert (line.key, line.form) == ("sodium-carbonate", "sodium-carbonate-decahydrate")
    assert (line.written, line.why, line.optional) == ("10 g", "cheap", True)


def test_add_last_moves_a_line_to_the_end() -> None:
    recipe = recipe_of(SODA, "sodium-carbonate-anhydrous: {amount: 10 g, add: last}")
    assert [line.key for line in recipe.mixtures[0].lines] == ["water", "sodium-carbonate-anhydrous"]


def test_a_lone_text_stands_for_a_list_in_the_hazard_block() -> None:
    assert recipe_of("wear: [eye protection]", "wear: eye protection").hazards.wear == ("eye protection",)


def test_usual_dilutions_are_parts() -> None:
    recipe = recipe_of("    keeps:", "    dilute: [1+9, 1 + 1/2]\n    keeps:")
    assert recipe.mixtures[0].dilute == (
        Dilution(stock=Fraction(1), diluent=Fraction(9)),
        Dilution(stock=Fraction(1), diluent=Fraction(1, 2)),
    )


def test_a_card_of_the_archive_takes_the_place_of_the_built_in_one() -> None:
    card = "name: Rain water\nstate: liquid\nhazards: {basis: no data, source: the butt}\n"
    water = archive_of(sound() | {"substances/water.yaml": card}).substance_of["water"]
    assert (water.name, water.own) == ("Rain water", True)


def test_a_form_has_what_its_substance_has_unless_it_says_otherwise() -> None:
    soda = archive_of(sound()).substance_of["sodium-carbonate"]
    dry, crystals = soda.forms
    assert (dry.name, dry.formula, dry.state) == ("sodium carbonate, anhydrous", "Na2CO3", "solid")
    assert (crystals.id, crystals.names) == ("sodium-carbonate-decahydrate", ("washing soda",))
    assert soda.solubility[0].form == "sodium-carbonate-anhydrous"


def test_a_mixture_of_another_recipe_is_found() -> None:
    other = sound()[RECIPE].replace("IB-07", "IB-08").replace(SODA, "recipe/bath: 10 ml")
    archive = archive_of(sound() | {"recipes/other.yaml": other})
    assert archive.recipe_named["other"].mixtures[0].lines[0].mixture == "recipe/bath"


def drawing_on(broken: str) -> dict[str, str]:
    """A sound recipe that draws on `stock`, whose file is the given text."""
    other = sound()[RECIPE].replace("IB-07", "IB-08").replace(SODA, "stock/bath: 10 ml")
    return sound() | {"recipes/other.yaml": other, "recipes/stock.yaml": broken}


@pytest.mark.parametrize(
    ("broken", "code"),
    [
        pytest.param("[", "yaml-bracket-open", id="unreadable"),
        pytest.param("title: Stock\ntitle: Stock\n", "duplicate-key", id="no-tree"),
        pytest.param(sound()[RECIPE].replace("IB-07", "IB-09").replace("10 g", "10 gg"), "unknown-unit", id="faulty"),
    ],
)
def test_nothing_follows_from_a_recipe_that_has_its_own_problem(broken: str, code: str) -> None:
    texts = drawing_on(broken)
    assert codes(texts) == [("recipes/stock.yaml", code)]
    archive, _ = run(texts)
    assert archive is not None
    assert [recipe.slug for recipe in archive.recipes] == ["recipe"], "what draws on it is left out, too"


@pytest.mark.parametrize("broken", ["[", "name: soda\nstate: solidd\nhazards: {basis: no data, source: x}\n"])
def test_nothing_follows_from_a_card_that_has_its_own_problem(broken: str) -> None:
    found = codes(sound() | {"substances/sodium-carbonate.yaml": broken})
    assert {file for file, _ in found} == {"substances/sodium-carbonate.yaml"}
    assert len(found) == 1


@pytest.mark.parametrize("settings", ["", "[", "title: x\ncolour: y\n", "title: x\nprocesses: blue\n"])
def test_nothing_follows_from_broken_settings(settings: str) -> None:
    archive, problems = run(sound() | {"archive.yaml": settings})
    assert archive is None
    assert {p.at.file for p in problems if p.code != "unknown-process"} == {"archive.yaml"}


def test_a_missing_archive_file_is_told_by_the_reader_alone() -> None:
    texts = sound()
    del texts["archive.yaml"]
    assert run(texts) == (None, ())


def test_a_recipe_with_a_fault_still_hears_of_its_unknown_ingredients() -> None:
    texts = changed(SODA, "sodium-karbonate: 10 gg")
    assert codes(texts) == [(RECIPE, "unknown-ingredient"), (RECIPE, "unknown-unit")]


def test_an_ingredient_by_a_former_name_is_told_which_ids() -> None:
    (problem,) = run(changed(SODA, "soda: 10 g"))[1]
    assert problem.help == "write `sodium-carbonate-anhydrous` or `sodium-carbonate-decahydrate`"


@pytest.mark.parametrize(
    ("takes", "agrees"),
    [("3 min", True), ("2-3 min", True), ("1 min", False), ("1-2 min", True), ("4 min", False), ("1 h", False)],
)
def test_the_stated_time_is_held_against_the_steps(takes: str, agrees: bool) -> None:
    found = codes(changed("process: toning", f"process: toning\ntakes: {takes}"))
    assert found == ([] if agrees else [(RECIPE, "takes-disagrees")])


def test_without_a_time_for_each_step_the_stated_time_may_be_longer() -> None:
    texts = changed("        for: 2-3 min", "        for: 2-3 min\n      - do: Look.")
    longer = texts[RECIPE].replace("process: toning", "process: toning\ntakes: 1 h")
    assert codes(texts | {RECIPE: longer}) == []
    shorter = texts[RECIPE].replace("process: toning", "process: toning\ntakes: 1 min")
    assert codes(texts | {RECIPE: shorter}) == [(RECIPE, "takes-disagrees")]


def test_a_ring_of_three_is_told_once_with_all_its_members() -> None:
    ring = {
        f"recipes/{here}.yaml": sound()[RECIPE].replace("IB-07", code).replace(SODA, f"{there}/bath: 10 ml")
        for here, there, code in (("aa", "bb", "IB-11"), ("bb", "cc", "IB-12"), ("cc", "aa", "IB-13"))
    }
    archive, problems = run(sound() | ring)
    assert [(p.at.file, p.code) for p in problems] == [("recipes/aa.yaml", "mixture-cycle")]
    assert problems[0].notes == ("`aa/bath` → `bb/bath` → `cc/bath` → `aa/bath`",)
    assert archive is not None
    assert [recipe.slug for recipe in archive.recipes] == ["recipe"]


@pytest.mark.parametrize(
    ("contains", "found"),
    [
        pytest.param("{sodium-bicarbonate: 1 part, water: 9 parts}", [], id="parts"),
        pytest.param("{sodium-bicarbonate: 12 % of fibre, water: 30 times fibre}", [], id="of-a-base"),
        pytest.param("{sodium-bicarbonate: 12 % of fibre, water: 3 times paper}", ["mixture-two-kinds"], id="bases"),
        pytest.param("{water: 100 ml, sodium-bicarbonate: to pH 8}", [], id="by-meter"),
        pytest.param("{water: 9 parts, sodium-bicarbonate: 3 drops}", ["mixture-two-kinds"], id="drops-beside-parts"),
        pytest.param("{sodium-bicarbonate: 2 % w/v, water: to make 1 l}", [], id="percent"),
        pytest.param("{sodium-bicarbonate: 2 % w/w, water: 98 % w/w}", ["percent-of-unknown"] * 2, id="no-mass"),
    ],
)  # fmt: skip
def test_a_mixture_is_of_one_kind(contains: str, found: list[str]) -> None:
    text = sound()[RECIPE]
    start, end = text.index("    makes:"), text.index("    keeps:")
    texts = sound() | {RECIPE: f"{text[:start]}    contains: {contains}\n{text[end:]}"}
    assert [code for _, code in codes(texts)] == found
