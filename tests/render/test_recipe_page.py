"""A recipe's page: the hooks its scripts need, and amounts that are right without them."""

import json
import re
from collections.abc import Mapping
from copy import copy

from bs4 import BeautifulSoup, Tag

Soups = Mapping[str, BeautifulSoup]


def one(soup: BeautifulSoup | Tag, selector: str) -> Tag:
    found = soup.select(selector)
    assert len(found) == 1, (selector, len(found))
    return found[0]


def words(tag: Tag) -> str:
    return " ".join(tag.get_text(" ", strip=True).split())


def test_the_plan_in_the_page_is_json_for_this_recipe(blue: BeautifulSoup) -> None:
    plan = json.loads(one(blue, "script#plan").get_text())
    assert plan["recipe"] == "blue"
    assert {t["id"] for t in plan["targets"]} == {f"blue/{m}" for m in ("part-a", "part-b", "working", "bath", "rinse")}
    assert "<" not in one(blue, "script#plan").get_text()


def test_the_places_for_the_calculator_are_there(blue: BeautifulSoup) -> None:
    for selector in ("form#calculator[hidden]", "output#asked", "#refused[role=alert]"):
        one(blue, selector)


def test_every_mixture_and_line_of_the_plan_has_its_place(blue: BeautifulSoup) -> None:
    plan = json.loads(one(blue, "script#plan").get_text())
    for target in plan["targets"]:
        for mixture in target["mixtures"]:
            section = one(blue, f'section.mixture[data-mixture="{mixture["id"]}"]')
            one(section, "output.makes[data-makes]")
            for line in mixture["lines"]:
                row = one(section, f'tr[data-line="{line["key"]}"]')
                for hook in ("td.measure[data-measure]", "td[data-exact]", "td[data-notes]"):
                    one(row, hook)
                one(row, "td:first-child input[type=checkbox][data-tick]")


def test_a_sub_mixture_stands_before_what_it_goes_into_and_a_foreign_one_names_its_recipe(
    blue: BeautifulSoup,
) -> None:
    order = [str(s["id"]) for s in blue.select("section.mixture")]
    assert order.index("mix-part-a") < order.index("mix-working")
    assert order.index("mix-stocks--citric") < order.index("mix-bath")
    foreign = one(blue, "#mix-stocks--citric")
    assert foreign.select('a[href="../../recipes/stocks/index.html#mix-citric"]')


def test_a_measure_is_cut_at_its_decimal_point(blue: BeautifulSoup) -> None:
    cell = one(blue, '#mix-part-a tr[data-line="ferric-ammonium-citrate-green"] [data-measure]')
    assert [words(span) for span in cell.select("span")] == ["40", ".5", "g"]


def test_a_range_keeps_both_ends(blue: BeautifulSoup) -> None:
    cell = one(blue, '#mix-part-b tr[data-line="potassium-ferricyanide"] .whole')
    assert words(cell) == "16–20"


def test_the_words_of_the_author_stand_beside_where_they_say_more(blue: BeautifulSoup) -> None:
    # 4 fl oz US = 118.29 ml, read to 1 ml on a 100 ml vessel filled twice (NIST Handbook 44, appendix C)
    row = one(blue, '#mix-part-b tr[data-line="water"]')
    assert words(one(row, "[data-measure]")) == "118 ml"
    assert words(one(row, ".as-written")) == "as written: to make 4 fl oz US"
    assert words(one(row, "[data-exact]")).startswith("118.294")
    assert not one(blue, '#mix-part-a tr[data-line="water"]').select(".as-written")
    assert words(one(blue, '#mix-bath tr[data-line="stocks/citric"] .as-written')) == "as written: 1 part"


def test_an_amount_in_words_stays_words(blue: BeautifulSoup) -> None:
    row = one(blue, '#mix-rinse tr[data-line="citric-acid-monohydrate"]')
    assert words(one(row, "[data-measure]")) == "as needed"
    assert words(one(row, "[data-exact]")) == ""


def test_live_amounts_name_their_line_or_the_whole_mixture(blue: BeautifulSoup) -> None:
    about = one(blue, ".about data.live")
    assert (about["data-mixture"], about["data-line"]) == ("blue/working", "part-a")
    iron, water = (one(blue, f'#mix-part-a .mixing data[data-line="{key}"]') for key in
                   ("ferric-ammonium-citrate-green", "water"))  # fmt: skip
    assert iron["value"] == "40.5 g"
    assert "up to" in str(water.previous_sibling)
    made = one(blue, ".do data.live")
    assert made["data-mixture"] == "blue/working"
    assert "data-line" not in made.attrs


