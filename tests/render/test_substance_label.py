"""Labels of jars by form, and the gaps of a card in sentences."""

from dataclasses import replace

from sitegen.render.substance_label import jars, not_known
from tests.labels.mixtures import cards
from tests.labels.shelves import computed


def test_forms_of_unlike_strength_have_labels_of_their_own() -> None:
    archive = computed("bath: {name: Bath, contains: {hydrogen-peroxide-3-percent: 1 ml, water: 1 l}}").archive
    found = jars(cards()["hydrogen-peroxide"], archive)
    answers = {name: jar.label.answer for jar in found for name in jar.forms}
    assert set(answers) == {form.name for form in cards()["hydrogen-peroxide"].forms}
    assert set(answers.values()) == {"classified", "not classified"}


def test_forms_of_one_label_stand_together() -> None:
    archive = computed("bath: {name: Bath, contains: {ferric-ammonium-citrate-green: 1 g, water: 1 l}}").archive
    (jar,) = jars(cards()["ferric-ammonium-citrate"], archive)
    assert len(jar.forms) == len(cards()["ferric-ammonium-citrate"].forms)


def test_every_card_says_what_it_does_not_know() -> None:
    for card in cards().values():
        told = " ".join(not_known(card))
        assert ("Nobody has judged its hazards" in told) == (card.hazards.basis == "no data")
        assert ("No formula" in told) == any(not form.formula for form in card.forms)
        assert all(field in told for field in card.unverified)


def test_missing_groups_are_not_called_compatible() -> None:
    card = cards()["silver-nitrate"]
    bare = replace(card, hazards=replace(card.hazards, groups=()))
    assert any("not called compatible" in text for text in not_known(bare))
