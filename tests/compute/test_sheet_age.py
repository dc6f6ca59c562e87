"""The age of a sheet: each revision stands once, and a mistake marks every sheet before its correction."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from sitegen.compute.sheet_age import revisions
from sitegen.model.origin import Change
from sitegen.model.recipe import Recipe
from sitegen.problems import Span
from tests.labels.shelves import computed

BATH = "bath: {name: Salt, contains: {sodium-chloride: 20 g, water: to make 1 l}}"
RECIPE = computed(BATH).archive.recipes[0]


def revised(revision: int, *changes: tuple[int, str]) -> Recipe:
    """A recipe at a revision, with what single revisions corrected ('' for nothing)."""
    said = tuple(Change(revision=n, what=f"Change {n}.", corrects=text, at=Span(file="x")) for n, text in changes)
    return replace(RECIPE, revision=revision, changes=said)


def told(recipe: Recipe) -> list[tuple[int, int, str]]:
    return [(run.first, run.last, run.standing) for run in revisions(recipe)]


def test_the_newest_is_current_and_older_ones_are_superseded() -> None:
    assert told(revised(1)) == [(1, 1, "current")]
    assert told(revised(3)) == [(3, 3, "current"), (1, 2, "superseded")]
    assert told(revised(3, (2, ""))) == [(3, 3, "current"), (2, 2, "superseded"), (1, 1, "superseded")]


def test_a_correction_marks_every_sheet_before_it_and_none_after() -> None:
    assert told(revised(6, (4, "Ten times the soda."), (5, ""))) == [
        (6, 6, "current"),
        (5, 5, "superseded"),
        (4, 4, "superseded"),
        (1, 3, "corrected"),
    ]


def test_a_correction_in_the_newest_revision_leaves_only_that_one_in_use() -> None:
    assert told(revised(3, (3, "Wrong salt."))) == [(3, 3, "current"), (1, 2, "corrected")]


@given(st.integers(1, 60), st.dictionaries(st.integers(1, 60), st.sampled_from(["", "Wrong."]), max_size=12))
def test_every_revision_stands_once_newest_first_and_as_its_own_later_changes_say(
    newest: int, written: dict[int, str]
) -> None:
    changes = sorted((n, text) for n, text in written.items() if n <= newest)
    found = revisions(revised(newest, *changes))
    assert [n for run in found for n in range(run.last, run.first - 1, -1)] == list(range(newest, 0, -1))
    for run in found:
        assert run.change is None or run.first == run.last == run.change.revision
        for n in range(run.first, run.last + 1):
            wrong = any(text for later, text in changes if later > n)
            assert run.standing == ("current" if n == newest else "corrected" if wrong else "superseded")
    assert {run.change.revision for run in found if run.change} == {n for n, _ in changes}
