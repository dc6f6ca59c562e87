"""Names: which forms a word may mean."""

import pytest

from sitegen.compute.names import fold, forms_named
from tests.compute.shelf import archive_of, base_shelf, card, form, refused

SHELF = archive_of(
    cards=(
        card(
            form("soda-dry", name="soda, dry", formula="Na2CO3", cas="497-19-8", names=("soda ash",)),
            form("soda-crystals", name="soda, crystals", formula="Na2CO3.10H2O", names=("washing soda",)),
            id_="soda", name="sodium carbonate", other_names=("carbonate of soda",),
        ),
        card(form("mono", names=("Washing Soda",))),
    )
)  # fmt: skip


@pytest.mark.parametrize(
    ("word", "ids"),
    [
        ("soda-dry", ["soda-dry"]),
        ("Soda Ash", ["soda-dry"]),
        ("soda-ash", ["soda-dry"]),
        ("497-19-8", ["soda-dry"]),
        ("na2co3·10h2o", ["soda-crystals"]),
        ("soda", ["soda-dry", "soda-crystals"]),
        ("carbonate  of soda", ["soda-dry", "soda-crystals"]),
        ("washing soda", ["soda-crystals", "mono"]),
    ],
)
def test_gives_every_form_a_word_may_mean(word: str, ids: list[str]) -> None:
    assert [f.id for f in forms_named(word, SHELF)] == ids


@pytest.mark.parametrize(
    ("word", "remedy"),
    [
        ("soda asch", "did you mean `soda ash`?"),
        ("quicklime", "add a card for it in substances/, or use one of its other names"),
        ("", "add a card for it in substances/, or use one of its other names"),
    ],
)
def test_refuses_a_name_that_no_card_has(word: str, remedy: str) -> None:
    assert refused(forms_named, word, SHELF) == (
        "unknown-substance",
        f"`{word}` is not the name of a substance here",
        remedy,
    )


def test_case_hyphens_and_spaces_do_not_count() -> None:
    assert fold("  Potassium-Ferricyanide ") == fold("potassium  ferricyanide") == "potassium ferricyanide"


def test_every_built_in_form_is_found_by_its_own_id() -> None:
    shelf = base_shelf()
    assert all(shelf.forms[i] in forms_named(i, shelf) for i in shelf.forms)
