"""Troubles that recipes share: drawn into every recipe of their processes, overridden by the same symptom."""

from sitegen.model.archive import Archive
from sitegen.model.recipe import Trouble
from sitegen.problems import Problem
from tests.golden_cases import run, sound

PALE = """symptom: Pale
processes: [toning]
stage: tone
words: washed out
causes:
  - {cause: Old bath, remedy: Mix it anew, step: Tone/1}
"""


def checked(**troubles: str) -> tuple[Archive, tuple[Problem, ...]]:
    texts = sound() | {f"troubles/{name.replace('_', '-')}.yaml": text for name, text in troubles.items()}
    archive, problems = run(texts)
    assert archive is not None
    return archive, problems


def by_id(archive: Archive) -> dict[str, Trouble]:
    return {trouble.id: trouble for trouble in archive.recipes[0].troubles}


def test_a_shared_trouble_is_drawn_behind_the_recipes_own() -> None:
    archive, problems = checked(pale=PALE)
    assert problems == ()
    assert list(by_id(archive)) == ["nothing-happens", "pale"]
    pale = by_id(archive)["pale"]
    assert (pale.shared, pale.seen, pale.words, pale.causes[0].steps) == (True, "tone", ("washed out",), ("Tone/1",))
    assert not by_id(archive)["nothing-happens"].shared


def test_a_recipe_overrides_it_by_the_same_symptom() -> None:
    other = PALE.replace("Pale", "Nothing happens!")
    archive, problems = checked(nothing_happens=other)
    assert problems == ()
    assert [c.cause for c in by_id(archive)["nothing-happens"].causes] == ["The bath is too weak"]


def test_recipes_of_other_processes_do_not_get_it() -> None:
    archive, problems = checked(pale=PALE.replace("[toning]", "[iron-blue]").replace(", step: Tone/1", ""))
    assert problems == ()
    assert "pale" not in by_id(archive)


def test_a_step_is_not_asked_for_where_no_recipe_can_have_it() -> None:
    _, problems = checked(pale=PALE.replace("[toning]", "[iron-blue]"))
    assert problems == ()


def test_unknown_processes_editions_and_bad_names_are_said_at_their_place() -> None:
    text = PALE.replace("[toning]", "[toning, tonning]") + "edition: supporter\n"
    _, problems = checked(pale=text, Bad_Name=PALE)
    assert [(p.code, p.at.file, p.at.line) for p in problems] == [
        ("bad-file-name", "troubles/Bad-Name.yaml", 0),
        ("unknown-process", "troubles/pale.yaml", 1),
        ("unknown-edition", "troubles/pale.yaml", 6),
    ]


def test_a_trouble_for_supporters_stays_with_them() -> None:
    archive, problems = checked(pale=PALE + "edition: supporters\n")
    assert problems == ()
    assert "pale" not in by_id(archive.edition("public"))
    assert "pale" in by_id(archive.edition("supporters"))


def test_its_sentences_are_read_once_and_not_as_a_recipes() -> None:
    archive, _ = checked(pale=PALE)
    assert archive.recipes[0].troubles[-1].shared
