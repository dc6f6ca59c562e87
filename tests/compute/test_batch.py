"""Batches: what each kind of amount comes to at the mixture's own size, and what cannot stand together."""

from fractions import Fraction

import pytest

from sitegen.compute.batch import NOMINAL
from tests.compute.shelf import Kitchen, form

ACID = form("acid", state="liquid", density="1.05 g/ml")
SPIRIT = form("spirit", state="liquid")


def kitchen() -> Kitchen:
    """Two solids, a liquid with a density, one without, and water."""
    return Kitchen(form("citrate"), form("gum"), ACID, SPIRIT)


def amounts(mixed: Kitchen, local: str = "m") -> list[tuple[str, str, Fraction, Fraction]]:
    """Key, kind, low and high of each line."""
    return [(b.line.key, b.kind, b.low, b.high) for b in mixed.batch(local).lines]


def test_absolute_amounts_become_base_units() -> None:
    mixed = kitchen().mix(contains={"citrate": "1-2 kg", "acid": "1 l", "spirit": "3 drops"}, makes="2 l")
    assert amounts(mixed) == [
        ("citrate", "mass", 1000, 2000),
        ("acid", "volume", 1000, 1000),
        ("spirit", "drops", 3, 3),
    ]


def test_filling_up_fixes_the_volume() -> None:
    batch = kitchen().mix(contains={"citrate": "40 g", "water": "to make 200 ml"}).batch()
    assert (batch.size, batch.makes, batch.nominal, batch.estimate) == ("volume", 200, False, False)
    assert [b.fill for b in batch.lines] == [False, True]


def test_a_stated_volume_without_filling_up_is_an_estimate() -> None:
    assert kitchen().mix(contains={"citrate": "40 g", "water": "200 ml"}, makes="200 ml").batch().estimate


def test_volumes_are_summed_and_marked_an_estimate() -> None:
    batch = kitchen().mix(contains={"acid": "10-20 ml", "water": "1 l", "spirit": "5 drops"}).batch()
    assert (batch.makes, batch.estimate) == (1020, True)


def test_masses_are_summed_and_are_no_estimate() -> None:
    batch = kitchen().mix(contains={"citrate": "40 g", "gum": "1 kg"}).batch()
    assert (batch.size, batch.makes, batch.estimate) == ("mass", 1040, False)


def test_parts_share_the_volume_that_is_made() -> None:
    mixed = kitchen().mix(contains={"acid": "1 part", "water": "3 parts", "spirit": "2 drops"}, makes="1 l")
    assert amounts(mixed) == [("acid", "volume", 250, 250), ("water", "volume", 750, 750), ("spirit", "drops", 2, 2)]
    assert mixed.batch().estimate


def test_parts_without_a_size_get_a_nominal_one() -> None:
    batch = kitchen().mix(contains={"acid": "1 part", "water": "3 parts", "spirit": "as needed"}).batch()
    assert (batch.makes, batch.nominal) == (NOMINAL, True)
    assert batch.lines[-1].kind == "words"


def test_parts_by_weight_are_masses() -> None:
    batch = kitchen().mix(contains={"citrate": "1 part by weight", "water": "4 parts by weight"}, makes="500 g").batch()
    assert (batch.size, [b.low for b in batch.lines], batch.estimate) == ("mass", [100, 400], False)


def test_powders_measured_by_volume_may_be_parts_when_it_is_said() -> None:
    batch = kitchen().mix(contains={"gum": "1 part by volume", "water": "1 part by volume"}).batch()
    assert [b.kind for b in batch.lines] == ["volume", "volume"]


def test_a_mixture_made_by_volume_is_a_liquid_in_parts() -> None:
    mixed = kitchen().mix("stock", {"citrate": "10 g", "water": "to make 100 ml"})
    mixed.mix("m", {"stock": "1 part", "water": "1 part"}, makes="50 ml")
    assert amounts(mixed) == [("stock", "volume", 25, 25), ("water", "volume", 25, 25)]


