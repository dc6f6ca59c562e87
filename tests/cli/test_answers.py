"""The commands that answer with numbers, run as a user runs them, over the demo archive."""

from pathlib import Path
from typing import Any

import pytest

from tests.cli.terminal import data, run

DEMO = str(Path(__file__).parents[2] / "content")


def scale(*words: str) -> dict[str, Any]:
    return data("scale", *words, "--archive", DEMO)


def contains(answer: dict[str, Any], mixture: str) -> dict[str, Any]:
    found = next(m for m in answer["mixtures"] if m["id"] == mixture)
    return {line["of"]: line for line in found["contains"]}


BLUE = ("iron-blue", "--mixture", "working")


def test_scale_answers_in_the_shape_of_the_design() -> None:
    answer = scale(*BLUE, "--make", "350 ml")
    assert set(answer) == {"recipe", "mixture", "factor", "makes", "asked", "mixtures", "total", "warnings"}
    assert answer["asked"] == [{key: answer[key] for key in ("mixture", "factor", "makes")}]
    assert (answer["recipe"], answer["mixture"]) == ("iron-blue", "working")
    assert answer["makes"] == {"value": "350", "unit": "ml"}
    assert [m["id"] for m in answer["mixtures"]] == ["part-a", "part-b", "working"]
    citrate = contains(answer, "part-a")["ferric-ammonium-citrate-green"]
    # 175 ml of 25 g in 100 ml, by hand: 43.75 g, on a balance of 0.1 g 43.8 g
    assert citrate["exact"] == {"value": "43.75", "unit": "g"}
    assert citrate["measure"] == {"value": "43.8", "unit": "g"}


# 40 ml as written; coverage of the demo's working sensitiser is a range, taken at its upper end.
@pytest.mark.parametrize(
    ("words", "makes"),
    [
        pytest.param(("--factor", "3.5"), "140", id="factor"),
        pytest.param(("--tray", "30x40x2 cm"), "2400", id="tray"),
        pytest.param(("--sheets", "10 of 20x50 cm", "--coverage", "40 ml/m²", "--allowance", "0 %"), "40", id="sheets"),
        pytest.param(
            ("--sheets", "10 of 20x50 cm", "--coverage", "40 ml/m²", "--allowance", "25 %", "--coats", "2"),
            "100",
            id="coats and allowance",
        ),
        pytest.param(("--have", "potassium-ferricyanide=1 g"), "20", id="have"),
        pytest.param(("--have", "potassium-ferricyanide=10 g", "--have", "part-a=5 ml"), "10", id="scarcest"),
        pytest.param(("--people", "14", "--make", "20 ml"), "280", id="people each"),
    ],
)
def test_every_way_of_asking(words: tuple[str, ...], makes: str) -> None:
    assert scale(*BLUE, *words)["makes"]["value"] == makes


def test_a_base_scales_what_goes_by_weight_of_fibre() -> None:
    answer = scale("onion-skin-dye", "--mixture", "mordant", "--base", "fibre=250 g")
    assert answer["makes"] == {"value": "250", "unit": "g"}
    alum = contains(answer, "mordant")["potassium-alum-dodecahydrate"]
    assert alum["exact"] == {"value": "37.5", "unit": "g"}  # 15 % of 250 g


def test_a_code_names_a_recipe_too() -> None:
    assert scale("IB-01", "--mixture", "working", "--make", "40 ml")["recipe"] == "iron-blue"


@pytest.mark.parametrize(
    ("words", "said", "remedy"),
    [
        (("iron-blu", "--make", "1 l"), "there is no recipe `iron-blu`", "did you mean"),
        (("iron-blue", "--make", "1 l"), "`iron-blue` ends in", "--mixture working"),
        ((*BLUE,), "say how much is wanted", '--make "350 ml"'),
        ((*BLUE, "--make", "1 l", "--factor", "2"), "ask in one way", "--make"),
        ((*BLUE, "--make", "350 g"), "mass and volume meet only through a density", "density"),
        ((*BLUE, "--make", "350"), "the unit is missing", "ml"),
        ((*BLUE, "--make", "1 pint"), "does not say which one", "pint US"),
        ((*BLUE, "--tray", "30x40 cm"), "not the size of a tray", "30x40x2 cm"),
        ((*BLUE, "--sheets", "a dozen"), "how many sheets", "12 of 24x30 cm"),
        ((*BLUE, "--have", "silver-nitrate=1 g"), "not weighed or measured out", "part-a"),
        ((*BLUE, "--base", "fibre=250 g"), "does not go by the weight of anything", "--make"),
        (
            ("onion-skin-dye", "--mixture", "mordant", "--make", "1 l"),
            "goes by the weight of fibre",
            "--base",
        ),
        (("onion-skin-dye", "--mixture", "mordant", "--factor", "2"), "no size of its own", "--base"),
        ((*BLUE, "--people", "3.5"), "not a number of people", "whole number"),
        ((*BLUE, "--people", "3", "--factor", "2"), "--people does not go with --factor", "--make"),
        (("iron-blue", "--mixture", "workin", "--make", "1 l"), "has no mixture `workin`", "working"),
    ],
)
def test_refuses_with_a_reason_and_a_remedy(words: tuple[str, ...], said: str, remedy: str) -> None:
    result = run("scale", *words, "--archive", DEMO)
    assert result.exit_code == 2
    assert result.stdout == ""
    assert said in result.stderr
    assert remedy in result.stderr


