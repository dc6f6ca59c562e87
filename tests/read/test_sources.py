"""Texts composed: a text that is read again unchanged is not composed again, in an archive of any size."""

from sitegen.problems import Problems
from sitegen.read import Sources, compose_sources
from sitegen.read.nodes import text_at


def read(texts: dict[str, str], problems: Problems | None = None) -> Sources:
    return compose_sources(texts, problems or Problems())


def test_only_what_was_saved_is_composed_again() -> None:
    texts = {f"recipes/r-{number}.yaml": f"title: Recipe {number}\n" for number in range(3000)}
    first = read(texts)
    second = read(texts | {"recipes/r-7.yaml": "title: Another\n"})
    changed = [file for file in texts if first.documents[file] is not second.documents[file]]
    assert changed == ["recipes/r-7.yaml"]
    root = second.documents["recipes/r-7.yaml"]
    title = text_at(root, "title") if root else None
    assert title
    assert title.text == "Another"


def test_a_text_that_cannot_be_composed_is_told_of_every_time() -> None:
    texts = {"recipes/broken.yaml": "title: [one\n"}
    for _ in range(2):
        problems = Problems()
        assert read(texts, problems).documents == {"recipes/broken.yaml": None}
        assert len(problems.found) == 1
    assert read({"recipes/broken.yaml": "title: one\n"}, problems := Problems()).documents["recipes/broken.yaml"]
    assert not problems.found
