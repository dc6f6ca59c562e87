"""Exposure on the bench against the program, with random questions and published figures."""

import random
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from typing import Any, get_args

import pytest

from sitegen.compute.exposure import (
    Change,
    Source,
    by_lamp,
    by_light,
    by_stops,
    clock,
    exposed,
    film_time,
    parse_stops,
    stops_of_factor,
    through_layer,
)
from sitegen.compute.rounding import to_step
from sitegen.compute.strip import Rise, Strip, strip_about, strip_from
from sitegen.model.quantity import Quantity, exact_number, exact_text, parse_number, parse_quantity
from sitegen.problems import Refusal
from tests.browser.conftest import Open
from tests.browser.sums import Fields, answers, or_refusal

BENCH = "bench/index.html"
TIMES = ("s", "min", "h")
LENGTHS = ("mm", "cm", "m", "in", "ft")
METRIC = {"measures": "metric"}

# Fill in the strip, read its table, and tap each place of it in turn.
STRIPS = """
(questions) => {
  const form = document.querySelector("[data-expose=strip] form");
  const text = (node) => node.textContent.trim();
  return questions.map((fields) => {
    for (const [name, value] of Object.entries(fields)) {
      form.elements[name].value = value;
      if (form.elements[name].value !== value) throw new Error(`${name} does not offer ${value}`);
    }
    form.elements.count.dispatchEvent(new Event("input", { bubbles: true }));
    const rows = [...form.querySelectorAll("tbody tr")].map((row) => [...row.children].map(text));
    const places = [...form.querySelectorAll("[name=band]")].map((radio) => {
      radio.click();
      return [radio.value, text(form.querySelector("[data-part=time]"))];
    });
    return { rows, places, refused: text(form.querySelector(".refused")),
      said: [...form.querySelectorAll("[data-strip] .said")].map(text) };
  });
}
"""


def number(dice: random.Random) -> str:
    """Whole numbers, decimals and fractions; now and then one that is refused."""
    value = Fraction(dice.randint(1, 600), dice.choice((1, 1, 1, 2, 3, 4, 10)))
    return dice.choice(["0", "1,5", "-3", "x"]) if dice.random() < 0.04 else exact_number(value)


def time(dice: random.Random, name: str = "time", *, single: bool = False) -> Fields:
    low = number(dice)
    # what follows the dash is a number: of other words the program reads a unit, which the page has chosen
    typed = low if single or dice.random() < 0.6 else f"{low}-{dice.randint(1, 900)}"
    return {name: typed, f"{name}-unit": dice.choice(TIMES)}


def time_of(fields: Fields, name: str = "time", *, single: bool = False) -> Quantity:
    return parse_quantity(f"{fields[name]} {fields[f'{name}-unit']}", "time", single=single)


def told(refusal: Refusal) -> str:
    return f"{refusal.message}: {refusal.help}".replace("`", "")


def clocks(time: Quantity) -> str:
    low, high = clock(time.low), clock(time.high)
    return low if low == high else f"{low} to {high}"


def in_stops(factor: Fraction) -> str:
    stops = stops_of_factor(factor)
    words = f"{exact_text(abs(stops))} stop{'' if abs(stops) == 1 else 's'}"
    return words + (" more" if stops > 0 else " less" if stops < 0 else "")


def agrees(visit: Open, kind: str, asked: list[Fields], change: Callable[[Fields], Change]) -> int:
    """Every shown text of a sum is the program's; gives how many of the questions were refused."""
    refused = 0
    found = answers(visit(BENCH), f"[data-expose={kind}] form", [{**fields, **METRIC} for fields in asked])
    for fields, shown in zip(asked, found, strict=True):
        result = or_refusal(partial(_result, fields, change))
        if isinstance(result, Refusal):
            refused += 1
            assert (shown["refused"], shown["parts"], shown["said"]) == (told(result), {}, []), fields
            continue
        time, made = result
        assert shown["parts"] == {
            "time": time,
            "factor": exact_text(to_step(made.factor, Fraction(1, 1000))),
            "stops": in_stops(made.factor),
        }, fields
        assert (shown["said"], shown["refused"]) == (list(made.warnings), ""), fields
    return refused


def _result(fields: Fields, change: Callable[[Fields], Change]) -> tuple[str, Change]:
    was, made = time_of(fields), change(fields)
    return clocks(exposed(was, (made,)).time), made


def test_stops_come_out_as_in_the_program(visit: Open) -> None:
    dice = random.Random(65)
    asked = [
        {**time(dice), "stops": str(Fraction(dice.randint(1, 63), dice.choice((1, 2, 3, 4, 6, 10)))), "way": way}
        for way in ("more", "less")
        for _ in range(150)
    ]
    assert 10 < agrees(visit, "stops", asked, in_python_by_stops) < 150


def in_python_by_stops(fields: Fields) -> Change:
    stops = parse_stops(fields["stops"])
    return by_stops(-stops if fields["way"] == "less" else stops)


