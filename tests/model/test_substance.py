"""Substances: every word a card is called by."""

from tests.compute.shelf import base_card, card, form


def test_names_are_listed_once_each_in_order() -> None:
    dry = form("soda-dry", name="soda, dry", formula="Na2CO3", cas="497-19-8", names=("soda ash", "soda"))
    soda = card(dry, form("soda-bare"), id_="soda", name="sodium carbonate", other_names=("soda",))
    assert soda.names() == (
        "soda", "sodium carbonate", "soda-dry", "soda, dry", "soda ash", "Na2CO3", "497-19-8", "soda-bare", "soda bare",
    )  # fmt: skip


def test_a_built_in_card_without_forms_has_one_of_its_own_name() -> None:
    bromide = base_card("potassium-bromide")
    assert [f.id for f in bromide.forms] == [bromide.id]
    assert bromide.names()[:2] == ("potassium-bromide", "potassium bromide")
