"""Baths over a run of prints, on the bench and on a recipe page, against the program with random figures."""

import random
from fractions import Fraction

from sitegen.compute.needed import Session, bath
from sitegen.compute.whole import Computed
from sitegen.model.capacity import Capacity
from sitegen.model.quantity import exact_text, parse_quantity
from sitegen.model.sizes import parse_sheet_size, parse_sides
from sitegen.problems import Refusal
from tests.browser.asking import SYSTEMS, UNITS_OF, number
from tests.browser.conftest import Open
from tests.browser.sums import Fields, Shelf, answers, or_refusal, plain, sum_form, system_of

BENCH = "bench/index.html"
COUNT = 600


def questions() -> list[Fields]:
    dice = random.Random(1032)
    return [
        {
            "prints": str(dice.randint(1, 60)),
            "long": number(dice),
            "wide": number(dice),
            "size-unit": dice.choice(["cm", "mm", "in"]),
            "lasting": dice.choice(["", number(dice)]),
            **{name: str(dice.randint(5, 60)) for name in ("tray-long", "tray-wide", "depth")},
            "tray-unit": dice.choice(UNITS_OF["length"]),
            "does": dice.choice(["", str(dice.randint(1, 40))]),
            "does-paper": dice.choice(["A4", "A5", "A3"]),
            "keeps": dice.choice(["", number(dice)]),
            "measures": dice.choice(SYSTEMS),
        }
        for _ in range(COUNT)
    ]


def minutes(text: str) -> Fraction | None:
    return parse_quantity(f"{text} h", "time").base()[0] if text else None


def test_fillings_and_amounts_come_out_as_in_the_program(visit: Open, computed: Computed) -> None:
    shelf, asked, refused = Shelf(computed), questions(), 0
    for fields, found in zip(asked, answers(visit(BENCH), sum_form("bath"), asked), strict=True):
        sides = parse_sides(f"{fields['long']}x{fields['wide']} {fields['size-unit']}", 2, "a print", "")
        long, wide, deep = (Fraction(fields[n]) for n in ("tray-long", "tray-wide", "depth"))
        tray = parse_sides(f"{long}x{wide}x{deep} {fields['tray-unit']}", 3, "a tray", "")
        volume = tray[0] * tray[1] * tray[2] / 1000
        session = Session(prints=int(fields["prints"]), area=sides[0] * sides[1], minutes=minutes(fields["lasting"]))
        capacity = None
        if fields["does"]:
            sheet = parse_sheet_size(fields["does-paper"])
            capacity = Capacity(area=int(fields["does"]) * sheet[0] * sheet[1] / 1000)
        keeps = parse_quantity(f"{fields['keeps']} h", "time") if fields["keeps"] else None
        spent = or_refusal(lambda v=volume, s=session, c=capacity, k=keeps: bath(v, s, capacity=c, keeps=k))
        if isinstance(spent, Refusal):
            refused += 1
            assert found["refused"] == f"{plain(spent)}: {spent.help}", fields
            assert found["parts"] == {}
            continue
        say = [shelf.text(v, v, "volume", system_of(fields)) for v in (volume, spent.replaced)]
        parts = {"filling": say[0], "lasts": str(spent.lasts), "fillings": str(spent.fillings), "replaced": say[1]}
        if spent.replenished is not None and spent.per_print is not None:
            parts["replenished"] = shelf.text(spent.replenished, spent.replenished, "volume", system_of(fields))
            parts["topping"] = shelf.text(spent.per_print, spent.per_print, "volume", system_of(fields))
        assert found["parts"] == parts, fields
        assert found["said"][-len(spent.warnings) or len(found["said"]) :] == list(spent.warnings), fields
        assert (capacity is None) == any("nothing says when it is spent" in said for said in found["said"])
    assert 20 < refused < COUNT / 2


def test_the_amount_of_a_session_goes_into_the_calculator(visit: Open) -> None:
    page = visit("recipes/salted-paper/index.html")
    form = page.locator("#session")
    form.locator("[name=bath]").select_option("fix")
    for name, value in {
        "prints": "60",
        "long": "8",
        "wide": "10",
        "tray-long": "25",
        "tray-wide": "40",
        "depth": "1",
    }.items():
        form.locator(f"[name={name}]").fill(value)
    form.locator("[name=size-unit]").select_option("in")
    assert form.locator("[data-part=fillings]").inner_text() == "3"
    assert form.locator("[data-part=replenished]").count() == 0  # the recipe says: replace
    form.get_by_role("button", name="Use this amount").click()
    page.wait_for_url("**#mix=fix&ask=make&amount=3000&unit=ml")
    assert page.locator("#asked").inner_text() == "For 3000 ml of Alkaline hypo fixer"
    page.locator("#calculator [name=mix]").select_option("salting")
    page.fill("#calculator [name=amount]", "100")
    form.get_by_role("button", name="Use this amount").click()
    page.wait_for_url("**#mix=salting&ask=make&amount=100&unit=ml&mix=fix&ask=make&amount=3000&unit=ml")
    assert exact_text(Fraction(3000)) in page.locator("[data-mixture='salted-paper/fix'] [data-makes]").inner_text()


def test_what_is_typed_goes_before_what_the_recipe_says(visit: Open) -> None:
    form = visit("recipes/salted-paper/index.html").locator("#session")
    form.locator("[name=bath]").select_option("fix")
    values = {"prints": "4", "long": "21", "wide": "29.7", "tray-long": "25", "tray-wide": "40", "depth": "1"}
    for name, value in values.items():
        form.locator(f"[name={name}]").fill(value)
    assert form.locator("[data-part=fillings]").inner_text() == "1"
    form.locator("[name=does-paper]").select_option("A4")
    form.locator("[name=does]").fill("2")
    assert form.locator("[data-part=fillings]").inner_text() == "2"
