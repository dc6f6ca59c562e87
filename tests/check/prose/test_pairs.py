"""One measure in two units. Figures: 1 in = 25.4 mm; 1 US fl oz = 29.5735 ml; °C = (°F − 32) / 1.8."""

import pytest

from tests.check.bench import prose, recipe, words


@pytest.mark.parametrize(
    ("sentence", "level", "right"),
    [
        pytest.param("Leave 5 in (100 mm) free.", "error", "127 mm", id="a-published-slip"),
        pytest.param("Keep it at 20 °C (70 °F).", "error", "68 °F", id="warmth"),
        pytest.param("Keep it at 68 °F (18 °C).", "error", "20 °C", id="warmth-back"),
        pytest.param("Take 8x10 in (20x30 cm) sheets.", "error", "20.3x25.4 cm", id="a-side-of-a-size"),
        pytest.param("Pour 1 fl oz US (25 ml).", "error", "29.6 ml", id="volume"),
        pytest.param("Leave 4 in (105 mm) free.", "warning", "102 mm", id="loose"),
        pytest.param("Weigh 2 oz av (about 60 g).", "warning", "56.7 g", id="loose-mass"),
        pytest.param("Leave 1 in (2 cm) free.", "error", "2.54 cm", id="rounded-the-wrong-way"),
        pytest.param("Warm it to 18-22 °C (64-80 °F).", "error", "64.4-71.6 °F", id="range"),
        pytest.param("A margin of 5 in = 100 mm.", "error", "127 mm", id="equals"),
    ],
)
def test_pairs_that_disagree(sentence: str, level: str, right: str) -> None:
    (found,) = prose(recipe(do=sentence))
    assert (found.code, found.level) == ("unit-pair-disagrees", level)
    assert found.help == f"write `{right}` for the second, or correct the first"
    assert right in found.notes[0]


def test_the_message_names_both_and_stands_under_them() -> None:
    text = recipe(look="A margin of 5 in (100 mm).")
    (found,) = prose(text)
    assert found.message == "`5 in` and `100 mm` are not the same"
    assert words(found, text) == "5 in (100 mm)"


@pytest.mark.parametrize(
    "sentence",
    [
        pytest.param("Leave 5 in (127 mm) free.", id="exact"),
        pytest.param("Leave 5 in (13 cm) free.", id="rounded"),
        pytest.param("Take 8x10 in (20x25 cm) sheets.", id="trade-size"),
        pytest.param("Take 11 × 14 in (28 × 36 cm) sheets.", id="trade-size-28x36"),
        pytest.param("Keep it at 20 °C (68 °F).", id="warmth"),
        pytest.param("Keep it at 18-22 °C (64-72 °F).", id="warmth-range"),
        pytest.param("Add 3 g (0.1 oz av).", id="rounded-to-a-tenth"),
        pytest.param("Pour 1 l (1000 ml).", id="metric"),
        pytest.param("Pour 40 ml (50 ml in summer).", id="same-unit"),
        pytest.param("Pour 1 l (500 ml for half a tray).", id="more-words-in-the-brackets"),
        pytest.param("Cut 5 in from the edge, then 30 mm.", id="no-pair"),
        pytest.param("Put 5 in (the tray holds them).", id="a-word"),
        pytest.param("Take 40 g (30 ml) of it.", id="two-dimensions"),
        pytest.param("Wait 10 min (1 h in winter).", id="time"),
    ],
)
def test_pairs_that_agree_or_are_none(sentence: str) -> None:
    assert prose(recipe(do=sentence)) == ()


def test_needs_are_read_too() -> None:
    (found,) = prose(recipe(needs="Trays 8x10 in (20x35 cm)"))
    assert found.code == "unit-pair-disagrees"
