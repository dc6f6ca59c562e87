"""Together: each mixture keeps its question, what they share is added up, and what cannot be added stands apart."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.ask import Factor, Have, Make, Question, parse_sheets
from sitegen.compute.batch import batches
from sitegen.compute.plan import Target, targets
from sitegen.compute.scale import scale
from sitegen.compute.together import Asked, Together, together
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from tests.compute.shelf import Kitchen, form, q, refused
from tests.strategies import archives, factors


def make(amount: str) -> Make:
    return Make(quantity=q(amount))


def answer(kitchen: Kitchen, **questions: Question) -> Together:
    """The answer to a question about each mixture, by its id in the recipe."""
    asked = [Asked(target=kitchen.target(local), question=question) for local, question in questions.items()]
    return together(asked, kitchen.archive)


def two_coats() -> Kitchen:
    """Two stocks and two coats that take them, one also thinned."""
    mixed = Kitchen(form("citrate"), form("prussiate"))
    mixed.mix("a", {"citrate": "25 g", "water": "to make 100 ml"}, name="Part A")
    mixed.mix("b", {"prussiate": "10 g", "water": "to make 100 ml"}, name="Part B")
    mixed.mix("light", {"a": "1 part", "b": "1 part", "water": "10 parts"}, coverage="64-78 ml/m²", name="Light coat")
    return mixed.mix("full", {"a": "1 part", "b": "1 part"}, coverage="70 ml/m²", name="Full coat")


def test_what_two_coats_take_of_a_stock_is_mixed_once() -> None:
    found = answer(two_coats(), light=make("120 ml"), full=make("50 ml"))
    assert [(b.plan.name, b.makes) for b in found.batches] == [
        ("Part A", 35),  # a twelfth of 120 and half of 50
        ("Part B", 35),
        ("Light coat", 120),
        ("Full coat", 50),
    ]
    assert [(line.line.of, line.high) for line in found.batches[0].lines] == [
        ("citrate", Fraction("8.75")),
        ("water", 35),
    ]
    assert [(s.batch.plan.name, s.texts()) for s in found.stocks] == [
        ("Part A", ("10 ml for Light coat", "25 ml for Full coat")),
        ("Part B", ("10 ml for Light coat", "25 ml for Full coat")),
    ]


def test_a_stock_that_is_asked_for_itself_is_added_to_what_is_taken_of_it() -> None:
    found = answer(two_coats(), full=make("50 ml"), a=make("100 ml"))
    (part_a,) = [stock for stock in found.stocks if stock.batch.plan.id == "r/a"]
    assert (part_a.batch.makes, part_a.texts()) == (125, ("25 ml for Full coat", "100 ml for itself"))


def test_what_is_asked_for_alone_and_goes_into_nothing_is_no_stock() -> None:
    assert answer(two_coats(), a=make("100 ml")).stocks == ()


def test_everything_to_have_at_hand_is_listed_once_and_rounded_after_it_is_added() -> None:
    found = answer(two_coats(), light=make("1.2 ml"), full=make("0.5 ml"))
    citrate, water, prussiate = found.things
    assert (citrate.name, citrate.high, citrate.shown.text()) == ("citrate", Fraction("0.0875"), "0.088 g")
    assert [citrate.low, water.at_most, prussiate.at_most] == [citrate.high, True, False]
    # 0.35 ml to fill each stock up to, and ten twelfths of 1.2 ml poured
    assert (water.high, water.said()[0]) == (Fraction("1.7"), "at most, since it is filled up")
    assert any(note.startswith("Part A: 114.3 % off for one step of a 0.1 g balance") for note in citrate.said())


def test_the_same_note_of_two_lines_is_said_once() -> None:
    mixed = Kitchen(form("gum")).mix("x", {"gum": "0.5 g", "water": "to make 1 l"}, name="Wash")
    mixed.mix("y", {"gum": "0.5 g", "water": "to make 1 l"}, name="Wash")
    assert len(answer(mixed, x=make("1 l"), y=make("1 l")).things[0].said()) == 1


def weighed_and_poured(density: str, state: str) -> Kitchen:
    mixed = Kitchen(form("acid", state=state, density=density))
    mixed.mix("x", {"acid": "20 g", "water": "to make 100 ml"})
    return mixed.mix("y", {"acid": "10 ml", "water": "to make 100 ml"})


@pytest.mark.parametrize(
    ("density", "state", "expected"),
    [
        pytest.param("1.25 g/ml", "liquid", [("volume", Fraction(26), Fraction(26))], id="a liquid by volume"),
        pytest.param("1.25 g/ml", "solid", [("mass", Fraction("32.5"), Fraction("32.5"))], id="a solid by weight"),
        pytest.param("1-1.25 g/ml", "liquid", [("volume", Fraction(26), Fraction(30))], id="a range stays one"),
        pytest.param("", "liquid", [("mass", 20, 20), ("volume", 10, 10)], id="without a density"),
    ],
)
def test_mass_and_volume_are_added_only_through_a_density(
    density: str, state: str, expected: list[tuple[str, Fraction, Fraction]]
) -> None:
    found = answer(weighed_and_poured(density, state), x=make("100 ml"), y=make("100 ml"))
    assert [(t.kind, t.low, t.high) for t in found.things if t.of == "acid"] == expected


def test_drops_and_pieces_are_never_turned_into_anything() -> None:
    mixed = Kitchen(form("oil", state="liquid", density="0.9 g/ml"))
    mixed.mix("x", {"oil": "9 g", "water": "to make 100 ml"}).mix("y", {"oil": "5 ml", "water": "to make 100 ml"})
    mixed.mix("z", {"oil": "8 drops", "water": "to make 100 ml"})
    found = answer(mixed, x=make("100 ml"), y=make("100 ml"), z=make("100 ml"))
    assert [(t.kind, t.high) for t in found.things if t.of == "oil"] == [("volume", 15), ("drops", 8)]


def test_what_nobody_measures_is_listed_apart() -> None:
    mixed = Kitchen(form("acid")).mix(contains={"acid": "to pH 4", "water": "to make 1 l"}, name="Bath")
    found = answer(mixed, m=make("2 l"))
    assert [one.text() for one in found.unmeasured] == ["Bath: to pH 4"]
    assert [thing.of for thing in found.things] == ["water"]


def test_warnings_say_of_which_mixture_they_are_where_several_are_asked_for() -> None:
    sheets = parse_sheets("1 of 24x30 cm", coats="1", allowance=Fraction(0))
    ranges = "coverage is 64–78 ml/m²: this is mixed for the upper end"
    assert answer(two_coats(), light=sheets).warnings[0] == ranges
    both = answer(two_coats(), light=sheets, full=sheets).warnings
    assert both[0] == f"Light coat: {ranges}"
    assert len(both) == len(set(both)) == 3  # and that either volume is an estimate


def test_what_is_left_of_a_thing_is_for_one_mixture() -> None:
    mixed, left = two_coats(), Have(left=(("citrate", q("18 g")),))
    assert answer(mixed, full=left).batches[0].lines[0].high == 18
    code, message, _ = refused(answer, mixed, full=left, light=make("120 ml"))
    assert (code, message) == (
        "left-shared",
        "all that is left of `citrate` is asked to go into `Full coat`, and `Light coat` takes of it, too",
    )


def test_a_mixture_is_asked_for_once() -> None:
    kitchen = two_coats()
    asked = [Asked(target=kitchen.target("full"), question=make("50 ml"))] * 2
    assert refused(together, asked, kitchen.archive)[0] == "asked-twice"


def plans_of(archive: Archive) -> tuple[Target, ...]:
    problems = Problems()
    plans = targets(archive.recipes[0], archive, batches(archive, problems), problems)
    assert not problems.found
    return plans


@st.composite
def several(draw: st.DrawFn) -> tuple[Archive, list[Asked]]:
    """An archive of nested mixtures, and a factor for some of them."""
    archive = draw(archives())
    plans = plans_of(archive)
    wanted = draw(st.lists(st.sampled_from(plans), unique_by=lambda plan: plan.id, min_size=1))
    return archive, [Asked(target=plan, question=Factor(times=draw(factors))) for plan in wanted]


def bought(found: Together) -> dict[tuple[str, str], tuple[Fraction, Fraction]]:
    return {(thing.of, thing.kind): (thing.low, thing.high) for thing in found.things}


@given(several())
def test_one_question_alone_is_answered_as_ever(drawn: tuple[Archive, list[Asked]]) -> None:
    archive, asked = drawn
    measuring = archive.settings.measuring
    for one in asked:
        found, alone = together([one], archive), scale(one.target, one.question, measuring)
        assert (found.batches, found.answers, found.warnings) == (alone.mixtures, (alone,), alone.warnings)


@given(several())
def test_the_shares_of_every_batch_add_up_to_it_and_each_question_gets_its_own(
    drawn: tuple[Archive, list[Asked]],
) -> None:
    archive, asked = drawn
    found = together(asked, archive)
    made = {batch.plan.id: batch.makes for batch in found.batches}
    for stock in found.stocks:
        assert sum(share.makes for share in stock.shares) == made[stock.batch.plan.id]
    alone = [scale(one.target, one.question, archive.settings.measuring) for one in asked]
    assert made == {
        id_: sum((m.makes for one in alone for m in one.mixtures if m.plan.id == id_), Fraction(0)) for id_ in made
    }
    assert {m.plan.id for one in alone for m in one.mixtures} == set(made)


@given(several())
def test_the_list_to_have_at_hand_is_the_sum_of_the_lists_of_each_question(drawn: tuple[Archive, list[Asked]]) -> None:
    """Where nothing is turned from weight to volume, which depends on what stands beside it."""
    archive, asked = drawn
    cards = tuple(replace(c, forms=tuple(replace(f, density=None) for f in c.forms)) for c in archive.substances)
    bare = replace(archive, substances=cards)
    sums: dict[tuple[str, str], tuple[Fraction, Fraction]] = {}
    for one in asked:
        for key, (low, high) in bought(together([one], bare)).items():
            before = sums.get(key, (Fraction(0), Fraction(0)))
            sums[key] = (before[0] + low, before[1] + high)
    assert bought(together(asked, bare)) == sums


@given(several())
def test_twice_of_everything_takes_twice_as_much(drawn: tuple[Archive, list[Asked]]) -> None:
    archive, asked = drawn
    doubled = [
        replace(one, question=Factor(times=one.question.times * 2)) for one in asked if isinstance(one.question, Factor)
    ]
    once, twice = bought(together(asked, archive)), bought(together(doubled, archive))
    assert twice == {key: (2 * low, 2 * high) for key, (low, high) in once.items()}


@given(several(), st.randoms())
def test_the_order_of_the_questions_changes_no_amount(drawn: tuple[Archive, list[Asked]], dice: object) -> None:
    archive, asked = drawn
    other = list(asked)
    dice.shuffle(other)  # type: ignore[attr-defined]  # a random.Random that can be shrunk
    assert bought(together(asked, archive)) == bought(together(other, archive))


@given(several())
def test_every_batch_comes_after_what_goes_into_it(drawn: tuple[Archive, list[Asked]]) -> None:
    archive, asked = drawn
    order = [batch.plan.id for batch in together(asked, archive).batches]
    for batch in together(asked, archive).batches:
        for line in batch.plan.lines:
            assert line.of not in archive.mixtures or order.index(line.of) < order.index(batch.plan.id)
