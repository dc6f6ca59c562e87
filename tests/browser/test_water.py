"""The advice for a water comes out in the browser as in the program, over random waters, by the real controls."""

import random
from fractions import Fraction
from functools import partial
from typing import Any, Final

from playwright.sync_api import Page

from sitegen.compute.water import Sum, figure, rounded, water_places
from sitegen.compute.water_table import acid_per_mmol, water_table
from sitegen.compute.whole import Computed
from sitegen.model.archive import Archive
from sitegen.model.quantity import exact_number
from sitegen.model.water import ALKALINITY, HARDNESS, MEASURES, UNITS_OF, Measure, Reading, Water, parse_reading
from sitegen.problems import Refusal
from sitegen.render.water import item
from sitegen.render.water_page import in_unit
from tests.browser.conftest import Open
from tests.browser.sums import or_refusal

# Fill in a water of one's own, or choose one of the archive's, and read what stands on the page.
FILL: Final = """
(waters) => {
  const form = document.getElementById("water-form");
  const say = (field, value) => { field.value = value; field.dispatchEvent(new Event("input", { bubbles: true })); };
  return waters.map(([id, typed]) => {
    if (id !== null) say(form.elements.water, id);
    for (const field of form.querySelectorAll("[data-measure]")) {
      const [figure, symbol] = typed[field.dataset.measure] ?? ["", ""];
      if (symbol) say(field.querySelector("select"), symbol);
      say(field.querySelector("input"), figure);
    }
    return {
      refused: document.getElementById("water-refused").textContent,
      names: [...new Set([...document.querySelectorAll("[data-water-name]")].map((each) => each.textContent))],
      items: [...document.querySelectorAll("[data-water-item]")]
        .sort((a, b) => a.dataset.waterItem - b.dataset.waterItem)
        .map((each) => [
          each.dataset.state, each.querySelector("[data-words]").textContent,
          [...each.querySelectorAll("[data-figure]")].map((figure) => figure.textContent),
          each.querySelector("[data-more]").checkVisibility(),
        ]),
    };
  });
}
"""
Typed = dict[str, tuple[str, str]]
LIKELY: Final[dict[Measure, int]] = {
    "pH": 10, "hardness": 40, "alkalinity": 30, "chlorine": 1, "chloride": 300, "iron": 1,
}  # fmt: skip


def some_figure(dice: random.Random, most: int) -> str:
    """A figure or range as people type it, now and then one that is refused."""

    def one() -> Fraction:
        return Fraction(dice.randint(0, most * 100), dice.choice((100, 100, 100, 300)))

    low, high = sorted((one(), one()))
    if dice.random() < 0.06:
        return dice.choice((f"{exact_number(high + 1)}-{exact_number(low)}", "soft", "7,4", "-3", "15", "1:2"))
    if dice.random() < 0.4:
        return exact_number(low)
    return f"{exact_number(low)}{dice.choice(('-', '–', ' - ', ' to '))}{exact_number(high)}"


def some_water(dice: random.Random, asked: list[Measure]) -> Typed:
    typed: Typed = {}
    for measure in asked:
        if dice.random() < 0.25:
            continue
        units = [u.symbol for u in UNITS_OF.get(measure, ())]
        typed[measure] = (some_figure(dice, LIKELY[measure]), dice.choice(units) if units else "")
    return typed


def as_typed(typed: Typed) -> tuple[Water, int]:
    """The water as the program reads what was typed, and how many figures it refuses."""
    found: dict[Measure, Reading] = {}
    refused = 0
    for measure in MEASURES:
        if measure in typed:
            read = or_refusal(partial(parse_reading, measure, " ".join(typed[measure]).strip()))
            if isinstance(read, Refusal):
                refused += 1
            else:
                found[measure] = read
    return Water(id="", name="the water you fill in", readings=found), refused


def expected(slug: str, archive: Archive, water: Water) -> list[list[Any]]:
    recipe = archive.recipe_named[slug]
    told = [item(one, water) for place in water_places(recipe, archive) for one in place.advice]
    return [[one.state, one.words, list(one.figures), one.state != "below"] for one in told]


def asked_on(page: Page) -> list[Measure]:
    found: list[Measure] = page.eval_on_selector_all(
        "#water-form [data-measure]", "(fields) => fields.map((field) => field.dataset.measure)"
    )
    return found


def test_waters_typed_in_are_judged_as_in_the_program(visit: Open, computed: Computed) -> None:
    dice = random.Random(2026)
    states: set[str] = set()
    refusals = total = 0
    for slug, count in (("iron-blue", 220), ("walnut-toner", 220), ("salted-paper", 60), ("onion-skin-dye", 60)):
        page = visit(f"recipes/{slug}/index.html")
        waters = [some_water(dice, asked_on(page)) for _ in range(count)]
        answers = page.evaluate(FILL, [["", typed] for typed in waters])
        for typed, found in zip(waters, answers, strict=True):
            water, refused = as_typed(typed)
            assert found["items"] == expected(slug, computed.archive, water), typed
            assert bool(found["refused"]) == bool(refused), (typed, found["refused"])
            assert found["names"] == ["the water you fill in"]
            states |= {one[0] for one in found["items"]}
            refusals += refused
            total += 1
    assert total >= 500
    assert states == {"always", "holds", "at times", "unknown", "below"}
    assert 30 < refusals < 300


