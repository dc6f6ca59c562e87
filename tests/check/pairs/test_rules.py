"""Every rule of the table has a recipe in which it is found, as bad as the table says, and a near miss."""

import pytest

from sitegen.check.pairs.table import RANK, table
from tests.check.pairs.bench import found, mix, recipe, severities
from tests.check.pairs.rows import CONDITIONS, PAIRS


def test_every_rule_has_its_rows() -> None:
    rules = table().rules
    assert set(PAIRS) == {id_ for id_, rule in rules.items() if rule.b}
    assert set(CONDITIONS) == {id_ for id_, rule in rules.items() if rule.said}
    assert len(PAIRS) + len(CONDITIONS) == len(rules) == 134


@pytest.mark.parametrize("id_", PAIRS)
def test_a_pair_in_one_mixture_is_found_as_bad_as_the_table_says(id_: str) -> None:
    one = found(recipe(PAIRS[id_][0]))[id_]
    assert (one.severity, one.where) == (table().rules[id_].severity, "mixture")


@pytest.mark.parametrize("id_", PAIRS)
def test_what_is_only_near_a_pair_is_not_found(id_: str) -> None:
    assert id_ not in found(recipe(PAIRS[id_][1]))


@pytest.mark.parametrize("id_", PAIRS)
def test_a_pair_is_found_through_mixtures_that_go_into_another(id_: str) -> None:
    first, *rest = PAIRS[id_][0].split("+")
    pair = recipe(
        mix(first if first.startswith("dry:") else f"dry:{first}", "one"), mix(f"dry: one 90 ml + {'+'.join(rest)}")
    )
    assert RANK[found(pair)[id_].severity] >= RANK["note"]
    assert found(pair)[id_].mixtures == ("r/m",)


@pytest.mark.parametrize("id_", CONDITIONS)
def test_a_condition_is_found_where_the_texts_tell_of_it(id_: str) -> None:
    contains, tells, _ = CONDITIONS[id_]
    assert severities(recipe(mix(contains, mixing=[tells])))[id_] == table().rules[id_].severity


@pytest.mark.parametrize("id_", CONDITIONS)
def test_a_condition_that_is_denied_or_absent_is_not_found(id_: str) -> None:
    contains, _, denies = CONDITIONS[id_]
    assert id_ not in found(recipe(mix(contains, mixing=[denies])))


@pytest.mark.parametrize(
    "id_", [id_ for id_ in CONDITIONS if table().conditions[table().rules[id_].said or ""].unless_said]
)
def test_a_hazard_block_that_speaks_of_it_answers_a_condition(id_: str) -> None:
    contains, tells, _ = CONDITIONS[id_]
    block = "Raise no dust. Spread oily rags out of doors to dry."
    assert id_ not in found(recipe(mix(contains, mixing=[tells]), air=block))


@pytest.mark.parametrize(
    ("id_", "contains"),
    [
        pytest.param("X04", "sodium-citrate-dihydrate", id="no-cyanometallate"),
        pytest.param("X83", "potassium-dichromate", id="not-the-ammonium-salt"),
        pytest.param("X70", "hydrogen-peroxide-3-percent", id="peroxide-alone"),
        pytest.param("X121", "turpentine", id="no-drying-oil"),
    ],
)
def test_a_condition_needs_its_substance(id_: str, contains: str) -> None:
    assert id_ not in found(recipe(mix(contains, mixing=[CONDITIONS[id_][1]])))
