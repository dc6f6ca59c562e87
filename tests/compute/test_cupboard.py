"""The cupboard: what stands where, what is parted and why. Bottles are made from the built-in cards."""

from itertools import combinations, product

import pytest

from sitegen.check.pairs.present import Present, bottle, present
from sitegen.check.pairs.stored_together import must_stand_apart
from sitegen.cli.cupboard import cupboard_text
from sitegen.compute.cupboard import Cupboard, cupboard
from tests.check.pairs.bench import FORMS, archive, mix, recipe


def of(*contains: str, **more: str) -> Cupboard:
    """The cupboard of one recipe, a mixture for each text."""
    mixtures = [mix(text, f"m-{n}", **more) for n, text in enumerate(contains)]  # type: ignore[arg-type]
    return cupboard(archive(recipe(*mixtures)))


def shelves(found: Cupboard) -> dict[str, list[str]]:
    return {shelf.title: [bottle.id for bottle in shelf.bottles] for shelf in found.shelves}


def test_bottles_are_the_forms_that_are_weighed_and_the_mixtures_that_are_kept() -> None:
    assert shelves(of("sodium-chloride")) == {"Everything else": ["sodium-chloride"]}
    assert shelves(of("sodium-chloride", keeps="3 months")) == {"Everything else": ["sodium-chloride", "r/m-0"]}
    assert shelves(of("sodium-chloride", keeps="12 h")) == {"Everything else": ["sodium-chloride"]}
    assert shelves(of("sodium-chloride", store="In the cold.")) == {"Everything else": ["sodium-chloride"]}


def test_a_bottle_is_listed_once_however_often_it_is_used() -> None:
    assert shelves(of("sodium-chloride", "sodium-chloride")) == {"Everything else": ["sodium-chloride"]}


@pytest.mark.parametrize(
    ("first", "second", "rule"),
    [
        ("sodium-hypochlorite-household", "hydrochloric-acid-37-percent", "X11"),
        ("sodium-hypochlorite-household", "acetic-acid-vinegar", "X12"),
        ("sodium-hypochlorite-household", "ammonia-10-percent", "X14"),
        ("potassium-ferricyanide", "sulfuric-acid-battery", "X01"),
        ("sodium-sulfide-nonahydrate", "citric-acid-anhydrous", "X30"),
        ("nitric-acid-65-percent", "acetone", "X75"),
        ("silver-nitrate", "ammonia-10-percent", "X48"),
        ("potassium-chlorate", "sulfur", "X126"),
        ("potassium-permanganate", "glycerol", "X85"),
        ("sodium-carbonate-anhydrous", "citric-acid-anhydrous", "X104"),
    ],
)
def test_what_must_not_meet_stands_on_two_shelves_and_the_rule_is_told(first: str, second: str, rule: str) -> None:
    found = of(first, second)
    assert all({first, second} != set(ids) for ids in shelves(found).values())
    assert rule in {reason.rule for reason in found.apart}


def test_bottles_of_one_kind_that_must_not_meet_part_their_shelf() -> None:
    found = of("hydrochloric-acid-37-percent", "nitric-acid-65-percent")
    assert set(shelves(found)) == {"Oxidisers", "Strong acids"}
    found = of("hydrogen-peroxide-30-percent", "potassium-permanganate")
    assert shelves(found) == {
        "Oxidisers, 1 of 2": ["hydrogen-peroxide-30-percent"],
        "Oxidisers, 2 of 2": ["potassium-permanganate"],
    }


def test_what_may_stand_together_does() -> None:
    found = of("citric-acid-anhydrous", "tartaric-acid")
    assert shelves(found) == {"Weak acids and acid salts": ["citric-acid-anhydrous", "tartaric-acid"]}
    assert found.apart == ()


def test_no_two_bottles_of_a_shelf_are_among_the_reasons() -> None:
    found = of("silver-nitrate", "hydrogen-peroxide-3-percent", "ferric-chloride-40-percent", "sugar", "turpentine")
    for reason in found.apart:
        assert reason.first != reason.second
    order = [reason.severity for reason in found.apart]
    assert order == sorted(order, key=["error", "warning"].index)


