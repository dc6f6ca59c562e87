"""Swaps: by molar mass, by assay and density, by content; what is exact and what is refused."""

from fractions import Fraction

import pytest

from sitegen.compute.molar import molar_mass
from sitegen.compute.swap import Swap, swap, swaps
from sitegen.model.substance import Form
from tests.compute.shelf import archive_of, base_shelf, card, form, q, refused, value

DRY = form("carbonate-dry", formula="Na2CO3", note="Cakes in damp air.")
CRYSTALS = form("carbonate-crystals", formula="Na2CO3.10H2O", names=("washing soda",))
MONO = form("carbonate-mono", formula="Na2CO3.H2O", names=("washing soda",))
POTASH = form("potash", formula="K2CO3", supplies={"carbonate": 1})
SODA = form("soda", formula="Na2CO3", supplies={"carbonate": 1})
HALF = form("half-soda", formula="Na4C2O6", supplies={"carbonate": 2})
GREEN = form("citrate-green", content={"iron": "14-18 %"})
BROWN = form("citrate-brown", content={"iron": "18-28 %"}, note="Slower to clear.")
SALT = form("salt", formula="NaCl")
STRONG = form("acid-strong", state="liquid", formula="HCl", assay="36 % w/w", density="1.18 g/ml")
WEAK = form("acid-weak", state="liquid", formula="HCl", assay="10 % w/v", density="1.05 g/ml")
BARE = form("acid-bare", state="liquid", formula="HCl", assay="20 % w/w")
SPIRIT = form("spirit-96", state="liquid", formula="C2H6O", assay="96 % v/v", density="0.8074 g/ml")
THIN = form("spirit-70", state="liquid", formula="C2H6O", assay="70 % v/v", density="0.8856 g/ml")
BY_WEIGHT = form("spirit-93", state="liquid", formula="C2H6O", assay="93.84 % w/w", density="0.8074 g/ml")
SHELF = archive_of(
    cards=(
        card(DRY, MONO, CRYSTALS, id_="carbonate", name="sodium carbonate"), card(POTASH), card(SODA), card(HALF),
        card(GREEN, BROWN, id_="citrate"), card(SALT), card(STRONG, WEAK, BARE, id_="acid"),
        card(SPIRIT, THIN, BY_WEIGHT, id_="spirit"),
    )
)  # fmt: skip


def ask(amount: str, wanted: Form, in_jar: Form) -> Swap:
    """One swap on this shelf."""
    return swap(q(amount), wanted, in_jar, SHELF)


def test_forms_of_one_substance_go_by_molar_mass_exactly() -> None:
    got = ask("100 g", CRYSTALS, DRY)
    ratio = molar_mass("Na2CO3") / molar_mass("Na2CO3.10H2O")
    assert (got.factor, got.exact, value(got.answer)) == ((ratio, ratio), True, 100 * ratio)
    assert got.warnings == ("Cakes in damp air.",)


def test_a_form_for_itself_is_the_same_amount() -> None:
    got = ask("100 g", GREEN, GREEN)
    assert (got.factor, got.exact, value(got.answer)) == ((1, 1), True, 100)


def test_a_range_and_another_unit_come_out_in_grams() -> None:
    got = ask("1-2 oz av", DRY, DRY)
    assert (got.answer.low, got.answer.high, got.answer.unit) == (*q("1-2 oz av").base(), "g")


def test_two_salts_that_supply_one_part_are_swapped_with_a_warning() -> None:
    got = ask("100 g", POTASH, SODA)
    assert value(got.answer) == 100 * molar_mass("Na2CO3") / molar_mass("K2CO3")
    assert not got.exact
    assert got.warnings == ("soda is not potash: only the carbonate is the same, the rest of the salt differs",)


def test_a_salt_that_supplies_twice_as_much_needs_half_as_many_moles() -> None:
    assert ask("100 g", SODA, HALF).factor[0] == molar_mass("Na4C2O6") / molar_mass("Na2CO3") / 2


def test_without_a_formula_the_factor_is_a_range_from_the_content() -> None:
    got = ask("40 g", GREEN, BROWN)
    assert got.factor == (Fraction(14, 28), Fraction(18, 18))
    assert (got.answer.low, got.answer.high, got.exact) == (20, 40, False)
    assert got.warnings == (
        "not exact: citrate green holds 14–18 % iron, citrate brown 18–28 %; the maker's own figure for both "
        "would narrow it, and the two may behave differently",
        "Slower to clear.",
    )


def test_reagents_go_by_the_pure_substance_in_a_gram() -> None:
    got = ask("10 ml", STRONG, WEAK)
    grams_of_hcl = Fraction("10") * Fraction("1.18") * Fraction("0.36")
    assert value(got.answer, "ml") == grams_of_hcl / Fraction("0.10")  # 10 % w/v: 0.10 g in each ml


def test_strengths_by_volume_go_by_the_pure_liquid_in_a_millilitre() -> None:
    got = ask("700 ml", THIN, SPIRIT)
    assert value(got.answer, "ml") == 700 * Fraction(70, 96)


@pytest.mark.parametrize(
    ("amount", "wanted", "in_jar", "said"),
    [
        ("10 ml", CRYSTALS, DRY, ("no-density",
         "carbonate crystals has no density on its card, so its volume cannot be weighed",
         "ask with a mass, such as `100 g`")),
        ("10 ml", STRONG, BARE, ("no-density",
         "acid bare has no density on its card, so its volume cannot be weighed",
         "ask with a mass, such as `100 g`")),
        ("3 drops", DRY, CRYSTALS, ("wrong-dimension", "`3 drops` cannot be swapped", "write a mass, such as `100 g`")),
        ("10 g", SALT, DRY, ("swap-unrelated",
         "carbonate dry cannot stand in for salt: nothing on their cards says what they share",
         "name two forms of one substance, or two salts whose cards list the same part under `supplies`")),
        ("10 g", BY_WEIGHT, THIN, ("swap-unrelated",
         "spirit 70 is known by volume only, so its grams cannot be compared",
         "dilute it by volume instead: `trayside dilute`")),
    ],
)  # fmt: skip
def test_refuses_what_cannot_be_weighed_or_compared(
    amount: str, wanted: Form, in_jar: Form, said: tuple[str, str, str]
) -> None:
    assert refused(ask, amount, wanted, in_jar) == said


def test_a_name_of_several_forms_gives_every_answer_and_picks_none() -> None:
    got = swaps(q("100 g"), "Sodium Carbonate", "carbonate dry", SHELF)
    assert [one.wanted.id for one in got] == [DRY.id, MONO.id, CRYSTALS.id]


def test_a_pair_that_cannot_be_compared_is_left_out_beside_one_that_can() -> None:
    got = swaps(q("10 ml"), "acid", "acid-weak", SHELF)
    assert [one.wanted.id for one in got] == ["acid-strong", "acid-weak"]


def test_refuses_when_no_pair_can_be_compared() -> None:
    assert refused(swaps, q("1 g"), "salt", "carbonate", SHELF)[0] == "swap-unrelated"


def test_brown_for_green_is_never_exact_on_the_built_in_cards() -> None:
    shelf = base_shelf()
    (got,) = swaps(q("40 g"), "green ferric ammonium citrate", "brown ferric ammonium citrate", shelf)
    assert not got.exact
    assert got.answer.is_range
