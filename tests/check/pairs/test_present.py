"""What is in a mixture, and how strong it can be at most."""

from fractions import Fraction

import pytest

from sitegen.check.pairs.present import draws_on, is_wet, present
from tests.check.pairs.bench import archive, mix, recipe


def percent(contains: str, *others: str, **more: str) -> Fraction | None:
    mixtures = [*(mix(text, f"part-{n}") for n, text in enumerate(others)), mix(contains, **more)]  # type: ignore[arg-type]
    made = archive(recipe(*mixtures))
    return present(made.mixtures["r/m"], made)[0].percent


@pytest.mark.parametrize(
    ("contains", "most"),
    [
        pytest.param("potassium-ferricyanide 10 g", 10, id="weighed"),
        pytest.param("potassium-ferricyanide 5-10 g", 10, id="the-high-end"),
        pytest.param("potassium-ferricyanide 4 % w/v", 4, id="percent-by-volume"),
        pytest.param("dry: potassium-ferricyanide 1 part by weight + sugar 3 parts by weight", 25, id="parts"),
        pytest.param("dry: potassium-ferricyanide 50 % of fibre + sugar 150 % of fibre", 25, id="of-a-base"),
        pytest.param("dry: potassium-ferricyanide 10 g + sugar 10 g", 50, id="no-water"),
        pytest.param("dry: sodium-chloride to make 1 kg", 100, id="filled-up"),
        pytest.param("hydrogen-peroxide-30-percent 100 ml", 30, id="never-more-than-its-bottle"),
    ],
)  # fmt: skip
def test_the_most_there_can_be(contains: str, most: int) -> None:
    assert percent(contains) == most


@pytest.mark.parametrize("contains", ["sugar as needed", "sugar 2 pieces", "sugar to pH 4"])
def test_what_has_no_measure_is_unknown(contains: str) -> None:
    assert percent(contains) is None


def test_the_strength_of_a_bottle_is_taken_off() -> None:
    # 20 ml of 1.11 g/ml at 30 % in 100 ml: 6.66 g, more than the 6.3 % w/w it is.
    found = percent("hydrogen-peroxide-30-percent 20 ml")
    assert found is not None
    assert Fraction(63, 10) < found < Fraction(68, 10)


def test_drops_count_as_a_twentieth_of_a_millilitre() -> None:
    assert percent("part-0 20 drops", "potassium-ferricyanide 10 g") == Fraction(1, 10)


def test_a_stock_is_resolved_to_what_it_holds() -> None:
    assert percent("part-0 10 ml", "potassium-ferricyanide 10 g") == 1


def test_one_substance_by_two_ways_is_added_up_or_unknown() -> None:
    assert percent("potassium-ferricyanide 1 g + part-0 10 ml", "potassium-ferricyanide 10 g") == 2
    assert percent("potassium-ferricyanide as needed + part-0 10 ml", "potassium-ferricyanide 10 g") is None


def test_water_is_not_listed_and_makes_it_wet() -> None:
    made = archive(recipe(mix("sugar", "wet"), mix("dry: sugar", "dry"), mix("dry: wet 1 ml + sugar")))
    assert [one.name for one in present(made.mixtures["r/wet"], made)] == ["sugar"]
    assert [is_wet(made.mixtures[f"r/{id_}"], made) for id_ in ("wet", "dry", "m")] == [True, False, True]


def test_what_is_drawn_on_is_followed_to_the_end() -> None:
    made = archive(recipe(mix("sugar", "a"), mix("a 5 ml", "b"), mix("b 5 ml")))
    assert draws_on(made.mixtures["r/m"], made) == {"r/a", "r/b"}
