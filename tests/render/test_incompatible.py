"""What a substance must not meet, from the rules of pairs, with the archive's own substances named."""

from sitegen.render.incompatible import Incompatible, incompatible, sided
from tests.labels.mixtures import cards


def rules(id_: str, *used: str) -> tuple[Incompatible, ...]:
    return incompatible(cards()[id_], sided(cards()[u] for u in used))


def test_the_worst_comes_first_and_has_a_source() -> None:
    found = rules("sodium-hypochlorite")
    order = ["Never", "Take care", "Remark"]
    assert found[0].said == "Never"
    assert [order.index(one.said) for one in found] == sorted(order.index(one.said) for one in found)
    assert all(one.source and one.makes for one in found)


def test_acid_and_bleach_name_each_other_among_what_is_used() -> None:
    bleach = [card.id for one in rules("sodium-hypochlorite", "citric-acid") for card in one.cards]
    acid = [card.id for one in rules("citric-acid", "sodium-hypochlorite") for card in one.cards]
    assert bleach.count("citric-acid") >= 1
    assert acid.count("sodium-hypochlorite") >= 1


def test_a_substance_is_not_its_own_partner() -> None:
    for one in rules("silver-nitrate", "silver-nitrate"):
        assert not one.cards


def test_without_groups_no_rule_is_known() -> None:
    plain = [card for card in cards().values() if not card.hazards.groups or card.hazards.groups == ("inert",)]
    assert plain
    assert all(incompatible(card, sided(())) == () for card in plain)
