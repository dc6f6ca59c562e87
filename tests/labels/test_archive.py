"""Labels of an archive's mixtures: from what is written in a recipe to what stands on the bottle."""

from dataclasses import replace

import pytest

from sitegen.labels.archive import Labelled, jar_label, labels_of
from sitegen.model.archive import Archive
from tests.labels.mixtures import cards, codes, pictures
from tests.labels.shelves import computed

ODD = """
name: odd salt
state: solid
hazards:
  classes: [Skin Corr. 1B, Aquatic Acute 1]
  basis: notified
  source: supplier's sheet
"""
WITH_LIMITS = (
    ODD
    + """\
  figures:
    limits:
      - {class: Skin Corr. 1B, from: 20, source: sheet}
      - {class: Skin Irrit. 2, from: 10, below: 20, source: sheet}
    m: {acute: 100, source: sheet}
    ate: [{route: oral, value: 20, source: sheet}]
    euh: [{code: EUH031, from: 2, source: sheet}]
"""
)


def labelled(mixtures: str, local: str = "bath", own: dict[str, str] | None = None) -> Labelled:
    return labels_of(computed(mixtures, own))(f"blue/{local}")


@pytest.mark.parametrize(
    ("contains", "answer"),
    [
        ("silver-nitrate: 10 g", "classified"),
        ("potassium-ferricyanide: 10 g", "not classified"),
        ("ferric-ammonium-citrate-green: 20 g", "not enough data"),
        ("silver-nitrate: 10 g, ferric-ammonium-citrate-green: 20 g", "classified"),
    ],
)
def test_the_three_answers_are_kept_apart(contains: str, answer: str) -> None:
    found = labelled(f"bath: {{name: Bath, contains: {{{contains}, water: to make 100 ml}}}}")
    assert found.label.answer == answer
    assert bool(found.label.unknown) == ("citrate" in contains or "silver" in contains)


@pytest.mark.parametrize(
    ("millilitres", "expected"),
    [(100, ["H314"]), (65, ["H315", "H319"]), (10, [])],
    ids=["above 25 %", "10 to 25 %", "below 10 %"],
)
def test_a_diluted_acid_passes_its_limits_at_the_right_strengths(millilitres: int, expected: list[str]) -> None:
    """Acetic acid of 28 % (1.04 g/ml) in 100 ml: about 28, 18 and 3 % by weight; H290 from 10 %."""
    found = labelled(
        f"bath: {{name: Stop, contains: {{acetic-acid-28-percent: {millilitres} ml, water: to make 100 ml}}}}"
    )
    assert [code for code in codes(found.label) if code != "H290"] == expected


def test_one_salt_in_two_stocks_is_added_up() -> None:
    found = labelled("""
a: {name: A, contains: {borax-decahydrate: 0.4 g, water: to make 100 ml}}
b: {name: B, contains: {borax-decahydrate: 0.4 g, silver-nitrate: 1 g, water: to make 100 ml}}
bath: {name: Bath, contains: {a: 1 part, b: 1 part}}
""")
    assert "H360FD" in codes(found.label)


def test_the_label_says_that_it_rests_on_an_estimated_density() -> None:
    exact, modelled = (
        labelled(f"bath: {{name: Bath, {density} contains: {{sodium-chloride: 10 g, water: to make 100 ml}}}}")
        for density in ("density: 1.07 g/ml,", "")
    )
    assert (exact.estimate, exact.label.estimate) == (False, False)
    assert (modelled.estimate, modelled.label.estimate) == (True, True)


def test_what_reacts_in_it_is_said() -> None:
    found = labelled(
        "bath: {name: Soup, contains: {sodium-carbonate-anhydrous: 5 g, ascorbic-acid: 2 g, water: to make 100 ml}}"
    )
    assert any("carbon dioxide" in line for line in found.changes)
    assert not labelled("bath: {name: Bath, contains: {sodium-chloride: 5 g, water: to make 100 ml}}").changes


def test_the_figures_of_an_archives_own_card_are_used() -> None:
    bath = "bath: {name: Bath, density: 1 g/ml, contains: {odd-salt: 12 g, water: to make 100 ml}}"
    general, own = (labelled(bath, own={"odd-salt": card}).label for card in (ODD, WITH_LIMITS))
    assert "H314" in codes(general)
    assert {"H315", "H400", "H301"} <= set(codes(own))  # 20 mg/kg at 12 %: 167 mg/kg
    assert "H314" not in codes(own)
    assert [text.code for text in own.euh] == ["EUH031"]
    assert any(lack.what == "no M-factor" for lack in general.unknown)
    assert not any(lack.what == "no M-factor" for lack in own.unknown)


def test_each_form_has_the_label_of_its_own_strength() -> None:
    archive = computed("bath: {name: Bath, contains: {acetic-acid-glacial: 1 ml, water: 1 l}}").archive
    glacial, vinegar = (jar_label(archive.forms[f"acetic-acid-{form}"], archive) for form in ("glacial", "vinegar"))
    assert pictures(glacial) == ["GHS02", "GHS05"]
    assert vinegar.answer == "not classified"


def test_every_shipped_form_has_a_label() -> None:
    settings = computed("bath: {name: Bath, contains: {water: 1 l}}").archive.settings
    archive = Archive(settings=settings, recipes=(), substances=tuple(cards().values()))
    for form in archive.forms.values():
        label = jar_label(form, archive)
        assert label.notice
        if archive.substance_of[form.id].hazards.basis == "no data":
            assert label.answer == "not enough data", form.id


def test_all_pages_and_sheets_of_an_edition_look_labels_up_at_one_place() -> None:
    found = computed("bath: {name: Bath, contains: {silver-nitrate: 10 g, water: to make 100 ml}}")
    assert labels_of(found) is labels_of(found)
    assert labels_of(replace(found, batches={})) is not labels_of(found)
