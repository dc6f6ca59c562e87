"""Gates: how strong, how warm, how kept, in what company. Both sides of each threshold."""

import pytest

from tests.check.pairs.bench import found, mix, recipe, severities

# Figures are those of the table's strength gates; amounts go into 100 ml.
STRENGTHS = [
    pytest.param("X64", "hydrogen-peroxide-3-percent 100 ml + sugar", "note", id="peroxide-3"),
    pytest.param("X64", "hydrogen-peroxide-9-percent 90 ml + sugar", "warning", id="peroxide-8"),
    pytest.param("X64", "hydrogen-peroxide-30-percent 26 ml + sugar", "warning", id="peroxide-just-over-8"),
    pytest.param("X64", "hydrogen-peroxide-30-percent 23 ml + sugar", "note", id="peroxide-just-under-8"),
    pytest.param("X64", "dry: hydrogen-peroxide-35-percent 100 ml + sugar 1 g", "error", id="peroxide-34"),
    pytest.param("X64", "hydrogen-peroxide-30-percent as needed + sugar", "error", id="unknown-is-the-worst"),
    pytest.param("X63", "hydrogen-peroxide-3-percent + acetone", "warning", id="acetone-weak"),
    pytest.param("X63", "hydrogen-peroxide-30-percent 40 ml + acetone", "error", id="acetone-strong"),
    pytest.param("X63", "hydrogen-peroxide-3-percent + acetone + citric-acid-monohydrate", "error", id="acetone-acid"),
    pytest.param("X28", "hydrogen-peroxide-3-percent + hydrochloric-acid-37-percent", "note", id="etch-weak"),
    pytest.param("X71", "hydrogen-peroxide-3-percent + acetic-acid-vinegar", "note", id="peracetic-weak"),
    pytest.param("X73", "nitric-acid-65-percent 20 ml + ethanol-96-percent", "warning", id="nitric-weak"),
    pytest.param("X74", "nitric-acid-65-percent 20 ml + gum-arabic", "warning", id="nitric-organic-weak"),
    pytest.param("X74", "nitric-acid-65-percent 23 ml + gum-arabic", "error", id="nitric-organic-strong"),
    pytest.param("X75", "nitric-acid-65-percent 10 ml + acetone", "warning", id="nitric-acetone-weak"),
    pytest.param("X76", "nitric-acid-65-percent 20 ml + acetic-acid-vinegar", "warning", id="nitric-acetic-weak"),
    pytest.param("X87", "sulfuric-acid-96-percent 5 ml + potassium-permanganate 1 g", "warning", id="bleach"),
    pytest.param(
        "X01", "potassium-ferricyanide + hydrochloric-acid-10-percent 1 ml", "error", id="stock-is-never-weak"
    ),
    pytest.param("X49", "silver-nitrate + ethanol-96-percent", "note", id="alcohol-alone"),
    pytest.param(
        "X49", "silver-nitrate + ethanol-96-percent + nitric-acid-65-percent 1 ml", "error", id="alcohol-and-acid"
    ),
    pytest.param("X126", "sulfur + potassium-nitrate", "warning", id="dust-in-water"),
]


@pytest.mark.parametrize(("id_", "contains", "severity"), STRENGTHS)
def test_strength_and_company_decide(id_: str, contains: str, severity: str) -> None:
    assert severities(recipe(contains))[id_] == severity


@pytest.mark.parametrize(
    ("id_", "contains"),
    [
        pytest.param("X135", "sulfuric-acid-96-percent 20 ml + sugar", id="sulfuric-acid-dilute"),
        pytest.param("X72", "sulfuric-acid-battery + hydrogen-peroxide-3-percent", id="battery-acid"),
        pytest.param("X124", "silver-nitrate + ethanol-96-percent", id="silver-has-its-own-rule"),
        pytest.param("X124", "hydrogen-peroxide-3-percent + isopropanol-pure", id="peroxide-has-its-own-rule"),
        pytest.param("X82", "dry: ammonium-dichromate", id="never-with-itself"),
        pytest.param("X138", "dry: sodium-metabisulfite", id="one-substance-of-two-groups"),
    ],
)
def test_a_rule_does_not_hold(id_: str, contains: str) -> None:
    assert id_ not in found(recipe(contains))


@pytest.mark.parametrize(
    ("id_", "contains"),
    [
        pytest.param("X02", "potassium-ferricyanide + citric-acid-monohydrate", id="cyanide"),
        pytest.param("X09", "potassium-thiocyanate + sulfuric-acid-battery", id="thiocyanate"),
        pytest.param("X26", "hydrochloric-acid-37-percent + potassium-dichromate", id="chlorine"),
        pytest.param("X50", "silver-nitrate + oxalic-acid-dihydrate", id="silver-oxalate"),
        pytest.param("X136", "potassium-chlorate + oxalic-acid-dihydrate", id="chlorine-dioxide"),
    ],
)
def test_warmth_makes_an_error_of_a_warning(id_: str, contains: str) -> None:
    cold = recipe(mix(contains, mixing=["Stir. Never heat it."]))
    warm = recipe(mix(contains, mixing=["Stir and heat it."]))
    assert (found(cold)[id_].severity, found(cold)[id_].cause) == ("warning", "")
    assert (found(warm)[id_].severity, found(warm)[id_].cause) == ("error", "warmed")


def test_a_warm_acid_fixer_is_a_warning() -> None:
    contains = "sodium-sulfite-anhydrous + potassium-alum-dodecahydrate"
    assert severities(recipe(mix(contains, mixing=["Heat it."])))["X138"] == "warning"


@pytest.mark.parametrize("acid", ["hydrochloric-acid-10-percent", "citric-acid-monohydrate"])
def test_carbonate_and_acid_that_are_kept_or_capped_are_an_error(acid: str) -> None:
    id_ = "X103" if acid.startswith("hydro") else "X104"
    contains = f"sodium-bicarbonate + {acid}"
    assert severities(recipe(mix(contains, keeps="1 h")))[id_] == "warning"
    assert severities(recipe(mix(contains, keeps="3 days")))[id_] == "error"
    assert severities(recipe(mix(contains, keeps="1 h", store="Seal the bottle.")))[id_] == "error"
    assert severities(recipe(mix(contains, keeps="1 h", store="Never seal the bottle.")))[id_] == "warning"


def test_a_sediment_of_silver_oxalate_that_is_handled_is_an_error() -> None:
    contains = "silver-nitrate + oxalic-acid-dihydrate"
    assert severities(recipe(mix(contains, mixing=["Filter off the precipitate."])))["X50"] == "error"
    assert severities(recipe(mix(contains, mixing=["Never dry the sludge."])))["X50"] == "warning"
