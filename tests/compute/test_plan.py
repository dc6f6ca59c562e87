"""Plans: what must be mixed, in which order, how much of everything, and what cannot be joined."""

from fractions import Fraction

import pytest

from sitegen.compute.batch import batches
from sitegen.compute.plan import targets
from sitegen.problems import Problems
from tests.compute.shelf import Kitchen, card, form

CITRATE = card(form("citrate"), limit="120 g")


def two_stocks() -> Kitchen:
    """Two stocks and a working solution of equal parts, which goes into a third mixture."""
    mixed = Kitchen(CITRATE, form("ferricyanide"), form("wetting-agent", state="liquid"))
    mixed.mix("a", {"citrate": "40 g", "water": "to make 200 ml"})
    mixed.mix("b", {"ferricyanide": "20 g", "water": "to make 200 ml"})
    mixed.mix(
        "working", {"a": "1 part", "b": "1 part", "wetting-agent": "2 drops"}, makes="40 ml",
        coverage="40-50 ml/m²", per_person="10-12 ml", density="1.1 g/ml",
    )  # fmt: skip
    return mixed.mix("tray", {"working": "20 ml", "a": "10 ml", "water": "to make 100 ml"})


def test_sub_mixtures_come_first_and_are_added_up() -> None:
    target = two_stocks().target("tray")
    assert [(m.id, m.makes) for m in target.mixtures] == [("r/a", 20), ("r/b", 10), ("r/working", 20), ("r/tray", 100)]
    assert [(t.of, t.kind, t.amount) for t in target.totals] == [
        ("citrate", "mass", 4),
        ("ferricyanide", "mass", 1),
        ("r/a", "volume", 20),
        ("r/b", "volume", 10),
        ("wetting-agent", "drops", 1),
        ("r/working", "volume", 20),
    ]


def test_final_mixtures_come_before_the_stocks_they_use() -> None:
    mixed, problems = two_stocks(), Problems()
    archive = mixed.archive
    plans = targets(archive.recipes[0], archive, batches(archive, problems), problems)
    assert [t.local for t in plans] == ["tray", "a", "b", "working"]


def test_a_plan_carries_what_questions_need() -> None:
    target = two_stocks().target("working")
    assert (target.size, target.makes, target.nominal, target.density) == ("volume", 40, False, Fraction("1.1"))
    assert target.coverage == (40, 50)
    assert target.per_person == 12  # the upper end, so that there is enough for each


def test_a_range_takes_its_upper_end_of_a_stock() -> None:
    mixed = Kitchen(CITRATE).mix("a", {"citrate": "40 g", "water": "to make 200 ml"})
    mixed.mix("m", {"a": "50-100 ml", "water": "to make 1 l"})
    assert mixed.target().mixtures[0].makes == 100


@pytest.mark.parametrize(
    ("stock", "taken", "makes"),
    [
        ({"citrate": "40 g", "water": "to make 200 ml"}, "110 g", 100),
        ({"citrate": "40 g", "water": "to make 200 g"}, "100 ml", 110),
    ],
)
def test_a_stock_taken_by_the_other_measure_goes_through_its_density(
    stock: dict[str, str], taken: str, makes: int
) -> None:
    mixed = Kitchen(CITRATE).mix("a", stock, density="1.1 g/ml")
    mixed.mix("m", {"a": taken}, makes="1 l")
    assert mixed.target().mixtures[0].makes == makes


def test_refuses_a_stock_taken_by_the_other_measure_without_a_density() -> None:
    mixed = Kitchen(CITRATE).mix("a", {"citrate": "40 g", "water": "to make 200 ml"})
    mixed.mix("m", {"a": "100 g"}, makes="1 l")
    assert mixed.refusal() == (
        "mixture-needs-density",
        "`a: 100 g` is a mass, and `r/a` is made by volume",
        "measure it the same way, or give `r/a` a `density`, such as `density: 1.05 g/ml`",
    )


def test_refuses_drops_of_a_mixture() -> None:
    mixed = Kitchen(CITRATE).mix("a", {"citrate": "40 g", "water": "to make 200 ml"})
    mixed.mix("m", {"a": "3 drops", "water": "to make 1 l"})
    assert mixed.refusal() == (
        "mixture-not-measured",
        "`a: 3 drops` counts drops of a mixture, and a mixture is measured",
        "write it in ml; count once how many drops of your dropper make 10 ml",
    )


def test_refuses_per_person_of_another_measure() -> None:
    mixed = Kitchen(CITRATE).mix(contains={"citrate": "40 g", "water": "to make 200 ml"}, per_person="10 g")
    assert mixed.refusal() == (
        "wrong-dimension",
        "`per person` is a mass, and `m` is made by volume",
        "write a volume, such as `per person: 20 ml`",
    )


@pytest.mark.parametrize(
    ("limit", "stock"), [("120 g", 10), ("20 g", 10), ("19 g", 1), ("2 g", 1), ("1.9 g", None), ("", None)]
)
def test_a_stock_solution_is_proposed_only_where_twice_as_much_dissolves(limit: str, stock: int | None) -> None:
    mixed = Kitchen(card(form("salt"), limit=limit)).mix(contains={"salt": "1 g", "water": "to make 1 l"})
    assert mixed.target().mixtures[0].lines[0].stock == stock


def test_no_stock_solution_is_proposed_where_there_is_no_water() -> None:
    mixed = Kitchen(card(form("salt"), limit="50 g"), form("spirit", state="liquid"))
    mixed.mix(contains={"salt": "1 g", "spirit": "to make 1 l"})
    assert mixed.target().mixtures[0].lines[0].stock is None


def test_a_mixture_without_a_batch_has_no_plan() -> None:
    mixed = Kitchen(CITRATE).mix("a", {"citrate": "4 % w/v", "water": "200 ml"}).mix("m", {"a": "1 part"})
    problems, archive = Problems(), mixed.archive
    found = batches(archive, problems)
    assert targets(archive.recipes[0], archive, found, problems) == ()
    assert [p.code for p in problems.found] == ["makes-missing"]
