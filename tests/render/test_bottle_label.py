"""The words of a bottle label: dates, batch, strengths, and what may go when it is small."""

from datetime import date

import pytest

from sitegen.labels.label import NOT_SAFE
from sitegen.problems import Refusal
from sitegen.render.bottle_label import CHILDREN, NOTICE, BottleLabel, bottle_label, wanted
from tests.labels.shelves import computed

DAY = date(2026, 11, 25)


def label(mixture: str, mixed: date | None = DAY) -> BottleLabel:
    found = computed(mixture)
    return bottle_label(found, found.archive.mixtures["blue/bath"], mixed)


SILVER = "bath: {name: Silver, keeps: 1-3 months, contains: {silver-nitrate: 10 g, water: to make 100 ml}}"
CITRATE = "bath: {name: Iron, keeps: 6 h, contains: {ferric-ammonium-citrate-green: 20 g, water: to make 100 ml}}"
RED = "bath: {name: Red, contains: {potassium-ferricyanide: 10 g, water: to make 100 ml}}"


def test_a_label_carries_what_a_bottle_needs() -> None:
    found = label(SILVER)
    assert (found.name, found.code, found.maker) == ("Silver", "IB-07", "The bench")
    assert found.strengths == "silver nitrate 10 % w/v"
    assert (found.mixed, found.use_by) == ("2026-11-25", "2026-12-25, 2027-02-25 at the latest")
    assert found.batch == "IB-07.3 bath 2026-11-25"
    assert (found.signal, found.signs) == ("Danger", ("GHS05", "GHS09"))
    assert "Causes severe skin burns and eye damage." in found.levels[0].h
    assert found.levels[0].p[0] == CHILDREN
    assert found.notice == NOTICE
    assert found.address == "https://bench.example/sheets/index.html#IB-07.3"
    assert found.qr.startswith("<svg")


def test_without_a_day_there_are_lines_to_fill_in() -> None:
    found = label(SILVER, None)
    assert (found.mixed, found.use_by, found.batch) == ("", "", "IB-07.3 bath ")
    assert found.keeps.replace("\N{NO-BREAK SPACE}", " ") == "1–3 months"


def test_what_keeps_for_hours_is_for_the_session() -> None:
    assert label(CITRATE).use_by == "the same session"


def test_not_enough_data_and_not_classified_are_said_apart() -> None:
    assert label(CITRATE).answer == "Not enough data to classify it: handle it as harmful."
    assert "ferric ammonium citrate: no hazard data" in label(CITRATE).unknown
    assert label(RED).answer == f"Not classified. {NOT_SAFE}"
    assert label(RED).unknown == ""


def test_when_small_precautions_go_first_then_milder_statements_and_never_a_severe_one() -> None:
    full, without, severe = label(SILVER).levels
    assert (full.h, without.h) == (full.h, full.h)
    assert without.p == severe.p == (CHILDREN,)
    assert severe.h == ("Causes severe skin burns and eye damage.",)
    assert "see recipe IB-07" in without.more
    assert "see recipe IB-07" in severe.more


def test_reactions_are_named_on_the_bottle() -> None:
    found = label(
        "bath: {name: Soup, contains: {sodium-carbonate-anhydrous: 5 g, ascorbic-acid: 2 g, water: to make 100 ml}}"
    )
    assert "Composition changes" in found.changes


def test_an_unknown_mixture_is_refused_with_those_there_are() -> None:
    with pytest.raises(Refusal) as refused:
        wanted(computed(RED).archive.recipes[0], "nope")
    assert refused.value.help == "write one of `bath`"
