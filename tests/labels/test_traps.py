"""Traps of hazard data, one test each: where a label engine usually goes wrong."""

from fractions import Fraction

import pytest

from sitegen.labels.entries import ingredient_of, pure
from sitegen.labels.label import NOT_SAFE
from tests.labels.mixtures import carded, cards, classes, codes, entries, form, label, of, pictures, share


@pytest.mark.parametrize("id_", ["ferric-ammonium-citrate", "tannic-acid", "oak-bark", "natural-dye"])
def test_no_judgement_is_not_the_judgement_that_there_is_no_hazard(id_: str) -> None:
    assert label(carded(id_, 10)).answer == "not enough data"


def test_not_classified_is_a_judgement_and_still_not_the_word_safe() -> None:
    found = label(carded("potassium-ferricyanide", 10))
    assert found.answer == "not classified"
    assert "safe" not in found.answer
    assert NOT_SAFE == "Not classified does not mean safe."


def test_an_incomplete_harmonised_entry_is_completed_from_the_card() -> None:
    """The list has no skin class for oxalic acid; a national list has, and the card holds both."""
    assert "H314" in codes(label(carded("oxalic-acid", 5)))


def test_supplemental_statements_are_merged() -> None:
    assert "EUH031" in [t.code for t in label(carded("sodium-metabisulfite", 5)).euh]
    assert "EUH032" in [t.code for t in label(carded("ammonium-thiocyanate", 5)).euh]


def test_a_bottle_of_glacial_acid_and_a_bottle_of_vinegar_are_two_hazards() -> None:
    """The same ten percent of the bottle, by the assay of each."""
    found = []
    for id_ in ("acetic-acid-glacial", "acetic-acid-vinegar"):
        card, one = form(id_)
        found.append(label(ingredient_of(card, one, pure(one, share(40)), entries())))
    assert "H314" in codes(found[0])
    assert found[1].answer == "not classified"


def test_ammonia_is_counted_as_nh3() -> None:
    card, one = form("ammonia-28-percent")
    found = ingredient_of(card, one, pure(one, share(10)), entries())
    assert found.percent == share("2.8")


def test_anhydrous_copper_sulfate_is_stronger_than_the_listed_crystals() -> None:
    card, crystals = form("copper-sulfate-pentahydrate")
    _, dry = form("copper-sulfate-anhydrous")
    at = share("1.92")
    assert "Eye Dam. 1" not in classes(label(ingredient_of(card, crystals, at, entries())))
    assert "Eye Dam. 1" in classes(label(ingredient_of(card, dry, at, entries())))


def test_thiosulfate_and_dithionite_stay_apart() -> None:
    assert label(carded("sodium-thiosulfate", 20)).answer == "not classified"
    assert "EUH031" in [t.code for t in label(carded("sodium-dithionite", 20)).euh]
    assert "thiosulfate" not in " ".join(cards()["sodium-dithionite"].names())


def test_a_limit_without_an_irritant_band_leaves_the_general_rules_on() -> None:
    strong = label(carded("nitric-acid", 2))
    assert "H314" in codes(strong)


def test_where_a_limit_and_the_ph_disagree_both_are_shown() -> None:
    found = label(carded("hydrochloric-acid", 5), ph=Fraction("0.2"))
    assert "H314" not in codes(found)
    assert sum("Skin Corr. 1" in r for r in found.readings) == 2


def test_ghs06_removes_ghs07_and_ghs05_only_its_own_causes() -> None:
    assert pictures(label(of("A", 50, "Acute Tox. 3 (oral)", "Eye Irrit. 2"))) == ["GHS06"]
    assert pictures(label(of("A", 50, "Eye Dam. 1", "Skin Sens. 1"))) == ["GHS05", "GHS07"]


def test_an_oxidising_salt_is_a_warning_for_the_powder_not_a_class_of_the_solution() -> None:
    found = label(carded("potassium-dichromate", 2))
    assert "H272" not in codes(found)
    assert any("when dry" in r for r in found.readings)
    assert "H272" in codes(label(carded("potassium-dichromate", 100), state="solid"))


def test_weighing_and_using_are_two_blocks() -> None:
    powder, solution = (label(carded("potassium-dichromate", p), state=s) for p, s in ((100, "solid"), (2, "liquid")))
    assert "H330" in codes(powder)
    assert not {"H330", "H331", "H332"} & set(codes(solution))


def test_one_edition_of_precautions_is_used() -> None:
    found = {t.code for t in label(carded("potassium-dichromate", 5)).p}
    assert "P305+P351+P338" in found
    assert not found & {"P203", "P316", "P318", "P305+P354+P338"}


def test_a_class_called_minimum_says_so_in_its_reason() -> None:
    found = label(carded("sodium-selenite", 2))
    assert any("a minimum" in r.sentence for r in found.reasons)


@pytest.mark.parametrize(
    ("id_", "percent"),
    [
        ("hydrogen-peroxide-3-percent", 3),
        ("hydrogen-peroxide-30-percent", 30),
        ("ammonia-28-percent", 28),
        ("ammonia-household", 5),
        ("acetic-acid-glacial", 99),
        ("acetic-acid-vinegar", 5),
    ],
)
def test_trade_strengths_are_percent_of_the_substance_itself(id_: str, percent: int) -> None:
    _, one = form(id_)
    pure_share = pure(one, share(100))
    assert pure_share
    assert float(pure_share.low) <= percent * 1.3
    assert float(pure_share.high) >= percent * 0.7


def test_peroxide_by_volumes_and_ferric_chloride_by_baume_are_names_of_a_strength_in_percent() -> None:
    for name, id_ in (("10 volume", "hydrogen-peroxide"), ("baumé", "ferric-chloride")):
        named = [f for f in cards()[id_].forms if any(name in n.casefold() for n in (*f.names, f.name, f.note))]
        assert named, name
        assert all(f.assay for f in named)


def test_hyposulfite_is_thiosulfate_and_never_dithionite() -> None:
    owners = {c.id for c in cards().values() if any("hyposul" in n.casefold() for n in c.names())}
    assert "sodium-thiosulfate" in owners
    assert "sodium-dithionite" not in owners