def test_each_percent_is_of_its_own_whole() -> None:
    mixed = kitchen().mix(
        contains={"citrate": "2 % w/v", "acid": "3 % v/v", "gum": "4 % w/w"}, makes="1 l", density="1.25 g/ml"
    )
    assert amounts(mixed) == [("citrate", "mass", 20, 20), ("acid", "volume", 30, 30), ("gum", "mass", 50, 50)]


def test_percents_of_a_volume_in_a_mixture_by_weight_go_through_its_density() -> None:
    mixed = kitchen().mix(contains={"citrate": "2-4 % w/v"}, makes="500 g", density="1.25 g/ml")
    assert amounts(mixed) == [("citrate", "mass", 8, 16)]


def test_percents_alone_get_a_nominal_volume() -> None:
    batch = kitchen().mix(contains={"citrate": "2 % w/v"}).batch()
    assert (batch.makes, batch.nominal, batch.estimate, batch.lines[0].low) == (100, True, False, 2)


def test_percents_of_a_base_are_grams_for_a_hundred_grams() -> None:
    mixed = kitchen().mix(
        contains={"citrate": "12-15 % of fibre", "acid": "21 % of fibre", "spirit": "5 % of fibre", "gum": "as needed"}
    )
    assert amounts(mixed)[:3] == [("citrate", "mass", 12, 15), ("acid", "volume", 20, 20), ("spirit", "mass", 5, 5)]
    assert (mixed.batch().size, mixed.batch().base, mixed.batch().makes) == ("base", "fibre", 100)


def test_times_a_base_of_water_is_measured_by_volume() -> None:
    mixed = kitchen().mix(contains={"water": "30 times fibre"})
    assert amounts(mixed) == [("water", "volume", 3000 / Fraction("0.998"), 3000 / Fraction("0.998"))]


