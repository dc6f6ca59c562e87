"""Bath life: what keeps, what is mixed later, what is mixed again, and what makes itself."""

from sitegen.compute.bath_life import BathLife, bath_lives, mixed_again
from sitegen.compute.timeline import timeline_from
from sitegen.model.recipe import Stage
from tests.compute.plans import archive, at, reach, recipe, stage


def life(keeps: str, *stages: Stage, prints: int = 1) -> BathLife:
    made = recipe(*stages, keeps={"bath": keeps})
    (only,) = bath_lives(timeline_from(made, at("09:00"), prints=prints), archive(made))
    return only


FIRST = stage("Wash", "10-20 min: In [it](mixture:bath).")
TWICE = (stage("Coat", "10 min: Use [it](mixture:bath).", wait="1-3 h"), FIRST)


def test_a_bath_used_within_its_life_keeps() -> None:
    got = life("4-6 h", *TWICE)
    (batch,) = got.batches
    assert got.verdict == "keeps"
    assert (batch.needed, batch.until) == (reach(540, 540), reach(620, 750))
    assert batch.not_before == 750 - 240


def test_a_bath_needed_late_is_mixed_late() -> None:
    got = life("12 h", stage("Coat", "1 h: Coat.", wait="1 days"), FIRST)
    (batch,) = got.batches
    assert got.verdict == "mix later"
    assert batch.needed == reach(at("10:00", 1), at("10:00", 1))
    assert batch.not_before == at("10:20", 1) - 720


def test_a_bath_that_ends_before_its_last_use_is_mixed_again() -> None:
    got = life("2-6 h", *TWICE)
    assert got.verdict == "mix again"
    assert [batch.needed for batch in got.batches] == [reach(540, 540), reach(610, 730)]


def test_a_bath_of_two_prints_is_used_until_the_second_is_done() -> None:
    assert life("20 min", FIRST).verdict == "keeps"
    assert len(life("20 min", FIRST, prints=2).batches) == 2


def test_one_use_that_outlasts_the_bath_is_said() -> None:
    assert life("15 min", FIRST).verdict == "too short"


def test_a_bath_without_a_keeping_time_is_not_judged() -> None:
    got = life("", *TWICE)
    assert (got.verdict, got.batches[0].not_before, len(got.batches[0].uses)) == ("not said", None, 2)


def test_a_step_that_goes_on_by_itself_makes_the_mixture_it_names_first() -> None:
    steep = stage("Extract", "3 days: Steep [the bark](mixture:bath).", "1 h: Strain [it](mixture:bath).")
    got = life("1-2 days", steep)
    assert (got.verdict, len(got.batches)) == ("keeps", 1)
    later = stage("Tone", "10 min: Use [it](mixture:bath).")
    assert life("2-3 days", steep, stage("Rest", "5 min: Look.", wait="2 days"), later).verdict == "mix again"


def test_amounts_name_a_mixture_and_other_links_do_not() -> None:
    made = recipe(
        stage("Mix", "5 min: Pour [some](amount:bath), see [here](https://example.org) and [there](mixture:gone)."),
        keeps={"bath": "1 h", "unused": "1 h"},
    )
    got = bath_lives(timeline_from(made, at("09:00")), archive(made))
    assert [found.mixture.local for found in got] == ["bath"]


def test_what_is_mixed_again_is_said_with_the_stages_of_each_batch() -> None:
    third = stage("Rinse", "5 min: In [it](mixture:bath), still [good](mixture:other).")
    made = recipe(*TWICE, third, keeps={"bath": "2-6 h", "other": "1 h"})
    assert mixed_again(made, archive(made)) == {
        "r/bath": "Bath: this is one batch, for Coat; it may not keep, so mix it again for Wash, Rinse"
    }
    assert mixed_again(recipe(), archive(recipe())) == {}
