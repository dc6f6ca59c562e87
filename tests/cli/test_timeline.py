"""`trayside timeline`, run as a user runs it, over the demo archive."""

from fractions import Fraction
from functools import partial
from pathlib import Path

import pytest
from icalendar import Calendar

from sitegen.cli.shell import load
from sitegen.compute.bath_life import bath_lives
from sitegen.compute.moments import parse_hours
from sitegen.compute.timeline import timeline_from
from tests.cli import terminal
from tests.cli.terminal import DEMO

run = partial(terminal.run, "timeline", "--archive", DEMO)
data = partial(terminal.data, "timeline", "--archive", DEMO)


def test_answers_with_moments_and_minutes() -> None:
    answer = data("IB-01", "--start", "2026-11-28 09:00")
    assert (answer["recipe"], answer["code"], answer["start"]) == ("iron-blue", "IB-01", "2026-11-28T09:00:00")
    first = answer["stages"][0]
    assert first["start"] == {"earliest": "2026-11-28T09:00:00", "latest": "2026-11-28T09:00:00"}
    assert set(first["takes"]) == {"value", "to", "unit"}
    assert first["takes"]["unit"] == "min"
    assert answer["last_start"] is None
    bath = next(b for b in answer["baths"] if b["mixture"] == "working")
    assert bath["verdict"] == "keeps"
    assert set(bath["batches"][0]) == {"needed", "until", "mix_not_before"}


def test_a_wished_finish_is_the_latest_finish() -> None:
    answer = data("iron-blue", "--finish", "2026-11-30 18:00")
    assert answer["finish"]["latest"] == "2026-11-30T18:00:00"
    assert answer["start"] < answer["last_start"]


def test_writes_a_calendar_that_a_library_reads(tmp_path: Path) -> None:
    path = tmp_path / "blue.ics"
    result = run("iron-blue", "--start", "2026-11-28 09:00", "--prints", "2", "--ics", str(path))
    assert str(path) in result.stdout
    events = Calendar.from_ical(path.read_bytes()).walk("VEVENT")
    line = data("iron-blue", "--start", "2026-11-28 09:00", "--prints", "2")
    assert len(events) == len(line["stages"])
    latest = [stage["start"]["latest"] for stage in line["stages"]]
    assert [event["DTSTART"].dt.isoformat() for event in events] == latest


def test_says_it_in_words() -> None:
    said = run("iron-blue", "--finish", "2026-11-30 18:00").stdout
    assert "Iron-blue print (IB-01, revision" in said
    assert "even the shortest times are too long" in said
    assert "hands on  " in said
    assert "overnight" in said


def test_every_recipe_of_the_demo_has_a_timeline() -> None:
    archive = load(Path(DEMO)).archive
    assert archive is not None
    for recipe in archive.recipes:
        line = timeline_from(recipe, Fraction(540), prints=2, hours=parse_hours("08:00-22:00"))
        assert line.finish.low <= line.finish.high
        assert all(life.batches for life in bath_lives(line, archive))


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("iron-blue",), "give either --start or --finish"),
        (
            ("iron-blue", "--start", "2026-11-28 09:00", "--finish", "2026-11-28 19:00"),
            "give either --start or --finish",
        ),
        (("iron-blue", "--start", "28.11. 9 Uhr"), "write the local time as `2026-11-28 09:00`"),
        (("iron-blue", "--start", "2026-11-28 09:00", "--prints", "0"), "ask for 1 to 20 prints"),
        (("iron-blue", "--start", "2026-11-28 09:00", "--hours", "22-8"), "write opening and closing"),
        (("iron-blu", "--start", "2026-11-28 09:00"), "did you mean `iron-blue`"),
    ],
)
def test_refuses_with_what_to_give(words: tuple[str, ...], said: str) -> None:
    result = run(*words)
    assert result.exit_code == 2
    assert said in result.stderr
