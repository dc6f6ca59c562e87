"""References: a link's target is one thing, or it is refused with what to write."""

import pytest

from sitegen.check import check_archive
from sitegen.model.archive import Archive
from sitegen.model.recipe import Recipe
from sitegen.model.reference import AmountRef, LinkKind, LinkRef, find_link, resolve_amount, resolve_link
from sitegen.problems import Problems, Refusal
from sitegen.read import compose_sources
from sitegen.read.folder import base_cards

HEAD = """
title: {title}
code: {code}
summary: One.
process: blue
revision: 1
revised: 2026-01-02
credits: own
hazards: {{wear: Gloves., air: No dust., never: Never., first aid: Rinse., disposal: Collect.}}
"""
STOCKS = (
    HEAD.format(title="Stocks", code="ST-01")
    + """
mixtures:
  citric: {name: Citric, contains: {citric-acid-monohydrate: 10 g, water: to make 100 ml}}
troubles: [{symptom: Mould grows, causes: [{cause: Age, remedy: Mix fresh.}]}]
"""
)
BLUE = (
    HEAD.format(title="Blue", code="IB-01")
    + """
mixtures:
  part-a: {name: A, contains: {ferric-ammonium-citrate-green: 40 g, water: to make 200 ml}}
  part-b: {name: B, contains: {potassium-ferricyanide: 20 g, water: to make 200 ml}}
  working: {name: W, contains: {part-a: 1 part, part-b: 1 part}}
  bath: {name: Bath, contains: {stocks/citric: 1 part, water: 19 parts}}
troubles: [{symptom: Blues wash away, causes: [{cause: Short, remedy: Longer.}]}]
"""
)


@pytest.fixture(scope="module")
def archive() -> Archive:
    texts = {
        "archive.yaml": "title: Mill\nprocesses: {blue: {name: Blue}}\n",
        "recipes/stocks.yaml": STOCKS,
        "recipes/blue.yaml": BLUE,
    }
    problems = Problems()
    checked = check_archive(compose_sources(texts | base_cards(), problems), problems)
    assert checked
    assert not problems.failed, problems.in_order()
    return checked


@pytest.fixture(scope="module")
def blue(archive: Archive) -> Recipe:
    return archive.recipe_named["blue"]


@pytest.mark.parametrize(
    ("target", "mixture", "line"),
    [
        ("ferric-ammonium-citrate-green", "blue/part-a", "ferric-ammonium-citrate-green"),
        ("ferric-ammonium-citrate", "blue/part-a", "ferric-ammonium-citrate-green"),
        ("part-a/ferric-ammonium-citrate", "blue/part-a", "ferric-ammonium-citrate-green"),
        ("part-a/water", "blue/part-a", "water"),
        ("part-a", "blue/working", "part-a"),
        ("working/part-a", "blue/working", "part-a"),
        ("stocks/citric", "blue/bath", "stocks/citric"),
        ("bath/stocks/citric", "blue/bath", "stocks/citric"),
        ("working", "blue/working", None),
    ],
)
def test_an_amount_is_a_line_or_a_whole_mixture(
    archive: Archive, blue: Recipe, target: str, mixture: str, line: str | None
) -> None:
    assert resolve_amount(blue, archive, target) == AmountRef(mixture=mixture, line=line)


def test_an_amount_that_several_lines_answer_to_is_refused_with_all_of_them(archive: Archive, blue: Recipe) -> None:
    with pytest.raises(Refusal, match=r"`amount:water` is the name of 3 amounts here") as refused:
        resolve_amount(blue, archive, "water")
    assert refused.value.code == "ambiguous-link-target"
    assert refused.value.help == "write `amount:part-a/water` or `amount:part-b/water` or `amount:bath/water`"


def test_an_unknown_amount_offers_the_near_name(archive: Archive, blue: Recipe) -> None:
    with pytest.raises(Refusal) as refused:
        resolve_amount(blue, archive, "potasium-ferricyanide")
    assert refused.value.code == "unknown-link-target"
    assert "`potassium-ferricyanide`" in refused.value.help


@pytest.mark.parametrize(
    ("kind", "target", "found"),
    [
        ("mixture", "part-a", "blue/part-a"),
        ("mixture", "stocks/citric", "stocks/citric"),
        ("recipe", "stocks", "stocks"),
        ("substance", "ferric-ammonium-citrate-green", "ferric-ammonium-citrate"),
        ("trouble", "blues-wash-away", "blue/blues-wash-away"),
        ("trouble", "stocks/mould-grows", "stocks/mould-grows"),
    ],
)
def test_a_link_names_one_place(archive: Archive, blue: Recipe, kind: LinkKind, target: str, found: str) -> None:
    assert resolve_link(blue, archive, kind, target) == LinkRef(kind=kind, id=found)
    assert find_link(blue, archive, kind, target) == LinkRef(kind=kind, id=found)


@pytest.mark.parametrize("kind", ["mixture", "recipe", "substance", "trouble"])
def test_a_link_to_nothing_is_refused(archive: Archive, kind: LinkKind) -> None:
    assert find_link(None, archive, kind, "qqqqqq") is None
    with pytest.raises(Refusal, match="names nothing here") as refused:
        resolve_link(None, archive, kind, "qqqqqq")
    assert refused.value.code == "unknown-link-target"
    assert refused.value.help.startswith(f"name a {kind} of this archive")


def test_a_likely_name_is_offered(archive: Archive, blue: Recipe) -> None:
    for kind, target, meant in (
        ("mixture", "part-c", "`part-a`"),
        ("mixture", "stocks/citrik", "`stocks/citric`"),
        ("recipe", "stock", "`stocks`"),
        ("trouble", "blue-washes-away", "`blues-wash-away`"),
        ("trouble", "stocks/mold-grows", "`stocks/mould-grows`"),
    ):
        with pytest.raises(Refusal) as refused:
            resolve_link(blue, archive, kind, target)  # type: ignore[arg-type]  # kinds as they stand above
        assert meant in refused.value.help