def test_links_in_prose_stay_on_the_page_where_they_can(blue: BeautifulSoup) -> None:
    ways = [a["href"] for a in blue.select(".about a")]
    assert ways == [
        "#mix-part-a",
        "#mix-stocks--citric",
        "../../substances/ferric-ammonium-citrate/index.html",
        "../../recipes/blue/troubles.html#blues-wash-away",
        "../../recipes/kept/index.html",
    ]


def test_headings_of_the_author_follow_on(blue: BeautifulSoup) -> None:
    assert [h.name for h in blue.select(".about h2, .about h3, .about h4")] == ["h2", "h3"]


def test_hazards_are_whole_on_the_recipe_and_on_its_troubles(soups: Soups) -> None:
    for path, soup in soups.items():
        if re.fullmatch(r"recipes/[^/]+/(index|troubles)\.html", path):
            assert soup.select_one("#hazards .hazards-full dd"), path
    text = words(one(soups["recipes/blue/index.html"], ".hazards-full"))
    for said in ("Gloves of nitrile.", "Weigh out of draughts.", "Never add acid <b>to it</b>.", "Rinse.",
                 "Collect it.", "Data sheets first.", "not the same as harmless"):  # fmt: skip
        assert said in text


def test_title_line_and_sheets(blue: BeautifulSoup) -> None:
    line = words(one(blue, ".card-line"))
    for said in ("IB-01", "Revision 3, 2 March 2026", "settled", "Blue prints"):
        assert said in line
    one(blue, 'a[href="sheet-a4.pdf"]')
    one(blue, 'a[href="sheet-letter.pdf"]')


def test_work_is_shown_with_cues_waits_and_checks(blue: BeautifulSoup) -> None:
    coat, wash = blue.select("section.stage")
    text = words(coat)
    for said in (
        "Light dim",
        "For 2 min",
        "Until An even yellow.",
        "Take care No puddles.",
        "Then wait 45 min",
    ):
        assert said in text
    one(coat, "fieldset.checks input[type=checkbox]")
    one(wash, "p.gate")
    assert "At 15–20 °C" in words(wash)


def test_needs_and_layers_are_listed(blue: BeautifulSoup) -> None:
    assert len(blue.select(".needs input[type=checkbox]")) == 2
    facts = copy(one(blue, ".layer > .facts"))
    assert one(facts, "[data-yours]").extract().has_attr("hidden")  # the reader's own time, when there is one
    assert words(facts) == "Negative W Faces emulsion down Expose to UV lamp For 8 min At 20 cm"
    assert len(blue.select(".layer .preflight input[type=checkbox]")) == 6
    assert [str(svg["aria-label"])[:20] for svg in blue.select(".layer svg[role=img]")] == [
        "From the light down:", "Seen from the light,"
    ]  # fmt: skip


def test_strengths_of_summed_volumes_are_marked_as_estimates_with_the_reason(blue: BeautifulSoup) -> None:
    strengths = words(one(blue, "#mix-working .strengths"))
    assert "≈" in strengths
    assert "volumes do not add up exactly" in strengths
    assert "≈" not in words(one(blue, "#mix-part-a .strengths"))


def test_where_it_comes_from_and_who_uses_it(soups: Soups, blue: BeautifulSoup) -> None:
    text = words(one(blue, ".from"))
    for said in ("After: A book", "Own work: The mill (CC0)", "Takes mixtures from ST-01", "Varied in KX-99"):
        assert said in text
    assert "Used by IB-01" in words(one(soups["recipes/stocks/index.html"], ".from"))
    assert "Varied from IB-01" in words(one(soups["recipes/kept/index.html"], ".from"))


def test_a_stock_offers_its_dilutions(soups: Soups) -> None:
    page = soups["recipes/stocks/index.html"]
    assert "Usual dilution 1+9, 1+19" in words(one(page, "#mix-citric > .facts"))
    one(page, '.dilute[data-dilute="stocks/citric"][hidden]')


def test_troubles_give_cause_first_look_rescue_and_remedy(soups: Soups) -> None:
    text = words(one(soups["recipes/blue/troubles.html"], "#blues-wash-away"))
    assert text.startswith("Blues wash away Too short Look first A strip. Save this print Nothing. Next time Longer")
