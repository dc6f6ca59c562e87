"""The timeline of a recipe page against the program: real controls, random days, prints, ends and working hours."""

import json
import random
import re
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from typing import Any

import pytest
from icalendar import Calendar
from playwright.sync_api import Browser, expect

from sitegen.compute.bath_life import bath_lives
from sitegen.compute.moments import parse_hours, parse_moment
from sitegen.compute.timeline import SUMMER_TIME, Timeline, timeline_from, timeline_until
from sitegen.compute.whole import Computed
from sitegen.model.recipe import Recipe
from sitegen.render.calendar import calendar
from sitegen.render.dated import bath_warnings, clock, span
from sitegen.render.length import lasting
from sitegen.render.timeline_view import timeline_view
from tests.browser.conftest import CONTENT, Open

SLUGS = sorted(
    path.stem for path in (CONTENT / "recipes").glob("*.yaml") if "        for: " in path.read_text(encoding="utf-8")
)
"""The recipes with a step that says how long it takes; the others have no time to plan."""
EACH = 36
SEED = 5545
HOURS = (("", ""), ("", ""), ("08:00", "22:00"), ("09:15", "17:45"), ("06:00", "07:00"), ("00:00", "23:59"))
OF_ANY_DAY = ("no time given", "reckoned as going on by itself")
"""Of these warnings; the page says so without a day, too."""
STAMP = datetime(2026, 11, 1, 12, 0, 0, tzinfo=UTC)

# Fill in the sentence for each question and read what the page then shows.
FILL = """
(questions) => questions.map((fields) => {
  const form = document.getElementById("timing");
  const text = (node) => node.textContent.trim();
  for (const [name, value] of Object.entries(fields)) {
    form.elements[name].value = value;
    if (form.elements[name].value !== value) throw new Error(`${name} does not take ${value}`);
    form.elements[name].dispatchEvent(new Event("input", { bubbles: true }));
  }
  const dated = document.querySelector("[data-dated]");
  return {
    shown: !dated.hidden && document.querySelector("[data-relative]").hidden,
    said: text(dated.querySelector("output")),
    rows: [...dated.querySelectorAll("tbody tr")].map((row) => [...row.cells].map(text)),
    prints: [...dated.querySelectorAll("caption")].map(text),
    strips: dated.querySelectorAll("svg.strip").length,
    notes: [...dated.querySelectorAll("[data-notes] li")].map(text),
  };
})
"""
# The calendar file of each question, as the page's own scripts write it.
CALENDARS = """
([stamp, questions]) => questions.map(({ end, moment, prints, opens, closes }) => {
  const { readTiming, readMoment, readHours, lineFrom, lineUntil } = window.traysideTiming;
  const plan = readTiming(JSON.parse(document.getElementById("timing-plan").textContent));
  const { day, at } = readMoment(moment, plan);
  const line = (end === "start" ? lineFrom : lineUntil)(plan, at, Number(prints), readHours(opens, closes, plan));
  return window.traysideCalendar.calendar(line, day, new Date(stamp));
})
"""


def questions(slug: str) -> list[dict[str, str]]:
    dice = random.Random(f"{SEED} {slug}")
    return [
        dict(zip(("opens", "closes"), dice.choice(HOURS), strict=True))
        | {
            "end": dice.choice(["start", "finish"]),
            "moment": (
                datetime.fromisoformat("2024-01-01") + timedelta(minutes=dice.randrange(4 * 366 * 1440))
            ).isoformat()[:16],
            "prints": str(dice.choice([1, 1, 2, 2, 3, 4, 6])),
        }
        for _ in range(EACH)
    ]


def line_of(fields: dict[str, str], recipe: Recipe) -> tuple[Timeline, date]:
    day, minutes = parse_moment(fields["moment"])
    plan = timeline_from if fields["end"] == "start" else timeline_until
    hours = parse_hours(f"{fields['opens']}-{fields['closes']}") if fields["opens"] else None
    return plan(recipe, minutes, prints=int(fields["prints"]), hours=hours), day


def row(placed: Any, day: date) -> list[str]:
    piece = placed.piece
    alone = ", left alone" if piece.kind == "wait" else ""
    name = "wait" if piece.kind == "wait" and not piece.steps else f"{piece.stage} {piece.title}{alone}"
    takes = lasting(piece.lasts.low, piece.lasts.high) if piece.lasts.high else "no time given"
    night = {"yes": "overnight", "perhaps": "perhaps overnight", "no": ""}[placed.overnight]
    return [name, span(placed.start, day), takes, night]


def said(line: Timeline, day: date, fields: dict[str, str]) -> str:
    ready = f"Ready {'at least ' if line.untimed else ''}{span(line.finish, day)}."
    if fields["end"] == "start" and not fields["opens"]:
        return ready
    if line.last_start is None:
        return f"Start {clock(day, line.start)}. {ready}"
    last = f"After {clock(day, line.last_start)} even the shortest times are too long."
    return f"Start {clock(day, line.start)}. {ready} {last}"


@pytest.mark.parametrize("slug", SLUGS)
def test_page_and_program_agree_on_every_moment(slug: str, computed: Computed, visit: Open) -> None:
    recipe = computed.archive.recipe_named[slug]
    asked = questions(slug)
    assert len(asked) * len(SLUGS) >= 500
    for fields, shown in zip(asked, visit(f"recipes/{slug}/index.html").evaluate(FILL, asked), strict=True):
        line, day = line_of(fields, recipe)
        count = int(fields["prints"])
        notes = bath_warnings(bath_lives(line, computed.archive), day)
        assert shown == {
            "shown": True,
            "said": said(line, day, fields),
            "rows": [row(placed, day) for placed in line.placed],
            "prints": [f"Print {n + 1}" for n in range(count)] if count > 1 else ["Earliest and latest"],
            "strips": count if count > 1 else 0,
            "notes": [*notes, *(w for w in line.warnings if not any(told in w for told in OF_ANY_DAY))],
        }, fields