def test_the_table_reads_well_in_eighty_columns() -> None:
    result = run("scale", *BLUE, "--make", "350 ml", "--archive", DEMO)
    assert result.exit_code == 0
    assert "43.8  g" in result.stdout
    assert "Safety data sheets, local rules and licensed practice come first." in result.stdout
    assert max(map(len, result.stdout.splitlines())) <= 80


def test_a_scaled_sheet_is_printed(tmp_path: Path) -> None:
    sheet = tmp_path / "out.pdf"
    assert run("scale", *BLUE, "--make", "350 ml", "--archive", DEMO, "--sheet", str(sheet)).exit_code == 0
    assert sheet.read_bytes().startswith(b"%PDF")


def test_dilute_by_parts() -> None:
    assert data("dilute", "--ratio", "1+9", "--make", "500 ml") == {
        "stock": {"value": "50", "unit": "ml"},
        "diluent": {"value": "450", "unit": "ml"},
        "makes": {"value": "500", "unit": "ml"},
        "warnings": ["parts by volume: strong solutions and alcohol shrink when mixed, so the total is nearly this"],
    }
    assert data("dilute", "--ratio", "1+9", "--have", "40 ml")["makes"] == {"value": "400", "unit": "ml"}


def test_dilute_by_strength_is_made_up_to() -> None:
    answer = data("dilute", "--stock", "10 % w/v", "--to", "2 % w/v", "--make", "500 ml")
    assert answer["stock"] == {"value": "100", "unit": "ml"}
    assert "make up to" in answer["warnings"][0]


def test_dilute_concentrated_acid_to_moles() -> None:
    words = (
        "--stock",
        "37 % w/w",
        "--density",
        "1.18 g/ml",
        "--to",
        "1 mol/l",
        "--formula",
        "HCl",
        "--make",
        "1 l",
    )
    # 36.46 g of HCl in 1 l; the acid holds 436.6 g/l: 0.0835 l (the usual bench figure is 83 ml)
    assert round(float(data("dilute", *words)["stock"]["value"]), 4) == 0.0835


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--ratio", "1:10", "--make", "500 ml"), "write `1+10` or `1+9`"),
        (("--ratio", "1+9"), "say how much is wanted"),
        (("--stock", "10 %", "--to", "2 % w/v", "--make", "1 l"), "percent of what"),
        (("--stock", "2 % w/v", "--to", "10 % w/v", "--make", "1 l"), "is stronger than the stock"),
        (("--stock", "37 % w/w", "--to", "1 mol/l", "--formula", "HCl", "--make", "1 l"), "density"),
        (("--make", "1 l"), "say how to dilute"),
    ],
)
def test_dilute_refuses(words: tuple[str, ...], said: str) -> None:
    result = run("dilute", *words)
    assert result.exit_code == 2
    assert said in result.stderr


def test_swap_by_molar_mass() -> None:
    answer = data("swap", "100 g", "sodium-carbonate-decahydrate", "soda ash", "--archive", DEMO)
    assert answer["to"]["substance"] == "sodium-carbonate-anhydrous"
    assert answer["factor"] == "0.3704"  # 105.988 / 286.141
    assert not any("not exact" in w for w in answer["warnings"])


def test_a_name_that_does_not_tell_the_form_gets_every_answer_and_none_is_picked() -> None:
    answer = data("swap", "100 g", "washing soda", "soda ash", "--archive", DEMO)
    assert "to" not in answer
    assert [c["factor"] for c in answer["choices"]] == ["0.8547", "0.3704"]  # 105.988 / 124.003, / 286.141
    assert "does not tell the forms" in answer["warnings"][0]


def test_brown_for_green_citrate_is_a_range_and_not_exact() -> None:
    green, brown = "ferric-ammonium-citrate-green", "ferric-ammonium-citrate-brown"
    answer = data("swap", "100 g", green, brown, "--archive", DEMO)
    assert answer["exact"] is False
    assert float(answer["to"]["amount"]["value"]) < float(answer["to"]["amount"]["to"])
    assert "not exact" in answer["warnings"][0]


def test_swap_needs_no_archive(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert data("swap", "10 g", "soda crystals", "soda ash")["factor"] == "0.3704"


def test_swap_refuses_what_shares_nothing() -> None:
    result = run("swap", "10 g", "silver nitrate", "borax", "--archive", DEMO)
    assert result.exit_code == 2
    assert "cannot stand in for" in result.stderr
