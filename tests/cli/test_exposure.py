"""`trayside expose`, run as a user runs it."""

from functools import partial

import pytest

from tests.cli import terminal

run = partial(terminal.run, "expose")
data = partial(terminal.data, "expose")


def test_a_strip_in_thirds_of_a_stop() -> None:
    answer = data("--strip", "4 min", "--steps", "10", "--stops", "1/3")
    assert set(answer) == {"strip", "warnings"}
    bands = answer["strip"]["bands"]
    # B068: the right series; the published table has 13'42 for 12'42
    assert " ".join(b["clock"] for b in bands) == "4'00 5'02 6'21 8'00 10'05 12'42 16'00 20'10 25'24 32'00"
    assert bands[1]["measure"] == {"value": "302", "unit": "s"}
    assert bands[1]["exact"]["value"].startswith("302.381")
    assert bands[3]["stops"] == "1"
    assert answer["strip"]["covering"][0] == {
        "at": {"value": "240", "unit": "s"},
        "clock": "4'00",
        "do": "cover",
        "band": 1,
    }
    assert answer["strip"]["uncovering"][0]["clock"] == "0 s"


def test_a_lamp_moved() -> None:
    # B065: 2 ft 5 min, 4 ft 20 min
    answer = data("--time", "5 min", "--from-distance", "2 ft", "--to-distance", "4 ft")
    assert answer["exact"] == answer["measure"] == {"value": "1200", "unit": "s"}
    assert (answer["clock"], answer["added"]) == ("20'00", {"value": "900", "unit": "s"})
    assert answer["changes"] == [{"why": "distance", "factor": "4", "stops": "2"}]
    assert answer["warnings"]


def test_a_lamp_that_is_none_or_wide_is_not_moved_by_the_law() -> None:
    moved = ("--time", "5 min", "--from-distance", "2 ft", "--to-distance", "4 ft", "--lamp")
    sun = run(*moved, "sun")
    assert (sun.exit_code, sun.stdout) == (2, "")
    assert "the sun is as far off wherever the frame stands" in sun.stderr
    assert "measure across the whole shining face" in run(*moved, "wide").stderr
    assert "inverse square is too long" in run(*moved, "wide", "--lamp-width", "30 cm").stdout


def test_a_strip_around_a_range_has_its_middle_in_stops() -> None:
    bands = data("--around", "8-16 min", "--steps", "5", "--stops", "1/2")["strip"]["bands"]
    assert [b["clock"] for b in bands] == ["5'39", "8'00", "11'19", "16'00", "22'38"]


def test_from_the_strip_to_the_final_time() -> None:
    answer = data("--strip", "4 min", "--stops", "1", "--steps", "3", "--band", "2", "--through", "1/2 stop")
    assert answer["was"] == {"value": "480", "unit": "s"}
    assert answer["clock"] == "11'19"


def test_a_range_stays_a_range_and_less_is_less() -> None:
    answer = data("--time", "4-8 min", "--more", "-1")
    assert answer["measure"] == {"value": "120", "to": "240", "unit": "s"}
    assert answer["added"] == {"value": "-240", "to": "-120", "unit": "s"}


def test_light_and_film() -> None:
    assert data("--time", "6 min", "--light-was", "16", "--light-now", "28")["clock"] == "3'26"
    answer = data("--time", "10 s", "--film-power", "1.31")
    assert (answer["film_power"], answer["clock"]) == ("1.31", "20 s")


def test_says_it_in_words() -> None:
    said = run("--around", "8 min", "--steps", "3", "--stops", "1", "--band", "2", "--more", "1/2").stdout
    assert "band  3      16'00" in said
    assert "     12'00  uncover band 1" in said
    assert "1/2 stop more: times 1.414" in said
    assert "to    11'19" in said
    assert "film: seconds to the power 1.31" in run("--time", "10 s", "--film-power", "1.31").stdout


@pytest.mark.parametrize(
    ("words", "said"),
    [
        ((), "there is no time to begin with"),
        (("--time", "5 min"), "nothing changes"),
        (("--strip", "4 min"), "rises by equal times or by equal parts of a stop"),
        (("--strip", "4 min", "--around", "5 min", "--stops", "1"), "give --strip or --around"),
        (("--stops", "1/3"), "say where it begins"),
        (("--strip", "4 min", "--stops", "1/3", "--time", "5 min"), "say which band was right"),
        (("--strip", "4 min", "--stops", "1/3", "--more", "1"), "a strip and its --band"),
        (("--time", "5 min", "--band", "3", "--more", "1"), "--band names a band of a strip"),
        (("--time", "5 min", "--from-distance", "2 ft"), "give both"),
        (("--time", "5 min", "--lamp-width", "2 cm", "--more", "1"), "--lamp-width goes with a distance"),
        (("--time", "5 min", "--through", "0.3"), "`1/2 stop`, `density 0.15`"),
        (("--time", "5 cm", "--more", "1"), "a time was expected"),
    ],
)
def test_refuses_with_what_to_give(words: tuple[str, ...], said: str) -> None:
    result = run(*words)
    assert result.exit_code == 2
    assert said in result.stderr