REFUSED = [
    pytest.param(
        {"acid": "1 part", "citrate": "3 g"}, {}, "amounts-mixed",
        "`m` gives some amounts in parts and some otherwise",
        "give all in parts, or none; drops may stand beside parts when `makes` says for how much", id="parts-and-grams",
    ),
    pytest.param(
        {"acid": "1 part", "spirit": "3 drops"}, {}, "amounts-mixed",
        "`m` gives some amounts in parts and some otherwise",
        "give all in parts, or none; drops may stand beside parts when `makes` says for how much", id="drops-no-size",
    ),
    pytest.param(
        {"acid": "1 part by volume", "water": "1 part"}, {}, "parts-two-kinds", "`m` has parts of more than one kind",
        "say `by weight` on every part, or `by volume` on every part", id="said-and-unsaid",
    ),
    pytest.param(
        {"acid": "1 part by volume", "citrate": "1 part by weight"}, {}, "parts-two-kinds",
        "`m` has parts of more than one kind", "say `by weight` on every part, or `by volume` on every part",
        id="weight-and-volume",
    ),
    pytest.param(
        {"citrate": "1 part", "water": "1 part"}, {}, "parts-without-basis",
        "`citrate` is not a liquid, so `parts` can be read in two ways",
        "write `parts by weight` or `parts by volume` on every part", id="powder-in-parts",
    ),
    pytest.param(
        {"acid": "1 part", "water": "1 part"}, {"makes": "500 g"}, "wrong-dimension",
        "`m` is in parts by volume but makes `500 g`", "write a volume, such as `makes: 500 ml`", id="parts-of-a-mass",
    ),
    pytest.param(
        {"gum": "1 part by weight"}, {"makes": "1 l"}, "wrong-dimension",
        "`m` is in parts by weight but makes `1 l`", "write a mass, such as `makes: 500 g`", id="weights-of-a-volume",
    ),
    pytest.param(
        {"gum": "1 % of fibre", "water": "1 l"}, {}, "amounts-mixed",
        "`m` gives some amounts by a base and some otherwise",
        "give every amount as percent of the same base, water too: `30 times fibre`", id="base-and-volume",
    ),
    pytest.param(
        {"gum": "1 % of fibre"}, {"makes": "1 l"}, "amounts-mixed",
        "`m` gives some amounts by a base and some otherwise",
        "give every amount as percent of the same base, water too: `30 times fibre`", id="base-and-size",
    ),
    pytest.param(
        {"gum": "1 % of fibre", "citrate": "1 % of wool"}, {}, "amounts-mixed",
        "`m` has more than one base: `fibre`, `wool`",
        "give every amount as percent of the same base, water too: `30 times fibre`", id="two-bases",
    ),
    pytest.param(
        {"citrate": "1 g", "water": "to make 1 l"}, {"makes": "2 l"}, "makes-disagrees",
        "`m` says it makes `2 l` and is filled to `1 l`", "give both the same figure, or leave `makes` out",
        id="makes-disagrees",
    ),
    pytest.param(
        {"citrate": "1 g", "water": "to make 1 l"}, {"makes": "1 kg"}, "makes-disagrees",
        "`m` says it makes `1 kg` and is filled to `1 l`", "give both the same figure, or leave `makes` out",
        id="makes-a-mass",
    ),
    pytest.param(
        {"citrate": "1 % w/v", "water": "100 ml"}, {}, "makes-missing",
        "how much `m` makes cannot be told from its amounts",
        "add `makes: 200 ml`, or write `water: to make 200 ml`", id="percent-and-volume",
    ),
    pytest.param(
        {"spirit": "5 drops"}, {}, "makes-missing", "how much `m` makes cannot be told from its amounts",
        "add `makes: 200 ml`, or write `water: to make 200 ml`", id="drops-alone",
    ),
    pytest.param(
        {"citrate": "1 % w/w"}, {"makes": "1 l"}, "percent-needs-density",
        "`citrate: 1 % w/w` is percent of a mass, and `m` is measured by volume",
        "add the finished mixture's `density`, such as `density: 1.05 g/ml`, or use another percent",
        id="w/w-by-volume",
    ),
    pytest.param(
        {"citrate": "1 % w/v"}, {"makes": "1 kg"}, "percent-needs-density",
        "`citrate: 1 % w/v` is percent of a volume, and `m` is measured by weight",
        "add the finished mixture's `density`, such as `density: 1.05 g/ml`, or use another percent",
        id="w/v-by-weight",
    ),
    pytest.param(
        {"acid": "150 ml", "spirit": "1 fl oz US", "water": "to make 150 ml"}, {}, "fills-over",
        "`m` holds 179.5735295625 ml before it is filled to 150 ml",
        "raise the volume it is filled to, or lower the amounts", id="fills-over",
    ),
    pytest.param(
        {"citrate": "60 g", "gum": "60 g", "water": "to make 100 g"}, {}, "fills-over",
        "`m` holds 120 g before it is filled to 100 g", "raise the volume it is filled to, or lower the amounts",
        id="weighs-over",
    ),
]  # fmt: skip


@pytest.mark.parametrize(("contains", "given", "code", "message", "remedy"), REFUSED)
def test_refuses_amounts_that_do_not_fit_together(
    contains: dict[str, str], given: dict[str, str], code: str, message: str, remedy: str
) -> None:
    assert kitchen().mix(contains=contains, **given).refusal() == (code, message, remedy)


def test_a_mixture_that_draws_on_a_refused_one_is_not_reported_again() -> None:
    mixed = kitchen().mix("stock", {"citrate": "1 % w/v", "water": "100 ml"})
    mixed.mix("m", {"stock": "1 part", "water": "1 part"})
    assert mixed.refusal()[:2] == ("makes-missing", "how much `stock` makes cannot be told from its amounts")


def test_a_solid_stirred_into_water_makes_an_estimated_volume() -> None:
    """`water: 100 ml` is added, not made up to: DESIGN section 5, trap 11."""
    added = kitchen().mix(contains={"citrate": "20 g", "water": "100 ml"}).batch("m")
    assert (added.size, added.makes, added.estimate) == ("volume", 100, True)
    filled = kitchen().mix(contains={"citrate": "20 g", "water": "to make 100 ml"}).batch("m")
    assert (filled.size, filled.makes, filled.estimate) == ("volume", 100, False)