def test_lamps_come_out_as_in_the_program(visit: Open) -> None:
    dice = random.Random(1919)
    asked = [
        {**time(dice), "source": source, "was": number(dice), "now": number(dice), "lamp-unit": dice.choice(LENGTHS)}
        | ({"width": dice.choice(["", number(dice)])} if source == "wide" else {})
        for source in get_args(Source)
        for _ in range(100)
    ]
    assert 100 < agrees(visit, "lamp", asked, in_python_by_lamp) < 260


def in_python_by_lamp(fields: Fields) -> Change:
    source = next(s for s in get_args(Source) if s == fields["source"])

    def side(name: str) -> Fraction:
        typed = parse_number(fields[name])
        if typed <= 0:  # as the bench refuses every length
            raise Refusal(
                "quantity-not-positive", f"`{fields[name]}` is not more than nothing", "write a length above zero"
            )
        return parse_quantity(f"{fields[name]} {fields['lamp-unit']}").base()[0]

    if source == "sun":
        return by_lamp(source, Fraction(1), Fraction(1))
    width = side("width") if fields.get("width") else None
    return by_lamp(source, side("was"), side("now"), width=width)


def test_layers_come_out_as_in_the_program(visit: Open) -> None:
    dice = random.Random(69)
    asked = [
        {**time(dice), "by": by, "held": dice.choice(["0", "1/2", "-1/2", "1 1/3", "25", number(dice)])}
        for by in ("stops", "density")
        for _ in range(80)
    ]
    asked += [
        {**time(dice), "by": "times", **time(dice, "bare", single=True), **time(dice, "through", single=True)}
        for _ in range(100)
    ]
    assert 50 < agrees(visit, "layer", asked, in_python_by_layer) < 240


def in_python_by_layer(fields: Fields) -> Change:
    if fields["by"] == "times":
        both = (f"{fields[name]} {fields[f'{name}-unit']}" for name in ("bare", "through"))
        return through_layer(" to ".join(both))
    return through_layer(f"density {fields['held']}" if fields["by"] == "density" else f"{fields['held']} stops")


def test_light_comes_out_as_in_the_program(visit: Open) -> None:
    dice = random.Random(1628)
    asked = [{**time(dice), "was": number(dice), "now": number(dice)} for _ in range(100)]
    assert 3 < agrees(visit, "light", asked, in_python_by_light) < 60


def in_python_by_light(fields: Fields) -> Change:
    return by_light(parse_number(fields["was"]), parse_number(fields["now"]))


def test_film_comes_out_as_in_the_program(visit: Open) -> None:
    dice = random.Random(131)
    asked = [
        {**time(dice), "power": exact_number(Fraction(dice.randint(95, 205), 100))} for _ in range(150)
    ]  # below one and above two it is no film's
    found = answers(visit(BENCH), "[data-expose=film] form", [{**fields, **METRIC} for fields in asked])
    for fields, shown in zip(asked, found, strict=True):
        result = or_refusal(partial(in_python_on_film, fields))
        if isinstance(result, Refusal):
            assert (shown["refused"], shown["parts"]) == (told(result), {}), fields
        else:
            assert shown["parts"] == {"time": result}, fields


def in_python_on_film(fields: Fields) -> str:
    was, power = time_of(fields).in_unit("s"), parse_number(fields["power"])
    return clocks(Quantity(low=film_time(was.low, power), high=film_time(was.high, power), unit="s"))


def test_strips_come_out_as_in_the_program(visit: Open) -> None:
    """Every band, both ways of the card, every place between two bands, every warning and refusal."""
    dice = random.Random(68)
    asked = []
    for _ in range(320):
        stops = dice.random() < 0.6
        each = str(Fraction(dice.randint(1, 3), dice.choice((1, 2, 3, 4, 6)))) if stops else number(dice)
        asked.append(
            {
                **time(dice),
                "count": dice.choice(["1", "2", "3", "5", "6", "7", "9", "12", "31", "2.5"]),
                "from": dice.choice(["first", "middle"]),
                "each": each,
                "each-unit": "stop" if stops else dice.choice(["s", "s", "min"]),
            }
        )
    refused = 0
    for fields, shown in zip(asked, visit(BENCH).evaluate(STRIPS, asked), strict=True):
        strip = or_refusal(partial(strip_in_python, fields))
        if isinstance(strip, Refusal):
            refused += 1
            assert (shown["refused"], shown["rows"], shown["places"]) == (told(strip), [], []), fields
        else:
            assert shown == as_shown(strip), fields
    assert 40 < refused < 280


def strip_in_python(fields: Fields) -> Strip:
    middle = fields["from"] == "middle"
    first = time_of(fields, single=not middle)
    if fields["each-unit"] == "stop":
        rise = Rise(stops=parse_stops(fields["each"]))
    else:
        rise = Rise(seconds=time_of(fields, "each", single=True).in_unit("s").low)
    count = parse_number(fields["count"])
    if count.denominator != 1:
        raise Refusal(
            "count-not-whole", f"`{fields['count']}` is not a number of bands", "write a whole number of bands"
        )
    if middle:
        return strip_about(first, rise, int(count))
    return strip_from(first.in_unit("s").low, rise, int(count))