def test_shelves_and_reasons_are_those_of_every_bottle_beside_every_other() -> None:
    """Bottles are judged by kinds; here each pair of them is asked again, in its order."""
    jars = sorted(FORMS)[::9]
    kept = [" + ".join(jars[n : n + 3]) for n in range(0, len(jars) - 3, 2)]
    found = of(*jars, *kept, keeps="3 months")
    held = _contents(found, *jars, *kept)
    for one, other in combinations(found.shelves, 2):
        told: dict[str, tuple[dict[str, None], dict[str, None]]] = {}
        for first, second in product(one.bottles, other.bottles):
            for verdict in must_stand_apart(held[first.id], held[second.id]):
                left, right = told.setdefault(verdict.id, ({}, {}))
                left[first.name] = right[second.name] = None
        ours = [a for a in found.apart if (a.first, a.second) == (one.title, other.title)]
        assert {a.rule: a.bottles for a in ours} == {id_: (tuple(a), tuple(b)) for id_, (a, b) in told.items()}
        for severity in ("error", "warning"):
            assert [a.rule for a in ours if a.severity == severity] == [
                id_ for id_ in told if any(a.rule == id_ and a.severity == severity for a in ours)
            ]
    for shelf in found.shelves:
        assert not any(must_stand_apart(held[a.id], held[b.id]) for a, b in combinations(shelf.bottles, 2))


def _contents(found: Cupboard, *contains: str) -> dict[str, tuple[Present, ...]]:
    mixtures = {m.id: m for m in (mix(text, f"m-{n}") for n, text in enumerate(contains))}
    held = archive(recipe(*mixtures.values()))
    ids = [bottle_.id for shelf in found.shelves for bottle_ in shelf.bottles]
    return {i: present(mixtures[i], held) if i in mixtures else (bottle(FORMS[i], held),) for i in ids}


def test_a_remark_about_results_parts_no_bottles() -> None:
    assert of("silver-nitrate", "sodium-chloride").apart == ()


def test_dry_dust_beside_an_oxidiser_counts_in_full() -> None:
    (reason,) = (one for one in of("potassium-nitrate", "sulfur").apart if one.rule == "X126")
    assert (reason.severity, reason.bottles) == ("error", (("potassium nitrate",), ("sulfur",)))


def test_the_order_of_recipes_and_mixtures_changes_no_shelf_of_substances() -> None:
    assert shelves(of("sugar", "silver-nitrate")) == shelves(of("silver-nitrate", "sugar"))


def test_the_text_lists_shelves_reasons_and_whose_word_it_is() -> None:
    text = cupboard_text(of("sodium-carbonate-anhydrous", "citric-acid-anhydrous"))
    assert text == (
        "Alkalis and carbonates\n  sodium carbonate, anhydrous\n\n"
        "Weak acids and acid salts\n  citric acid, anhydrous\n\n"
        "Why they stand apart\n"
        "  warning X104: Alkalis and carbonates | Weak acids and acid salts: sodium carbonate, anhydrous + "
        "citric acid, anhydrous: carbon dioxide, foam\n\n"
        "Derived from the cards of this archive, not a supplier's classification. Safety data sheets, local rules on\n"
        "storage and licensed practice come first. A bottle that was not checked is not a safe one.\n"
    )


def test_a_bottle_without_groups_is_listed_as_unchecked() -> None:
    found = of("nothing-known + sugar", keeps="3 months")
    assert [bottle.id for bottle in found.unchecked] == ["nothing-known", "r/m-0"]
    assert "Not checked, for want of reactive groups\n  nothing known\n  m-0 (TE-01)\n" in cupboard_text(found)


def test_no_recipes_no_bottles() -> None:
    assert cupboard_text(cupboard(archive())) == "No bottle is implied.\n"
