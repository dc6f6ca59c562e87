"""Several questions on one page: it says what the program says, keeps each, and takes each back."""

import random
import re
from collections.abc import Sequence
from functools import partial

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from sitegen.compute.whole import Computed
from sitegen.problems import Refusal
from tests.browser.asking import SYSTEMS, fill, ways
from tests.browser.conftest import CONTENT, Open
from tests.browser.desk import Asked, Seen, ask_together, expected, refused_amounts, seen
from tests.browser.sums import or_refusal, plain
from tests.browser.test_accessible import OPTIONS

SLUGS = sorted(path.stem for path in (CONTENT / "recipes").glob("*.yaml"))
SEED = 1871
STATES = 24
"""For each recipe; each of at least two questions, where the recipe has two mixtures."""
BLUE = "recipes/iron-blue/index.html"
CHART = "recipes/tide-chart-and-net/index.html"
LIGHT, SECOND, FIRST = "iron-blue-light/light-working", "second-coat", "iron-blue/first-bath"


def states(slug: str, computed: Computed) -> list[list[Asked]]:
    """Random questions about some of a recipe's mixtures, in a random order."""
    dice, targets = random.Random(f"{SEED} {slug}"), computed.targets[slug]
    if len(targets) < 2:
        return []
    found = []
    for at in range(STATES):
        system = SYSTEMS[at % len(SYSTEMS)]
        state = []
        for target in dice.sample(targets, dice.randint(2, len(targets))):
            way = dice.choice(ways(target))
            blanks, question = fill(way, target, dice)
            blanks = {"mix": target.local, "ask": way, "measures": system, **blanks}
            state.append(Asked(target=target, blanks=blanks, question=question, system=system))
        found.append(state)
    return found


def in_order(state: Sequence[Asked], slug: str, computed: Computed) -> list[Asked]:
    """As the page and the command answer: in the order of the recipe, however they were asked."""
    order = [target.id for target in computed.targets[slug]]
    return sorted(state, key=lambda one: order.index(one.target.id))


def holds(shown: Seen, state: Sequence[Asked], written: Seen, slug: str, computed: Computed) -> bool:
    """Whether the page says what the program says; False for a state that both refuse."""
    asked = in_order(state, slug, computed)
    answer = or_refusal(partial(expected, asked, written.mixtures, computed))
    if isinstance(answer, Refusal):
        assert plain(answer) in shown.refused
        assert (shown.mixtures, shown.totals) == (refused_amounts(asked, written.mixtures, computed), None)
        return False
    assert shown.refused == ""
    assert (shown.mixtures, shown.warnings, shown.totals) == answer, [one.blanks for one in state]
    assert len(shown.also) == len(state) - 1
    return True


def test_page_and_program_agree_on_every_amount_of_several_questions(computed: Computed, visit: Open) -> None:
    answered, refused = 0, 0
    for slug in SLUGS:
        every = states(slug, computed)
        if not every:
            continue
        page = visit(f"recipes/{slug}/index.html")
        written = seen(page)
        for state, shown in zip(every, ask_together(page, *([q.blanks for q in s] for s in every)), strict=True):
            if holds(shown, state, written, slug, computed):
                answered += 1
            else:
                refused += 1
        page.close()
    assert answered > 250
    assert refused > 10


@pytest.mark.parametrize("slug", ["tide-chart-and-net", "iron-silver-brown", "onion-skin-dye", "gall-ink"])
def test_the_address_asks_all_of_it_again(slug: str, computed: Computed, visit: Open) -> None:
    for state in states(slug, computed)[:6]:
        page = visit(f"recipes/{slug}/index.html")
        [first] = ask_together(page, [one.blanks for one in state])
        if first.refused:
            continue
        expect(page).to_have_url(re.compile(rf"^((?!mix=).)*(mix=((?!mix=).)*){{{len(state)}}}$"))
        again = visit(f"recipes/{slug}/index.html", "#" + page.url.partition("#")[2])
        shown = seen(again)
        assert (shown.mixtures, shown.warnings, shown.totals) == (first.mixtures, first.warnings, first.totals)
        assert {shown.asked, *shown.also} == {first.asked, *first.also}


def choose(page: Page, mixture: str) -> None:
    page.locator("#calculator [name=mix]").select_option(mixture)


