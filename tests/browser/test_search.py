"""Search from the disk: half words, slips, names, phrases, the keyboard, what is loaded, what is said aloud."""

import random
import re
from collections.abc import Iterator, Mapping
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from sitegen.compute.whole import Computed
from sitegen.render.search_index import shelf
from sitegen.search.lexicon import entries
from sitegen.search.query import parse_query
from sitegen.search.rank import Finder
from sitegen.search.snippet import snippet
from sitegen.search.words import beginning, composed, pieces, unbent
from tests.browser.conftest import Open
from tests.browser.hosting import Host
from tests.search.judged import graded
from tests.search.narrowing import Narrower, Narrowing

RANK = """async (queries) => {
  const found = [];
  for (const query of queries) found.push((await traysideRank.rank(traysideWords.parse(query))).order);
  return found;
}"""
WORDS = """(words) => words.map((word) => {
  const found = traysideWords.pieces(word).flatMap(({ words, beside }) => [...words, ...beside]);
  return [found, found.map(traysideWords.beginning), found.map(traysideWords.unbent)];
})"""


@pytest.fixture
def home(visit: Open) -> Page:
    return visit("index.html")


def titles(page: Page, words: str) -> list[str]:
    """What is found once the search has spoken; the list is asked for after it was filled."""
    page.evaluate("document.getElementById('said').textContent = ''")
    page.fill("#search input", words)
    expect(page.locator("#said")).to_contain_text(re.compile("found|Type"))
    return page.locator("#found .entry-title").all_inner_texts()


def test_half_a_word_is_enough(home: Page) -> None:
    assert titles(home, "iron-bl")[0] == "Iron-blue print"
    assert "Iron-blue print" in titles(home, "ferricyan")


@pytest.mark.parametrize(
    "words", ["washing soda", "washing-soda", "WASHING SODA", "soda washing", "washingsoda", "wahsing soda"]
)
def test_household_names_are_found_however_they_are_written(words: str, home: Page) -> None:
    assert any("sodium carbonate" in title.lower() for title in titles(home, words))


@pytest.mark.parametrize("words", ["ib-01", "IB01", "ib 01"])
def test_a_code_is_found(words: str, home: Page) -> None:
    assert titles(home, words)[0] == "Iron-blue print"


def test_accents_do_not_count(home: Page) -> None:
    assert titles(home, "írön blüe") == titles(home, "iron blue") != []


def test_a_word_that_is_nowhere_is_named(home: Page) -> None:
    found = titles(home, "iron-blue zzyzxq")
    assert found[0] == "Iron-blue print"
    assert home.locator("#said").inner_text().endswith("; nothing is like “zzyzxq”")


def test_every_query_gives_the_order_of_the_terminal(home: Page, computed: Computed) -> None:
    data = shelf(computed)
    finder = Finder(data.__getitem__)
    queries = [query.text for query in graded()]
    queries += [
        '"at 18-30 °C"',
        '-"at 18-30 °C" etch',
        '"the top of the print" -"silver nitrate" -gelatine',
        '"in the"',
    ]
    assert len(queries) >= 120
    queries += list(altered(data, 200))
    found = home.evaluate(RANK, queries)
    for query, order in zip(queries, found, strict=True):
        assert [tuple(each) for each in order] == list(finder.rank(parse_query(query)).order), query


