"""Precedence: CLP Article 26 acts on causes, not on pictograms."""

import pytest

from tests.labels.mixtures import codes, label, of, pictures


@pytest.mark.parametrize(
    ("hazards", "expected"),
    [
        (("Acute Tox. 3 (oral)", "Skin Irrit. 2", "Skin Sens. 1"), ["GHS06"]),
        (("Skin Corr. 1B", "Skin Sens. 1"), ["GHS05", "GHS07"]),
        (("Eye Dam. 1", "Skin Irrit. 2"), ["GHS05"]),
        (("Eye Dam. 1", "Acute Tox. 4 (oral)"), ["GHS05", "GHS07"]),
        (("Resp. Sens. 1", "Skin Sens. 1", "Eye Irrit. 2"), ["GHS08"]),
        (("Carc. 1B", "Skin Sens. 1"), ["GHS07", "GHS08"]),
        (("STOT RE 1", "Skin Irrit. 2"), ["GHS07", "GHS08"]),
        (("Met. Corr. 1", "Skin Irrit. 2"), ["GHS05", "GHS07"]),
        (("Eye Dam. 1", "STOT SE 3 (respiratory irritation)"), ["GHS05", "GHS07"]),
    ],
)
def test_a_pictogram_hides_another_only_for_named_causes(hazards: tuple[str, ...], expected: list[str]) -> None:
    assert pictures(label(of("A", 99, *hazards))) == expected


def test_danger_beats_warning_and_stands_once() -> None:
    assert label(of("A", 50, "Eye Dam. 1", "Skin Irrit. 2")).signal == "Danger"
    assert label(of("A", 50, "Skin Irrit. 2")).signal == "Warning"
    assert label(of("A", 50, "Aquatic Chronic 3")).signal == ""


def test_a_statement_that_another_says_already_is_left_out_and_kept_in_the_data() -> None:
    found = label(of("A", 50, "Skin Corr. 1B", "Aquatic Acute 1", "Aquatic Chronic 1", m_acute=1, m_chronic=1))
    assert codes(found) == ["H314", "H410"]
    assert {(h.what, h.by) for h in found.hidden} == {("H318", "H314"), ("H400", "H410")}
    assert "Eye Dam. 1" in {c.hazard.text for c in found.classifications}


def test_h411_does_not_hide_h400() -> None:
    assert codes(label(of("A", 25, "Aquatic Acute 1", "Aquatic Chronic 2", m_acute=1))) == ["H400", "H411"]


def test_no_more_than_six_precautions_beside_children_and_disposal() -> None:
    found = [t.code for t in label(of("A", 50, "Skin Corr. 1B", "Acute Tox. 4 (oral)", "Skin Sens. 1")).p]
    assert found[0] == "P102"
    assert found[-1] == "P501"
    assert len(found) == 8


def test_where_burns_meet_cancer_the_worst_of_both_is_said() -> None:
    found = {t.code for t in label(of("A", 50, "Skin Corr. 1B", "Carc. 1B")).p}
    assert {"P303+P361+P353", "P305+P351+P338", "P308+P313", "P201"} <= found
