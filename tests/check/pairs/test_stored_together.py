"""Bottles side by side: what rules see in a bottle judges it as its whole contents do."""

from collections.abc import Iterable
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from sitegen.check.pairs.present import Present, bottle
from sitegen.check.pairs.stored_together import Spill, clashes, must_stand_apart, spills
from sitegen.check.pairs.table import RANK, Severity
from tests.check.pairs.bench import FORMS, archive

SHELF = archive()
STRENGTHS = (
    None,
    *(Fraction(text) for text in ("0.5", "1", "2", "8", "9", "10", "19", "20", "40", "69", "70", "80", "95")),
)


@st.composite
def bottles(draw: st.DrawFn) -> tuple[Present, ...]:
    """A few of the built-in substances at strengths about the figures of the rules."""
    forms = draw(st.lists(st.sampled_from(sorted(FORMS)), min_size=1, max_size=5, unique=True))
    return tuple(_at(draw(st.sampled_from(STRENGTHS)), bottle(FORMS[form], SHELF)) for form in forms)


def _at(percent: Fraction | None, one: Present) -> Present:
    return Present(substance=one.substance, name=one.name, groups=one.groups, percent=percent)


def _worst(told: Iterable[tuple[str, Severity]]) -> dict[str, Severity]:
    found: dict[str, Severity] = {}
    for id_, severity in told:
        found[id_] = max(severity, found.get(id_, severity), key=lambda one: RANK[one])
    return found


@given(bottles(), bottles())
def test_what_leaks_is_judged_as_the_bottles_are(one: tuple[Present, ...], other: tuple[Present, ...]) -> None:
    first, second = spills(one), spills(other)
    apart = clashes((*first, *second))
    told = ((v.id, v.severity) for spill in first for met in second for v in apart[spill].get(met, ()))
    assert _worst(told) == {verdict.id: verdict.severity for verdict in must_stand_apart(one, other)}


def test_bottles_that_no_rule_tells_apart_leak_the_same() -> None:
    weak, strong, stronger = (
        _at(Fraction(n), bottle(FORMS["hydrogen-peroxide-30-percent"], SHELF)) for n in (3, 12, 25)
    )
    assert spills((strong,)) == spills((stronger,)) != spills((weak,))
    assert spills((bottle(FORMS["nothing-known"], SHELF),)) == frozenset()


def test_substances_of_the_same_groups_leak_the_same_but_where_they_must_not_meet_each_other() -> None:
    def leaks(substance: str, *groups: str) -> frozenset[Spill]:
        return spills((Present(substance=substance, name=substance, groups=frozenset(groups)),))

    assert leaks("clove", "phenol") == leaks("cinnamon", "phenol") != frozenset()
    assert leaks("clove", "nitrate", "organic_reducible") != leaks("cinnamon", "nitrate", "organic_reducible")
    (one,), (other,) = (leaks(name, "nitrate", "organic_reducible") for name in ("clove", "cinnamon"))
    assert clashes((one, other))[one].keys() == {other}


def test_what_stands_in_the_same_bottle_counts_where_a_rule_asks_for_it() -> None:
    silver, acid, sugar, spirit = (
        bottle(FORMS[form], SHELF)
        for form in ("silver-nitrate", "nitric-acid-65-percent", "sugar", "ethanol-96-percent")
    )
    (alone,) = spills((silver,))
    assert alone in spills((silver, sugar))
    assert alone not in spills((silver, acid)), "silver with nitric acid must not meet alcohol (X49)"
    assert "X49" in {verdict.id for verdict in must_stand_apart((silver, acid), (spirit,))}
    assert "X49" not in {verdict.id for verdict in must_stand_apart((silver, sugar), (spirit,))}
