"""Statements: the shipped table is whole, and a faulty one is refused at its line."""

import pytest

from sitegen.labels.classes import CATEGORIES, HazardClass, parse_class
from sitegen.labels.p_statements import check_filled, filled
from sitegen.labels.precedence import printed_rows
from sitegen.labels.reason import Classified
from sitegen.labels.statements import Statements, read_statements
from sitegen.problems import Problems, Refusal
from tests.labels.mixtures import label, of, statements, text_of


def one(hazard: str) -> HazardClass:
    return parse_class(hazard)


def test_the_table_holds_every_statement_of_the_standard() -> None:
    by_code = statements().by_code
    kinds = {"H": 0, "EUH": 0, "P": 0}
    for code in by_code:
        kinds["EUH" if code.startswith("EUH") else code[0]] += 1
    assert kinds == {"H": 111, "EUH": 33, "P": 169}


@pytest.mark.parametrize(
    ("code", "text"),
    [  # CLP Annex III and IV, consolidated text of 2025-09-01, read in mhchem/hpstatements
        ("H302", "Harmful if swallowed."),
        ("H314", "Causes severe skin burns and eye damage."),
        ("H334", "May cause allergy or asthma symptoms or breathing difficulties if inhaled."),
        ("H360FD", "May damage fertility. May damage the unborn child."),
        ("H410", "Very toxic to aquatic life with long lasting effects."),
        ("EUH031", "Contact with acids liberates toxic gas."),
        ("EUH206", "Warning! Do not use together with other products. May release dangerous gases (chlorine)."),
        ("P102", "Keep out of reach of children."),
    ],
)
def test_the_wording_is_the_official_one(code: str, text: str) -> None:
    assert statements().text(code) == text


@pytest.mark.parametrize(
    ("hazard", "code", "signal", "pictures"),
    [  # CLP Annex V and the label tables of Annex I
        ("Acute Tox. 3 (oral)", "H301", "Danger", ("GHS06",)),
        ("Acute Tox. 4 (inhalation)", "H332", "Warning", ("GHS07",)),
        ("Ox. Liq. 2", "H272", "Danger", ("GHS03",)),
        ("Ox. Liq. 3", "H272", "Warning", ("GHS03",)),
        ("Carc. 1A (inhalation)", "H350i", "Danger", ("GHS08",)),
        ("Repr. 2 (H361d)", "H361d", "Warning", ("GHS08",)),
        ("Aquatic Chronic 2", "H411", "", ("GHS09",)),
        ("Aquatic Chronic 3", "H412", "", ()),
        ("Met. Corr. 1", "H290", "Warning", ("GHS05",)),
        ("STOT RE 1 (central nervous system)", "H372", "Danger", ("GHS08",)),
        ("Skin Corr. 1C", "H314", "Danger", ("GHS05",)),
    ],
)
def test_signal_word_and_pictogram_go_by_class_and_category(
    hazard: str, code: str, signal: str, pictures: tuple[str, ...]
) -> None:
    row = statements().row(one(hazard))
    assert row is not None
    assert (row.code, row.signal, row.pictograms) == (code, signal, pictures)


def test_every_health_and_water_class_of_clp_has_a_row() -> None:
    for name in ("Skin Corr.", "Eye Dam.", "Carc.", "Muta.", "STOT RE", "Aquatic Chronic", "Met. Corr."):
        for category in CATEGORIES[name]:
            assert statements().row(HazardClass(name=name, category=category)), (name, category)


def test_brackets_are_dropped_where_nothing_is_known() -> None:
    assert statements().hazard_text("H350") == "May cause cancer."
    assert statements().hazard_text("H373") == ("May cause damage to organs through prolonged or repeated exposure.")


@pytest.mark.parametrize("code", ["H999", "H303", "P203"])
def test_a_statement_that_clp_does_not_have_is_refused(code: str) -> None:
    with pytest.raises(Refusal) as refused:
        statements().text(code)
    assert refused.value.code == "statement-unknown"


def test_no_class_asks_for_a_precaution_that_is_left_with_a_gap() -> None:
    short = {
        code
        for hazard in ("Skin Corr. 1B", "Flam. Liq. 2", "Ox. Sol. 2", "Carc. 1B", "Skin Sens. 1", "Met. Corr. 1")
        for code in _chosen(hazard, statements())
    }
    assert {"P280", "P260", "P210", "P501"} <= short


def _chosen(hazard: str, table: Statements) -> list[str]:
    """The codes of a class whose texts are filled without a refusal."""
    printed = printed_rows((Classified(hazard=one(hazard), causes=("A",)),), table)
    texts = {code: filled(code, printed, table) for _, row in printed for code in row.p_codes if code in _USED}
    assert all("…" not in text for text in texts.values())
    return list(texts)


_USED = {
    "P280", "P260", "P261", "P264", "P210", "P501", "P310", "P302+P352", "P370+P378", "P301+P312", "P308+P313",
    "P333+P313", "P303+P361+P353", "P201", "P234", "P390",
}  # fmt: skip


@pytest.mark.parametrize(
    "text", ["Wash … thoroughly.", "Use explosion-proof [lighting] gear.", "dust/fume", "A <name>."]
)
def test_a_text_with_a_gap_is_refused(text: str) -> None:
    with pytest.raises(Refusal) as refused:
        check_filled("P264", text)
    assert refused.value.code == "statement-gap"


def test_precautions_name_what_to_wear_and_what_not_to_breathe() -> None:
    found = {t.code: t.text for t in label(of("A", 5, "Skin Corr. 1B")).p}
    assert found["P280"] == ("Wear protective gloves, protective clothing, eye protection and face protection.")
    assert found["P260"] == "Do not breathe vapours or spray."
    assert found["P310"] == "Immediately call a POISON CENTER or doctor."
    dust = {t.code: t.text for t in label(of("A", 50, "STOT RE 1"), state="solid").p}
    assert dust["P260"] == "Do not breathe dust."


@pytest.mark.parametrize(
    ("section", "code", "line"),
    [
        ("signal: Danger", "signal: Beware", "unknown-choice"),
        ("[GHS01]", "[GHS99]", "unknown-choice"),
        ("[Unst. Expl.]", "[Unstable]", "class-not-read"),
        ("P301+P312, P330, P501]", "P999]", "statement-unknown"),
        ("  H200:", "  H2:", "statement-code"),
    ],
)
def test_a_faulty_table_is_refused_at_its_line(section: str, code: str, line: str) -> None:
    text = text_of("statements.yaml").replace(section, code, 1)
    problems = Problems()
    assert read_statements(text, "statements.yaml", problems) is None
    assert line in {p.code for p in problems.found}
    assert all(p.at.line > 0 for p in problems.found)