def as_shown(strip: Strip) -> dict[str, Any]:
    whole = strip.bands[-1].seconds
    bare = {move.band: move.at for move in strip.uncovering if move.do == "uncover"}
    assert all(bare[band.number] == whole - band.seconds for band in strip.bands)
    rows = [
        [str(band.number), *(clock(Fraction(s)) for s in (band.seconds, stretch, bare[band.number]))]
        for band, stretch in zip(strip.bands, strip.stretches, strict=True)
    ]
    halves = [Fraction(n, 2) for n in range(2, 2 * len(strip.bands) + 1)]
    places = [
        [f"{place}" if place.denominator == 1 else f"{int(place)} 1/2", clock(strip.seconds_at(place))]
        for place in halves
    ]
    return {"rows": rows, "places": places, "refused": "", "said": list(strip.warnings)}


def test_published_figures_come_out(visit: Open) -> None:
    page = visit(BENCH)

    def said(kind: str, **fields: str) -> str:
        typed = {name.replace("_", "-"): value for name, value in fields.items()}
        [found] = answers(page, f"[data-expose={kind}] form", [{**typed, **METRIC}])
        return str(found["parts"]["time"])

    # B065: M. J. Martin, Wireless Transmission of Photographs, 1919: 5 min at 2 ft, 20 min at 4 ft
    assert said("lamp", time="5", source="small", was="2", now="4", lamp_unit="ft") == "20'00"
    # K01: The Dictionary of Photography (E. J. Wall; about 1902), page 372: 45 s at 12 in
    for inches, shown in (("24", "3'00"), ("36", "6'45"), ("48", "12'00")):
        asked = {"time_unit": "s", "source": "small", "was": "12", "now": inches, "lamp_unit": "in"}
        assert said("lamp", time="45", **asked) == shown
    # K02: The Wellington Photographic Handbook: 360 s x 16/28 = 206 s
    assert said("light", time="360", time_unit="s", was="16", now="28") == "3'26"
    # K09: R. W. Lambrecht, f/stop Timing Table: half a stop on 25.4 s adds 10.5 s; K15: Ilford: 10 s become 20.4 s
    assert said("stops", time="25.4", time_unit="s", stops="1/2", way="more") == "36 s"
    assert said("film", time="10", time_unit="s", power="1.31") == "20 s"
    # B068: thirds of a stop from 4 min, without the misprint 13'42
    fields = {"time": "4", "time-unit": "min", "count": "10", "from": "first", "each": "1/3", "each-unit": "stop"}
    [strip] = page.evaluate(STRIPS, [fields])
    series = "4'00 5'02 6'21 8'00 10'05 12'42 16'00 20'10 25'24 32'00"
    assert " ".join(row[1] for row in strip["rows"]) == series


def test_what_is_asked_stands_in_the_address(visit: Open) -> None:
    page = visit(BENCH)
    strip = page.locator("[data-expose=strip]")
    strip.locator("[name=time]").fill("4")
    strip.get_by_label("4–5").check()
    page.wait_for_url("**band=**")
    fragment = page.evaluate("location.hash")
    again = visit(BENCH, fragment)
    assert again.locator("[data-expose=strip] output").inner_text() == "Go on with 8'59."
    assert again.evaluate("location.hash") == fragment


@pytest.mark.parametrize("fragment", ["#expose=nothing&time=4", "#sum-strip", "#expose=strip&from=elsewhere&x=1"])
def test_an_address_that_asks_nothing_is_passed_over(fragment: str, visit: Open) -> None:
    page = visit(BENCH, fragment)
    assert page.locator("[data-expose=strip] [name=from]").input_value() == "first"
    assert page.locator("[data-expose] output:not(:empty)").count() == 0


def test_the_keyboard_asks_and_taps_the_strip(visit: Open) -> None:
    page = visit(BENCH)
    page.locator("[data-expose=strip] [name=count]").focus()
    names = []
    for _ in range(5):
        page.keyboard.press("Tab")
        names.append(page.evaluate("document.activeElement.name"))
    assert names == ["from", "time", "time-unit", "each", "each-unit"]
    page.locator("[data-expose=strip] [name=time]").focus()
    page.keyboard.type("8")
    for _ in range(4):
        page.keyboard.press("Tab")
    page.keyboard.press("Space")
    page.keyboard.press("ArrowRight")
    assert page.locator("[data-expose=strip] [name=band]:checked").get_attribute("value") == "1 1/2"
    assert page.locator("[data-expose=strip] [data-part=time]").inner_text() == "8'59"


def test_on_a_small_phone_the_sums_have_names_large_controls_and_room(visit: Open) -> None:
    page = visit(BENCH)
    page.locator("[data-expose=strip] [name=time]").fill("90")
    page.locator("[data-expose=strip] [name=count]").fill("9")
    fields = page.locator("[data-expose] :is(input:not([type=radio]), select)")
    assert all(field.get_attribute("aria-label") for field in fields.all())
    for control in page.locator("[data-expose] :is(input:not([type=radio]), select, label):visible").all():
        box = control.bounding_box()
        assert box is not None
        assert box["height"] >= 44, control.evaluate("node => node.outerHTML")
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