def two_coats(page: Page) -> None:
    """Six sheets with both coats, by way of the button that asks the same of the second."""
    choose(page, LIGHT)
    page.get_by_label("sheets", exact=True).check()
    for name, value in {"sheets": "6", "long": "20", "wide": "25"}.items():
        page.fill(f"#calculator [name={name}]", value)
    page.get_by_role("button", name="The same for Second sensitiser").click()


def test_the_same_sheets_are_asked_of_the_other_coat_and_the_stocks_are_added_up(visit: Open) -> None:
    page = visit(CHART)
    two_coats(page)
    shown = seen(page)
    assert shown.asked == "For 6 sheets of 20 × 25 cm, 15 % extra, 1 coat of Light sensitiser"
    assert shown.also == ("For 6 sheets of 20 × 25 cm, 15 % extra, 1 coat of Second sensitiser",)
    # 6 × 0.05 m² × 78 ml/m² × 1.15 = 26.91 ml of each coat; a twelfth and a half of it are part A
    assert shown.mixtures["iron-blue/part-a"]["makes"] == "15.7 ml"
    assert shown.totals is not None
    assert shown.totals["stocks"][0] == [
        "15.7 ml", "Part A, iron", "2.2 ml for Light sensitiser, 13.5 ml for Second sensitiser",
    ]  # fmt: skip
    part_a = page.locator("[data-mixture='iron-blue/part-a']")
    assert part_a.locator("[data-state]").inner_text() == "2.2 ml for Light sensitiser, 13.5 ml for Second sensitiser"
    assert page.get_by_role("button", name="The same for").count() == 0  # there is no third coat


def test_a_coverage_that_was_typed_in_is_not_carried_to_another_coat(visit: Open) -> None:
    page = visit(CHART)
    choose(page, LIGHT)
    page.get_by_label("sheets", exact=True).check()
    for name, value in {"sheets": "6", "long": "20", "wide": "25", "coverage": "50"}.items():
        page.fill(f"#calculator [name={name}]", value)
    assert page.get_by_role("button", name="The same for").count() == 0


def test_a_tray_is_asked_of_the_other_baths_and_of_no_coat_or_stock(visit: Open) -> None:
    page = visit(CHART)
    choose(page, FIRST)
    page.get_by_label("tray", exact=True).check()
    for name, value in {"tray-long": "24", "tray-wide": "30", "depth": "1.5"}.items():
        page.fill(f"#calculator [name={name}]", value)
    offers = page.locator("[data-alikes] button")
    assert offers.all_inner_texts() == ["The same for Soda bleach", "The same for Oak-bark bath"]
    offers.last.click()
    offers.first.click()
    makes = {i: m["makes"] for i, m in seen(page).mixtures.items() if m["needed"] and i != "stocks/citric"}
    assert set(makes.values()) == {"1080 ml"}
    assert len(makes) == 3
    expect(page.locator("#calculator [name=ask]:checked")).to_be_focused()  # the button that was pressed is gone


def test_each_mixture_keeps_its_own_question_while_the_sentence_turns_to_another(visit: Open) -> None:
    page = visit(CHART)
    two_coats(page)
    page.get_by_role("button", name="And another mixture").click()
    assert page.locator("#calculator [name=mix]").input_value() == FIRST
    expect(page.locator("#calculator [name=amount]")).to_be_focused()
    page.keyboard.type("2")
    page.locator("#calculator [name=unit]").select_option("l")
    page.get_by_role("button", name="Change: Light sensitiser").click()
    assert page.locator("#calculator [name=sheets]").input_value() == "6"
    page.fill("#calculator [name=sheets]", "12")
    assert seen(page).also == (
        "For 2 l of First bath",
        "For 6 sheets of 20 × 25 cm, 15 % extra, 1 coat of Second sensitiser",
    )


def test_one_press_takes_one_mixture_back_and_leaves_the_others(visit: Open) -> None:
    page = visit(CHART)
    written = seen(page)
    two_coats(page)
    page.get_by_role("button", name="Not this: Second sensitiser").click()
    one = seen(page)
    assert one.also == ()
    assert one.mixtures["iron-blue/part-a"]["makes"] == "2.2 ml"
    assert not one.mixtures["tide-chart-and-net/second-coat"]["needed"]
    page.get_by_role("button", name="Back to as written: Light sensitiser").click()
    assert seen(page) == written
    expect(page.get_by_role("button", name="Another amount of Light sensitiser")).to_be_focused()
    page.wait_for_url(lambda url: "#" not in url)