def test_lists_of_common_words_are_read_as_python_reads_them(
    home: Page, computed: Computed, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("sitegen.search.index.WEIGHTIEST", 5)
    data = shelf(computed)
    finder = Finder(data.__getitem__)
    home.evaluate("(shards) => Object.assign(traysideShelf, shards)", dict(data))
    queries = ["water tea ", '"water"', "tea -water ", '"first bath"', 'bath -"first bath" ', *altered(data, 60)]
    found = home.evaluate(RANK, queries)
    for query, order in zip(queries, found, strict=True):
        assert [tuple(each) for each in order] == list(finder.rank(parse_query(query)).order), query
    assert any(name[0] == "q" for name in data)


def altered(data: Mapping[str, Any], count: int) -> Iterator[str]:
    """Queries of filed words with other endings, slips, quotes and minuses, the same on every run."""
    dice = random.Random(1842)
    forms = [form for name in data if re.fullmatch(r"w\d+", name) for e in entries(data[name]) for form in e.forms]
    ways = (
        lambda word: word,
        lambda word: word + dice.choice(("s", "ed", "ing", "e")),
        lambda word: word[: dice.randrange(1, len(word) + 1)],
        lambda word: word[: (at := dice.randrange(len(word)))] + dice.choice("aeiorstn") + word[at + 1 :],
        lambda word: "-" + word,
        lambda word: f'"{word} {dice.choice(forms)}"',
    )
    for _ in range(count):
        yield " ".join(dice.choice(ways)(dice.choice(forms)) for _ in range(dice.randrange(1, 4)))


def test_words_are_cut_and_looked_up_as_python_does(home: Page, computed: Computed) -> None:
    data = shelf(computed)
    texts = [text for name in data if re.fullmatch(r"d\d+", name) for each in data[name] for _, text in each[4]]  # type: ignore[attr-defined]  # as written
    texts += ["Sulphité Straße K3[Fe(CN)6]", "don’t mill's 1+9 10 % 2–5 min 497-19-8 Fe(NO3)3·9H2O", "x²½ ﬁne Ǆ İ"]
    found = home.evaluate(WORDS, [composed(text) for text in texts])
    for text, (words, beginnings, unbents) in zip(texts, found, strict=True):
        mine = [word for piece in pieces(composed(text)) for word in (*piece.words, *piece.beside)]
        assert words == mine, text
        assert beginnings == [beginning(word) for word in mine], text
        assert unbents == [unbent(word) for word in mine], text


def test_the_reason_is_shown_with_its_words_marked(home: Page, computed: Computed) -> None:
    titles(home, "salt print silver")
    finder = Finder(shelf(computed).__getitem__)
    ranked = finder.rank(parse_query("salt print silver"))
    fields = shelf(computed)["index"]["fields"]  # type: ignore[index]  # as written
    for place in range(3):
        texts = finder.document(ranked.order[place][0])[4]
        best = snippet(((n, t) for n, t in texts), ranked.meant, list(fields))
        assert best is not None
        shown = home.locator("#found > li").nth(place).locator(".entry-summary")
        assert shown.inner_text() == " ".join(f"{fields[best.field]}: {''.join(best.stretches)}".split())
        assert shown.locator("mark").all_inner_texts() == [m.strip() for m in best.stretches[1::2]]


def test_nothing_empty_is_marked(home: Page) -> None:
    for words in ("tea", "shiny", "ironblue"):
        titles(home, words)
        assert "" not in home.locator("#found mark").all_inner_texts()


def test_only_the_shards_that_are_needed_are_loaded(home: Page) -> None:
    titles(home, "ferricianide")
    loaded = home.evaluate("Object.keys(traysideShelf)")
    assert {name[0] for name in loaded} <= {"i", "w", "p", "d"}
    assert len([name for name in loaded if name[0] == "w"]) <= 3


def test_keys_walk_through_what_is_found_and_open_it(home: Page) -> None:
    home.locator("h1").click()
    home.keyboard.press("/")
    assert home.evaluate("document.activeElement.type") == "search"
    titles(home, "iron-blue print")
    home.keyboard.press("ArrowDown")
    first = home.locator("#found a").first
    assert first.evaluate("node => node === document.activeElement")
    home.keyboard.press("Escape")
    assert home.evaluate("document.activeElement.type") == "search"
    home.keyboard.press("Enter")
    home.wait_for_url("**/recipes/iron-blue/index.html")


def test_a_slash_in_a_field_is_only_a_slash(home: Page) -> None:
    home.fill("#search input", "1")
    home.keyboard.press("/")
    assert home.input_value("#search input") == "1/"


def test_results_are_counted_aloud_and_more_are_shown_when_asked(home: Page) -> None:
    first = len(titles(home, "print"))
    count = int(home.locator("#said").inner_text().split()[0])
    assert home.locator("#said").get_attribute("role") == "status"
    assert first == 8 < count
    home.click("#further")
    expect(home.locator("#found > li").nth(8)).to_be_visible()
    expect(home.locator("#found > li").nth(8).locator("a")).to_be_focused()
    assert home.evaluate("document.activeElement.className") == "entry-link"


def test_nothing_typed_shows_nothing(home: Page) -> None:
    titles(home, "tea")
    home.fill("#search input", "")
    expect(home.locator("#said")).to_have_text("")
    assert home.locator("#found > li").count() == 0


def test_targets_can_be_hit_with_a_thumb_and_nothing_is_wider_than_the_phone(home: Page) -> None:
    titles(home, "blue washes off")
    for box in [link.bounding_box() for link in home.locator("#found .entry-link").all()]:
        assert box
        assert box["height"] >= 44  # px, WCAG 2.2, 2.5.5
    assert home.evaluate("document.documentElement.scrollWidth") <= 360


@pytest.mark.parametrize("typed", ["a", "-silver", '"', "-", "\U0001f600", "the "])
def test_where_nothing_can_be_sought_a_word_is_asked_for(typed: str, home: Page) -> None:
    assert titles(home, typed) == []
    assert home.locator("#said").inner_text() == "Type a word, or more of it"


def test_a_screen_reader_is_told_once_the_typing_rests(home: Page) -> None:
    home.evaluate("""() => {
      globalThis.told = [];
      new MutationObserver(() => told.push(document.getElementById("said").textContent))
        .observe(document.getElementById("said"), { childList: true });
    }""")
    home.locator("#search input").press_sequentially("walnut", delay=50)
    expect(home.locator("#said")).to_contain_text("found")
    assert home.evaluate("told") == [home.locator("#said").inner_text()]


def test_what_was_sought_is_found_again_by_going_back(home: Page) -> None:
    found = titles(home, "walnut")
    home.locator("#found a").nth(1).click()
    home.go_back()
    expect(home.locator("#found .entry-title")).to_have_text(found)
    assert home.input_value("#search input") == "walnut"


def test_as_many_results_as_were_shown_are_there_again(search: Page) -> None:
    titles(search, "print")
    search.click("#further")
    expect(search.locator("#found > li")).to_have_count(16)
    search.locator("#found a").nth(12).click()
    search.go_back()
    expect(search.locator("#found > li")).to_have_count(16)
    titles(search, "prints")
    expect(search.locator("#found > li")).to_have_count(8)


def test_the_way_to_the_page_forgets_nothing(search: Page) -> None:
    titles(search, "walnut")
    search.locator(".skip").focus()
    search.keyboard.press("Enter")
    expect(search).to_have_url(re.compile("#q=walnut$"))
    assert search.input_value("#search input") == "walnut"


@pytest.fixture
def host(site: Path) -> Iterator[Host]:
    """The site on a host of its own; shards of the search wait until `go` is set, those that are `gone` never come."""
    server = Host(site)
    Thread(target=server.serve_forever, daemon=True).start()
    yield server
    server.go.set()
    server.shutdown()
    server.server_close()


def test_a_slow_host_is_waited_for_and_only_the_last_words_count(host: Host, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(f"{host.address}/search/index.html")
    titles(page, "walnut")
    host.go.clear()
    page.fill("#search input", "ferricyanide")
    expect(page.locator("#said")).to_have_text("Looking …")
    assert page.locator("#found").get_attribute("aria-busy") == "true"
    page.fill("#search input", "beetroot")
    host.go.set()
    expect(page.locator("#found .entry-title").first).to_have_text("Beetroot print")
    expect(page.locator("#said")).to_contain_text("found")
    assert page.locator("#found").get_attribute("aria-busy") == "false"


def test_a_shard_that_does_not_come_is_named_and_asked_for_again(host: Host, context: BrowserContext) -> None:
    page = context.new_page()
    page.goto(f"{host.address}/search/index.html")
    titles(page, "walnut")
    host.gone = "/search/d"
    page.fill("#search input", "beetroot")
    expect(page.locator("#said")).to_contain_text(re.compile(r"did not load \(search/d\d+\.js\)"))
    assert page.locator("#found > li").count() == 0
    host.gone = ""
    assert titles(page, "beetroots")[0] == "Beetroot print"


NARROW = """async (ticks) => {
  const { facets } = await traysideRank.need("facets");
  const all = [...(await traysideRank.need("facets")).many].map((_, recipe) => recipe);
  return ticks.map((ticked) => {
    const sets = new Map(Object.entries(ticked).map(([id, choices]) => [id, new Set(choices)]));
    return all.filter(traysideNarrow.fits(facets, sets));
  });
}"""


def test_any_combination_of_ticks_leaves_what_python_leaves(search: Page, computed: Computed) -> None:
    open_facets(search)
    data = shelf(computed)
    dice = random.Random(1842)
    columns = data["facets"]["facets"]  # type: ignore[index]  # as written
    ticks = [
        {c["id"]: [name for name, _ in c["choices"] if dice.random() < 0.3] for c in columns if dice.random() < 0.5}
        for _ in range(200)
    ]
    found = search.evaluate(NARROW, ticks)
    reader = Narrower(data.__getitem__)
    for ticked, kept in zip(ticks, found, strict=True):
        fits = reader.fits(Narrowing(ticked={name: frozenset(each) for name, each in ticked.items()}))
        assert kept == [n for n in range(len(computed.archive.recipes)) if fits(n)], ticked


@pytest.fixture
def search(visit: Open) -> Page:
    page = visit("search/index.html")
    page.wait_for_selector("#narrowing")
    return page


def open_facets(page: Page) -> None:
    page.evaluate("for (const each of document.querySelectorAll('#narrowing, .facet')) each.open = true")
    page.wait_for_selector("#narrowing .choice .count:not(:empty)")


def test_what_narrows_is_loaded_when_it_is_opened(search: Page) -> None:
    assert titles(search, "walnut")
    assert search.evaluate("[!globalThis.traysideNarrow, 'facets' in traysideShelf]") == [True, False]
    search.locator(".narrowing-name").click()
    search.get_by_text("Light it needs").click()
    expect(search.locator("[data-facet=light] .choice").first).to_be_visible()
    assert search.evaluate("[!globalThis.traysideNarrow, 'facets' in traysideShelf]") == [False, True]


def test_counts_on_the_shelf_are_of_the_recipes_that_are_left(search: Page, computed: Computed) -> None:
    open_facets(search)
    search.locator("input[name=process][value=toning]").check()
    finder = Finder(shelf(computed).__getitem__)
    found = [finder.document(n) for n in range(len(computed.archive.recipes))]
    toning = [holds for _, _, code, _, _, holds in found if code.startswith("TN-")]
    for substance in {each for *_, holds in found for each in holds}:
        choice = search.locator("label.choice", has=search.locator(f"input[value={substance}]"))
        expect(choice.locator(".count")).to_have_text(str(sum(substance in holds for holds in toning)))


def test_counts_beside_each_choice_say_how_many_a_tick_would_leave(search: Page) -> None:
    open_facets(search)
    choice = search.locator("label.choice", has=search.locator("input[name=process][value=toning]"))
    count = int(choice.locator(".count").inner_text())
    choice.locator("input").check()
    expect(search.locator("#said")).to_have_text(f"{count} found")
    assert search.locator("#found .code").all_inner_texts() == ["TN-01", "TN-02", "TN-03"]


def test_what_is_ticked_stands_in_the_address_and_is_read_from_it(search: Page, visit: Open) -> None:
    open_facets(search)
    search.locator("input[name=process][value=toning]").check()
    titles(search, "walnut")
    fragment = "#" + search.url.partition("#")[2]
    again = visit("search/index.html", fragment)
    again.wait_for_selector("#found > li")
    assert again.input_value("#search input") == "walnut"
    assert again.locator("input[name=process][value=toning]").is_checked()
    assert again.locator("#found .code").first.inner_text() == "TN-02"


def test_the_shelf_sorts_by_what_is_missing_and_names_it(search: Page, computed: Computed) -> None:
    open_facets(search)
    finder = Finder(shelf(computed).__getitem__)
    recipe = next(r for r in (finder.document(n) for n in range(len(computed.archive.recipes))) if r[2] == "PE-01")
    for substance in recipe[5]:
        search.locator(f"input[name=shelf][value={substance}]").check()
    search.wait_for_selector("#found .lacking")
    missing = search.locator("#found .lacking").all_inner_texts()
    counts = [0 if text == "Nothing is missing." else text.count(",") + 1 for text in missing]
    assert counts == sorted(counts)
    assert counts[0] == 0
    assert search.locator("#found .code").first.inner_text() == "PE-01"


def test_leaving_out_a_symbol_leaves_out_what_is_not_known_until_that_is_unticked(search: Page) -> None:
    open_facets(search)
    unknown = search.locator("input[name=hazard][value=unknown]")
    assert unknown.count() == 1
    search.locator("input[name=hazard][value=corrosive]").check()
    assert unknown.is_checked()
    expect(search.locator("#said")).to_contain_text("found")
    few = int(search.locator("#said").inner_text().split()[0])
    unknown.uncheck()
    expect(search.locator("#said")).not_to_have_text(f"{few} found")
    assert int(search.locator("#said").inner_text().split()[0]) > few


def test_what_is_ticked_stands_beside_its_name_and_is_unticked_by_one_button(search: Page) -> None:
    open_facets(search)
    assert not search.locator(".narrowing-end").is_visible()
    search.locator("input[name=process][value=toning]").check()
    expect(search.locator(".narrowing-count")).to_have_text("3 of 20 recipes")
    assert search.locator("[data-facet=process] .chosen").inner_text() == "Toning blue prints"
    search.get_by_role("button", name="Untick everything").click()
    expect(search.locator(".narrowing-count")).to_have_text("by time, light, hazard, shelf")
    assert search.locator("#narrowing input:checked").count() == 0
    assert search.locator("#found > li").count() == 0


def test_words_to_be_left_out_narrow_by_themselves(search: Page, computed: Computed) -> None:
    open_facets(search)
    search.locator("input[name=status][value=settled]").check()
    titles(search, "-silver")
    finder = Finder(shelf(computed).__getitem__)
    silver = {number for number, _ in finder.rank(parse_query('"silver"')).order}
    settled = [n for n, r in enumerate(sorted(computed.archive.recipes, key=lambda r: r.code)) if r.status == "settled"]
    left = [n for n in settled if n not in silver]
    assert 0 < len(left) < len(settled)
    assert search.locator("#said").inner_text() == f"{len(left)} found"


def test_what_was_on_the_shelf_last_time_is_ticked_again_when_asked(search: Page, visit: Open) -> None:
    open_facets(search)
    again = search.get_by_role("button", name="Tick what I had last time")
    expect(again).to_be_hidden()
    for substance in ("citric-acid", "ferric-ammonium-citrate"):
        search.locator(f"input[name=shelf][value={substance}]").check()
    search.get_by_role("button", name="Untick everything").click()
    expect(again).to_be_visible()
    later = visit("search/index.html")
    open_facets(later)
    later.get_by_role("button", name="Tick what I had last time").click()
    expect(later.locator("[data-facet=shelf] .chosen")).to_have_text("citric acid, ferric ammonium citrate")
    expect(later.get_by_role("button", name="Tick what I had last time")).to_be_hidden()
    expect(later).to_have_url(re.compile("shelf=citric-acid%2Cferric-ammonium-citrate$"))


@pytest.mark.parametrize(
    ("typed", "names"),
    [("washing soda", ["sodium carbonate"]), ("sodum carb", ["sodium carbonate", "sodium hydrogencarbonate"]),
     ("hypo", ["sodium thiosulfate"]), ("7761-88-8", ["silver nitrate"]), ("potassium al", ["potassium alum"])],
)  # fmt: skip
def test_the_shelf_is_sifted_by_any_name(typed: str, names: list[str], search: Page) -> None:
    open_facets(search)
    search.fill(".shelf-filter", typed)
    expect(search.locator("[data-facet=shelf] .choice:not([hidden])")).to_have_text(
        [re.compile(name) for name in names]
    )
    search.fill(".shelf-filter", "zebra")
    expect(search.locator(".shelf-none")).to_be_visible()


def test_enter_in_the_sieve_unticks_nothing(search: Page) -> None:
    open_facets(search)
    search.locator("input[name=shelf][value=citric-acid]").check()
    search.locator(".shelf-filter").press("Enter")
    assert search.locator("input[name=shelf][value=citric-acid]").is_checked()


def test_on_a_phone_the_panel_lies_under_the_thumb_and_what_is_found_above_it(search: Page) -> None:
    name = search.locator(".narrowing-name")
    band = name.bounding_box()
    assert band
    assert band["y"] + band["height"] == pytest.approx(740, abs=1)
    assert band["height"] >= 44
    name.click()
    search.locator("[data-facet=process] > summary").click()
    search.locator("input[name=process][value=toning]").check()
    expect(search.locator("#found .entry-link").first).to_be_in_viewport()
    first, panel = (
        search.locator("#found .entry-link").first.bounding_box(),
        search.locator("#narrowing").bounding_box(),
    )
    assert first
    assert panel
    assert first["y"] + first["height"] <= panel["y"]
    controls = search.locator("#narrowing :is(summary, .choice, button)")
    for box in [each.bounding_box() for each in controls.all() if each.is_visible()]:
        assert box
        assert box["height"] >= 44
    assert search.evaluate("document.documentElement.scrollWidth") <= 360
    search.get_by_role("button", name="Show them").click()
    expect(search.locator("#found a").first).to_be_focused()
    name.click()
    search.locator("input[name=process][value=toning]").press("Escape")
    expect(name).to_be_focused()
    assert not search.locator("#narrowing form").is_visible()


def test_where_there_is_room_the_panel_stands_beside_what_is_found(search: Page) -> None:
    search.set_viewport_size({"width": 1280, "height": 800})
    assert not search.locator(".narrowing-name").is_visible()
    search.locator("[data-facet=process] > summary").click()
    search.locator("input[name=process][value=toning]").check()
    first = search.locator("#found > li").first
    expect(first).to_be_visible()
    beside, panel = first.bounding_box(), search.locator("#narrowing").bounding_box()
    assert beside
    assert panel
    assert beside["x"] + beside["width"] <= panel["x"]


def test_what_was_found_is_printed_with_what_was_asked(search: Page) -> None:
    open_facets(search)
    search.locator("input[name=process][value=toning]").check()
    titles(search, "walnut")
    search.emulate_media(media="print")
    assert search.locator("#found > li").first.is_visible()
    assert search.locator("#search input").is_visible()
    assert search.locator("[data-facet=process] .chosen").is_visible()
    assert not search.locator("#narrowing :is(.choice, button)").first.is_visible()
    assert not search.locator(".browse").is_visible()


@pytest.mark.parametrize("path", ["index.html", "search/index.html"])
def test_without_scripts_nothing_is_shown_that_does_nothing(path: str, site: Path, browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / path).as_uri())
    assert [each for each in page.locator("input, select, button, summary").all() if each.is_visible()] == []
    assert page.locator("noscript p").is_visible()
    context.close()


def test_the_lists_below_work_without_scripts(site: Path, browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "search/index.html").as_uri())
    for name in ("All recipes", "Processes", "Substances", "Symptoms", "Keywords", "Recently revised"):
        page.click(f".browse a:has-text('{name}')")
        assert page.locator("main a").count() > 5
        page.go_back()
    context.close()