@pytest.mark.parametrize("slug", SLUGS)
def test_calendar_files_are_those_of_the_program(slug: str, computed: Computed, visit: Open) -> None:
    asked = questions(slug)
    made = visit(f"recipes/{slug}/index.html").evaluate(CALENDARS, [STAMP.isoformat(), asked])
    for fields, text in zip(asked, made, strict=True):
        line, day = line_of(fields, computed.archive.recipe_named[slug])
        assert text == calendar(line, day, stamp=STAMP), fields


def test_the_saved_file_is_read_by_a_library(visit: Open) -> None:
    page = visit("recipes/iron-blue/index.html")
    page.locator("#timing [name=moment]").fill("2026-11-28T22:30")
    page.locator("#timing [name=prints]").fill("2")
    for name in ("opens", "closes"):
        page.locator(f"#timing [name={name}]").fill("")
    with page.expect_download() as saved:
        page.get_by_role("button", name="Save as a calendar file").click()
    assert saved.value.suggested_filename == "iron-blue-2026-11-28.ics"
    events = Calendar.from_ical(saved.value.path().read_bytes()).walk("VEVENT")
    assert len(events) == page.locator("[data-dated] tbody tr").count()
    assert events[0]["DTSTART"].dt == datetime.fromisoformat("2026-11-28T22:30")


@pytest.mark.parametrize("prints", ["0", "21", "x", "", "1.5"])
def test_no_prints_and_too_many_are_refused(prints: str, visit: Open) -> None:
    page = visit("recipes/iron-blue/index.html")
    page.locator("#timing [name=moment]").fill("2026-11-28T09:00")
    page.locator("#timing [name=prints]").fill(prints)
    assert "ask for 1 to 20 prints" in page.locator("#timing .refused").inner_text()
    assert page.locator("[data-dated]").is_hidden()
    assert page.locator("[data-relative]").is_visible()


def test_nobody_is_sent_to_the_bench_at_night_unless_they_ask_for_it(visit: Open) -> None:
    page = visit("recipes/tide-chart-and-net/index.html")
    page.locator("#timing [name=moment]").fill("2026-11-27T21:45")
    answer, notes = page.locator("[data-dated] output"), page.locator("[data-dated] [data-notes]")
    expect(answer).to_contain_text("Start Sat 28 Nov 08:00.")  # an hour's work would not be done by 22:00
    works = page.locator("[data-dated] tbody tr:not(.waits) td:nth-child(2)").all_inner_texts()
    assert all("08" <= time[:2] < "22" for begins in works for time in re.findall(r"\d\d:\d\d", begins))
    page.locator("#timing [name=moment]").fill("2026-11-27T19:00")
    page.locator("#timing [name=prints]").fill("2")
    expect(notes).to_contain_text(
        "Print the net, Wash the net: daylight is asked for, and between 18:00 and 08:00 there may be none"
    )
    page.locator("#timing [name=opens]").fill("09:00")
    page.locator("#timing [name=closes]").fill("16:00")
    expect(notes).not_to_contain_text("daylight")
    expect(notes).to_contain_text("the wait after it is drawn out until the bench opens")


@pytest.mark.parametrize(("opens", "closes"), [("22:00", "08:00"), ("09:00", "09:00"), ("09:00", ""), ("", "17:00")])
def test_hours_that_are_none_of_one_day_are_refused(opens: str, closes: str, visit: Open) -> None:
    page = visit("recipes/iron-blue/index.html")
    page.locator("#timing [name=moment]").fill("2026-11-28T09:00")
    page.locator("#timing [name=opens]").fill(opens)
    page.locator("#timing [name=closes]").fill(closes)
    assert "write opening and closing" in page.locator("#timing .refused").inner_text()
    assert page.locator("[data-dated]").is_hidden()


def test_the_day_of_a_clock_change_has_its_times_all_the_same(
    browser: Browser, visit: Open, computed: Computed
) -> None:
    """Europe/Berlin went from 2:00 to 3:00 on 29 March 2026; the page reads a clock on the wall, as the program."""
    here = visit("recipes/iron-blue/index.html").url
    context = browser.new_context(timezone_id="Europe/Berlin")
    page = context.new_page()
    page.goto(here)
    asked = [{"end": "start", "moment": "2026-03-28T23:30", "prints": "2", "opens": "", "closes": ""}]
    (shown,) = page.evaluate(FILL, asked)
    line, day = line_of(asked[0], computed.archive.recipe_named["iron-blue"])
    assert shown["rows"] == [row(placed, day) for placed in line.placed]
    assert SUMMER_TIME in shown["notes"]
    context.close()


def test_without_scripts_the_times_from_the_start_stand_there(
    browser: Browser, visit: Open, computed: Computed
) -> None:
    here = visit("recipes/iron-blue/index.html").url
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(here)
    view = timeline_view(computed.archive.recipe_named["iron-blue"])
    assert view is not None
    begins = page.locator("[data-relative] tbody tr td:nth-child(2)").all_inner_texts()
    assert begins == [piece.begins for piece in view.pieces]
    assert page.get_by_role("img", name=view.alt).is_visible()
    assert page.locator("#timing").is_hidden()
    context.close()


def test_the_block_holds_whole_numbers_only(visit: Open) -> None:
    block = json.loads(visit("recipes/oak-bark-toner/index.html").locator("#timing-plan").text_content() or "")
    assert Fraction(block["perMinute"]) == 6  # ten seconds
    assert all(end.isdigit() for piece in block["pieces"] for end in piece["lasts"])
