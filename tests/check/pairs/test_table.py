"""The table that comes with the program is sound, and its words are those of the cards."""

from typing import get_args

import pytest

from sitegen.check.pairs.table import Term, parse_term, read_table, sides, table
from sitegen.model.recipe import Intention
from sitegen.problems import Problems
from tests.check.bench import shelf


def test_every_group_a_rule_names_is_in_the_vocabulary() -> None:
    named = set()
    for rule in table().rules.values():
        named |= {group for term in (*rule.a, *rule.b) for group in term.groups}
        named |= {*rule.beside, *rule.except_, *((rule.gate.of,) if rule.gate else ())}
    for doc in (*table().intentions.values(), *table().shelves):
        named |= set(doc.with_ if hasattr(doc, "with_") else doc.groups)
    named |= {group for groups in table().metals.values() for group in groups} | set(table().active_from)
    assert named <= set(table().groups)


def test_every_group_of_a_card_is_in_the_vocabulary() -> None:
    assert {group for card in shelf() for group in card.hazards.groups} <= set(table().groups)


def test_every_substance_a_rule_names_has_a_card() -> None:
    terms = [term for rule in table().rules.values() for term in (*rule.a, *rule.b) if term.substance]
    assert {term.substance for term in terms} <= {card.id for card in shelf()}


def test_a_rule_has_a_second_side_or_a_condition_and_a_source() -> None:
    for id_, rule in table().rules.items():
        assert bool(rule.b) != bool(rule.said), id_
        assert rule.said is None or rule.said in table().conditions, id_
        assert rule.source != "same", id_
        assert rule.flag.startswith(("READ", "MEMORY")), id_
        assert bool(rule.beside) == bool(rule.otherwise or (rule.beside and rule.gate)), id_


def test_the_model_knows_the_intentions_of_the_table() -> None:
    assert set(get_args(Intention)) == set(table().intentions)


def test_an_intention_covers_rules_that_are_there() -> None:
    covered = [id_ for doc in table().intentions.values() for id_ in doc.rules]
    assert set(covered) <= set(table().rules)
    assert len(covered) == len(set(covered))


def test_terms_are_groups_groups_together_or_a_substance() -> None:
    assert parse_term("nitrate") == Term(groups=frozenset({"nitrate"}))
    assert parse_term("=borax") == Term(substance="borax")
    both = parse_term("copper_salt & nitrate")
    assert both.holds("x", frozenset({"copper_salt", "nitrate"}))
    assert not both.holds("x", frozenset({"nitrate"}))


def test_a_substance_stands_on_the_sides_its_groups_give_it() -> None:
    first, second = sides("potassium-ferricyanide", frozenset({"cyanometallate"}))
    assert "X01" in first
    assert "X01" not in second


@pytest.mark.parametrize("text", ["rules: {}", "groups: [a]", "rules: {X1: {a: [b], severity: bad}}", "- x"])
def test_a_faulty_table_is_refused_with_a_place(text: str) -> None:
    problems = Problems()
    assert read_table(text, problems) is None
    assert problems.found
    assert {problem.at.file for problem in problems.found} == {"pairs.yaml"}