def test_the_waters_of_the_archive_are_judged_as_in_the_program(visit: Open, computed: Computed) -> None:
    for slug in ("iron-blue", "iron-silver-brown", "oak-bark-toner"):
        page = visit(f"recipes/{slug}/index.html")
        waters = computed.archive.settings.waters
        for water, found in zip(waters, page.evaluate(FILL, [[w.id, {}] for w in waters]), strict=True):
            assert found["items"] == expected(slug, computed.archive, water)
            assert found["names"] == [water.name]


def test_the_choice_is_kept_for_every_recipe_of_the_archive(visit: Open) -> None:
    page = visit("recipes/iron-blue/index.html")
    page.select_option("#water-form [name=water]", "well")
    other = visit("recipes/walnut-toner/index.html")
    assert other.locator("[data-water-name]").first.text_content() == "Well in the yard"
    other.select_option("#water-form [name=water]", "")
    other.fill("#water-form [name=pH]", "7.9")
    other.fill("#water-form [name=iron]", "0.4")
    third = visit("recipes/iron-blue/index.html")  # has no field for iron, and must not lose it
    assert third.input_value("#water-form [name=pH]") == "7.9"
    third.fill("#water-form [name=pH]", "8")
    again = visit("recipes/walnut-toner/index.html")
    assert [again.input_value(f"#water-form [name={m}]") for m in ("pH", "iron")] == ["8", "0.4"]


def test_the_bench_converts_and_reckons_as_the_program(visit: Open) -> None:
    page = visit("bench/index.html")
    dice = random.Random(5)
    fill = """
    ([measure, questions]) => {
      const form = document.querySelector(`[data-water-sum=${measure}]`);
      return questions.map(([figure, unit]) => {
        form.elements.unit.value = unit;
        form.elements.figure.value = figure;
        form.elements.figure.dispatchEvent(new Event("input", { bubbles: true }));
        return [[...form.querySelectorAll("output > .said")].map((each) => each.textContent),
          form.querySelector(".refused").textContent];
      });
    }
    """
    for measure, units in (("hardness", HARDNESS), ("alkalinity", ALKALINITY)):
        questions = [(some_figure(dice, 60), dice.choice(units).symbol) for _ in range(150)]
        for (typed, symbol), (lines, refused) in zip(questions, page.evaluate(fill, [measure, questions]), strict=True):
            reading = or_refusal(partial(parse_reading, measure, f"{typed} {symbol}"))  # type: ignore[arg-type]
            if isinstance(reading, Refusal):
                assert (lines, bool(refused)) == ([], True), typed
                continue
            assert refused == ""
            assert lines == (others(reading, symbol) if measure == "hardness" else acids(reading)), (typed, symbol)


def others(reading: Reading, symbol: str) -> list[str]:
    return [f"{in_unit(reading, unit)} ({unit.means})" for unit in HARDNESS if unit.symbol != symbol]


def acids(reading: Reading) -> list[str]:
    found = []
    for id_, doc in water_table().acids.items():
        low, high = (rounded(end * acid_per_mmol(id_)) for end in (reading.low, reading.high))
        amount = low if low == high else f"{low}–{high}"
        found.append(f"{amount} {doc.unit} of {doc.name}" + (f". {doc.note}" if doc.note else ""))
    return found


def test_a_figure_by_hand_stands_on_the_page(visit: Open) -> None:
    # 4 mmol/l of alkalinity: 4 x 0.5765 mmol of citric acid of 210.14 g/mol are 0.485 g (see tests/compute/test_water).
    page = visit("recipes/iron-blue/index.html")
    [found] = page.evaluate(FILL, [["", {"pH": ["7.8", ""], "alkalinity": ["4", "mmol/l"]}]])
    assert any("0.48 g of citric acid (monohydrate)" in line for one in found["items"] for line in one[2])
    sum_ = Sum(measure="alkalinity", per=acid_per_mmol("citric-acid-monohydrate"), unit="g", of="")
    assert figure(sum_, Water(id="", name="", readings={"alkalinity": parse_reading("alkalinity", "4 mmol/l")})) == (
        "0.48", "0.48",
    )  # fmt: skip


def test_without_scripts_the_first_water_is_named_and_the_rules_can_be_read(site: Any, context: Any) -> None:
    plain = context.browser.new_context(java_script_enabled=False)
    page = plain.new_page()
    page.goto((site / "recipes/iron-blue/index.html").as_uri())
    assert page.locator("[data-water-name]").first.text_content() == "Town tap at the mill"
    assert page.locator("#water-form").is_hidden()
    page.locator(".water-rules > summary").click()
    assert page.locator(".water-rules table").is_visible()
    plain.close()