def test_an_amount_in_a_step_that_nothing_asked_needs_says_that_it_is_as_written(visit: Open) -> None:
    page = visit(CHART)
    bath = page.locator(f".ready [data-mixture='{FIRST}']").first
    assert bath.inner_text() == "1000 ml"
    two_coats(page)
    assert bath.inner_text().replace("\N{NO-BREAK SPACE}", " ") == "1000 ml (as written)"
    page.fill("#calculator [name=sheets]", "12")
    assert bath.inner_text().replace("\N{NO-BREAK SPACE}", " ") == "1000 ml (as written)"
    page.get_by_role("button", name="Back to as written", exact=True).click()
    assert bath.inner_text() == "1000 ml"


def test_from_its_section_a_mixture_is_asked_for(visit: Open) -> None:
    page = visit(CHART)
    page.get_by_role("button", name="Another amount of Soda bleach").click()
    assert page.locator("#calculator [name=mix]").input_value() == "oak-bark-toner/bleach"
    expect(page.locator("#calculator [name=amount]")).to_be_focused()
    expect(page.locator("#calculator")).to_be_in_viewport()


def test_a_refused_question_takes_the_amounts_of_all_it_needs_and_the_total_with_it(visit: Open) -> None:
    page = visit(CHART)
    two_coats(page)
    page.fill("#calculator [name=sheets]", "1,5")
    choose(page, FIRST)
    page.fill("#calculator [name=amount]", "2")
    shown = seen(page)
    assert shown.refused.startswith("Light sensitiser: 1,5 has a comma")
    assert page.locator("#refused button").count() == 0  # its blank is not before the reader
    assert shown.totals is None
    makes = {i.partition("/")[2]: m["makes"] for i, m in shown.mixtures.items() if m["needed"]}
    assert (makes["part-a"], makes["light-working"]) == (
        "–",
        "–",
    )  # part A of the second coat alone would be too little
    assert (makes["second-coat"], makes["first-bath"]) == ("26.9 ml", "2 ml")
    assert "Light sensitiser: no answer" in shown.also


@pytest.mark.parametrize(
    ("fragment", "refused"),
    [
        pytest.param("#mix=gone&ask=make&amount=350&unit=ml", "gone is not mixed here", id="unknown"),
        pytest.param("#mix=part-a&ask=make&amount=1&mix=part-a&ask=make&amount=2", "", id="the same mixture twice"),
        pytest.param("#mix=part-a&ask=make&amount=1&amount=2", "", id="two amounts"),
    ],
)
def test_an_address_that_cannot_be_told_is_not_guessed(fragment: str, refused: str, visit: Open) -> None:
    written, shown = seen(visit(BLUE)), seen(visit(BLUE, fragment))
    assert shown.mixtures == written.mixtures
    assert refused in shown.refused
    assert shown.totals is None


def test_what_an_address_asks_of_an_unknown_mixture_leaves_the_rest_and_no_total(visit: Open) -> None:
    page = visit(BLUE, "#mix=gone&ask=make&amount=3&unit=l&mix=part-a&ask=make&amount=100&unit=ml")
    shown = seen(page)
    assert (shown.asked, shown.totals) == ("For 100 ml of Part A, iron", None)
    page.fill("#calculator [name=amount]", "200")
    assert seen(page).refused == ""


def test_paper_carries_every_question_and_the_total_and_no_button(visit: Open) -> None:
    page = visit(CHART)
    two_coats(page)
    page.emulate_media(media="print")
    for words in ("1 coat of Light sensitiser", "1 coat of Second sensitiser", "All in all", "To have at hand"):
        expect(page.get_by_text(words).locator("visible=true").first).to_be_visible()
    expect(page.locator("#total .mix").first).to_be_visible()
    assert page.get_by_role("button").locator("visible=true").count() == 0
    assert not page.locator("section[data-mixture='oak-bark-toner/bleach']").is_visible()


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
def test_a_page_with_several_questions_breaks_no_rule_of_axe_and_fits_a_phone(visit: Open, *, dark: bool) -> None:
    page = visit(CHART)
    page.emulate_media(color_scheme="dark" if dark else "light")
    two_coats(page)
    found = Axe().run(page, options=OPTIONS).response["violations"]
    assert [(rule["id"], node["target"]) for rule in found for node in rule["nodes"]] == []
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
