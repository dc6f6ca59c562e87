"""Calendars: read back by a library of their own, and held to the rules of RFC 5545."""

import re
from datetime import UTC, date, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st
from icalendar import Calendar

from sitegen.compute.timeline import Timeline, timeline_from
from sitegen.render.calendar import calendar, folded
from tests.compute.plans import at, recipe, stage

DAY = date(2026, 11, 28)
STAMP = datetime(2026, 11, 1, 12, 0, 0, tzinfo=UTC)
BLUE = recipe(
    stage("Coat; brush, or rod", "10-20 min: Coat.", wait="30-120 min", light="Dim, 2 m\\off", checks=["Dry — matt"]),
    stage("Wash", "10-20 min: Wash.", "Drain.", wait="12-24 h"),
    stage("Keep", "Look at it.", checks=["Judged dry."]),
)


def plan(**more: int) -> Timeline:
    return timeline_from(BLUE, at("22:30"), **more)


def read(text: str) -> list[dict[str, object]]:
    return [
        {
            "uid": str(event["UID"]),
            "summary": str(event["SUMMARY"]),
            "about": str(event["DESCRIPTION"]),
            "start": event["DTSTART"].dt,
            "end": event["DTEND"].dt if "DTEND" in event else None,
            "busy": str(event["TRANSP"]),
            "stamp": event["DTSTAMP"].dt,
        }
        for event in Calendar.from_ical(text).walk("VEVENT")
    ]


def test_a_library_reads_back_every_stage_and_wait_at_the_longest_times() -> None:
    events = read(calendar(plan(), DAY, stamp=STAMP))
    assert [(e["summary"], e["busy"]) for e in events] == [
        ("TE-01 Coat; brush, or rod", "OPAQUE"),
        ("TE-01 Coat; brush, or rod: wait", "TRANSPARENT"),
        ("TE-01 Wash", "OPAQUE"),
        ("TE-01 Wash: wait", "TRANSPARENT"),
        ("TE-01 Keep", "OPAQUE"),
    ]
    assert [(e["start"], e["end"]) for e in events[:2]] == [
        (datetime.fromisoformat("2026-11-28T22:30"), datetime.fromisoformat("2026-11-28T22:50")),
        (datetime.fromisoformat("2026-11-28T22:50"), datetime.fromisoformat("2026-11-29T00:50")),
    ]
    assert {e["stamp"] for e in events} == {STAMP}


def test_text_comes_back_as_it_was_with_the_earliest_times() -> None:
    events = read(calendar(plan(), DAY, stamp=STAMP))
    assert "Light: Dim, 2 m\\off" in str(events[0]["about"]).split("\n")
    assert "Before going on: Dry — matt" in str(events[1]["about"]).split("\n")
    assert "Begins between Sat 28 Nov 22:40 and Sat 28 Nov 22:50." in str(events[1]["about"])
    assert "Steps with no time given: 1." in str(events[2]["about"])
    assert "Before going on: Judged dry." in str(events[4]["about"])


def test_times_are_floating_and_the_stamp_is_in_utc() -> None:
    elsewhere = STAMP.astimezone(timezone(timedelta(hours=-5)))
    text = calendar(plan(), DAY, stamp=elsewhere)
    assert "DTSTAMP:20261101T120000Z" in text
    assert re.findall(r"DT(?:START|END):(\S+)", text)
    assert all(re.fullmatch(r"\d{8}T\d{6}", found) for found in re.findall(r"DT(?:START|END):(\S+)", text))
    assert "TZID" not in text


def test_the_same_plan_has_the_same_uids_and_each_event_its_own() -> None:
    first, again = (read(calendar(plan(prints=2), DAY, stamp=s)) for s in (STAMP, STAMP + timedelta(days=1)))
    uids = [e["uid"] for e in first]
    assert uids == [e["uid"] for e in again]
    assert len(set(uids)) == len(uids) == 10
    other = read(calendar(plan(prints=2), date(2026, 12, 5), stamp=STAMP))
    assert not {e["uid"] for e in other} & set(uids)
    assert first[0]["summary"] == "TE-01 Coat; brush, or rod, print 1"


def test_a_stage_without_a_time_has_no_end_rather_than_one_at_its_start() -> None:
    # RFC 5545, 3.8.2.2: the end must be later than the start
    events = read(calendar(plan(), DAY, stamp=STAMP))
    assert events[4]["end"] is None
    assert all(e["end"] is None or e["end"] > e["start"] for e in events)  # type: ignore[operator]  # both times


def test_lines_end_in_crlf_and_hold_75_octets() -> None:
    # RFC 5545, 3.1
    data = calendar(plan(), DAY, stamp=STAMP).encode()
    assert data.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert b"\r" not in data.replace(b"\r\n", b"")
    assert max(len(line) for line in data.split(b"\r\n")) <= 75


@given(st.text(alphabet=st.characters(blacklist_categories=["Cs", "Cc"])))
def test_folding_cuts_no_character_and_unfolds_to_the_line(line: str) -> None:
    pieces = folded(line).split("\r\n")
    assert all(len(piece.encode()) <= 75 for piece in pieces)
    assert all(piece.startswith(" ") for piece in pieces[1:])
    assert pieces[0] + "".join(piece[1:] for piece in pieces[1:]) == line


@pytest.mark.parametrize("title", ["a\nb", "a\r\nb", "BEGIN:VEVENT\r\nx:1", "\x00\x07bell", "\\n; , \\,"])
def test_nothing_typed_breaks_out_of_its_field(title: str) -> None:
    made = recipe(stage(title, "5 min: Do."))
    (event,) = read(calendar(timeline_from(made, at("09:00")), DAY, stamp=STAMP))
    plain = "".join(c for c in title.replace("\r\n", "\n") if c >= " " or c == "\n")
    assert event["summary"] == f"TE-01 {plain}"
