"""The whole label: three answers kept apart, and what must hold for every mixture."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.labels.classes import HEALTH_AND_WATER
from sitegen.labels.ingredient import Ingredient, Mixture, Share
from sitegen.labels.label import Label
from sitegen.labels.limits import CUT_OFF
from sitegen.labels.mixture import classify
from sitegen.problems import Refusal
from tests.labels.mixtures import carded, cards, classes, codes, label, mixed, of, share, statements

# How severe is a class within its family? Sub-categories of skin corrosion are one degree.
_ORDER = {"skin": ("Skin Corr.", "Skin Irrit."), "eye": ("Eye Dam.", "Eye Irrit.")}


def severity(found: Label) -> dict[str, int]:
    """A number for each family, 0 for the worst, 100 for none."""
    ranks: dict[str, int] = dict.fromkeys((f.family for f in found.findings), 100)
    for one in found.findings:
        for c in one.classified:
            by_name = _ORDER.get(one.family)
            rank = by_name.index(c.hazard.name) if by_name else int(c.hazard.category[:1] or "1")
            ranks[one.family] = min(ranks[one.family], rank)
    return ranks


percents = st.integers(1, 400).map(lambda n: Fraction(n, 10))


@st.composite
def mixtures(draw: st.DrawFn) -> Mixture:
    """Up to four shipped substances at up to 100 % together, the rest water."""
    ids = draw(st.lists(st.sampled_from(sorted(cards())), min_size=1, max_size=4, unique=True))
    parts = [carded(id_, draw(percents)) for id_ in ids]
    total = sum((p.high for p in parts), Fraction(0))
    if total > 100:
        parts = [_scaled(p, 100 / total) for p in parts]
    return mixed(*parts)


def _scaled(part: Ingredient, by: Fraction) -> Ingredient:
    assert part.percent
    return replace(part, percent=Share(low=part.percent.low * by, high=part.percent.high * by))


@given(mixtures(), st.integers(1, 99))
def test_adding_water_never_makes_a_mixture_more_severe(mixture: Mixture, part: int) -> None:
    thinner = replace(mixture, ingredients=tuple(_scaled(p, Fraction(part, 100)) for p in mixture.ingredients))
    strong, weak = severity(classify(mixture, statements())), severity(classify(thinner, statements()))
    assert all(weak[family] >= strong[family] for family in strong)


@given(mixtures(), st.randoms(use_true_random=False))
def test_the_order_of_the_ingredients_makes_no_difference(mixture: Mixture, random: object) -> None:
    shuffled = list(mixture.ingredients)
    random.shuffle(shuffled)  # type: ignore[attr-defined]
    assert classify(replace(mixture, ingredients=tuple(shuffled)), statements()) == classify(mixture, statements())


@given(mixtures(), st.integers(1, 300).map(lambda n: Fraction(n, 10)))
def test_an_unknown_ingredient_never_becomes_not_classified(mixture: Mixture, percent: Fraction) -> None:
    parts = [_scaled(p, Fraction(1, 2)) for p in mixture.ingredients]
    found = classify(mixed(*parts, of("mystery", percent, data="no data")), statements())
    for family in HEALTH_AND_WATER:
        if percent >= CUT_OFF[family]:
            assert found.finding(family).answer != "not classified", family


@given(mixtures())
def test_nothing_printed_has_a_gap_and_every_label_says_what_it_is(mixture: Mixture) -> None:
    found = classify(mixture, statements())
    texts = [t.text for t in (*found.h, *found.euh, *found.p)]
    assert not any(mark in text for text in texts for mark in ("…", "<", "[", ".."))
    assert "not a supplier's classification" in found.notice
    assert "local rules and licensed practice come first" in found.notice
    assert bool(found.signal) <= (found.answer == "classified")
    assert all(r.sentence for r in found.reasons)


@given(mixtures())
def test_every_pictogram_names_the_classes_it_stands_for(mixture: Mixture) -> None:
    found = classify(mixture, statements())
    for picture in found.pictograms:
        assert set(picture.causes) <= classes(found)


def test_the_three_answers() -> None:
    assert label(of("A", 50, "Skin Irrit. 2")).answer == "classified"
    assert label(of("A", 50, data="not classified")).answer == "not classified"
    assert label(of("A", 50, data="no data")).answer == "not enough data"
    assert label().answer == "not classified"


def test_a_family_without_judgement_stays_open_beside_judged_ones() -> None:
    found = label(of("A", 5, "Skin Irrit. 2", unknown=frozenset({"carcinogenicity"})))
    assert found.finding("carcinogenicity").answer == "not enough data"
    assert found.finding("mutagenicity").answer == "not classified"


def test_an_unknown_share_leaves_its_families_open() -> None:
    found = label(of("acetone", None, "Flam. Liq. 2", "Eye Irrit. 2"))
    open_ = {(x.family, x.what) for x in found.unknown}
    assert open_ == {("eye", "share by weight not known"), ("flammable", "share by weight not known")}
    assert found.answer == "not enough data"


def test_one_substance_from_two_stocks_is_added_up() -> None:
    found = label(of("A", "0.06", "Carc. 1B"), of("A", "0.06", "Carc. 1B"))
    assert codes(found) == ["H350"]


def test_one_name_for_two_substances_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        label(of("A", 1, "Carc. 1B"), of("A", 1))
    assert refused.value.code == "ingredient-twice"


def test_more_than_everything_is_refused() -> None:
    with pytest.raises(Refusal) as refused:
        label(of("A", 60), of("B", 41))
    assert refused.value.code == "percent-over-100"


def test_a_reason_tells_rule_sum_and_threshold() -> None:
    found = label(of("acid", 4, "Skin Corr. 1B"))
    sentences = [r.sentence for r in found.reasons if r.family == "eye"]
    assert sentences[0] == (
        "Σ (percent ÷ limit) for Eye Dam. 1: acid 4 % ÷ 3 % = 1.333; threshold ≥ 1; Eye Dam. 1 "
        "[CLP Annex I Tables 3.3.3, 3.3.4; specific limits]"
    )


def test_an_estimate_is_carried_to_the_label() -> None:
    assert label(of("A", share(1)), estimate=True).estimate
