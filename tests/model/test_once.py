"""What is worked out once in an archive's life: by the part itself, for that archive alone, and not without end."""

from dataclasses import replace

from sitegen.model.archive import Archive, Process, Settings
from sitegen.model.once import KEPT, once


def archive() -> Archive:
    return Archive(settings=Settings(title="Mill"), recipes=(), substances=())


def test_the_same_part_is_worked_out_once_and_an_equal_one_again() -> None:
    asked: list[str] = []

    @once
    def shout(part: Process, _: Archive) -> str:
        asked.append(part.name)
        return part.name.upper()

    mill, one = archive(), Process(id="tea", name="Tea")
    assert [shout(one, mill), shout(one, mill), shout(replace(one), mill)] == ["TEA"] * 3
    assert asked == ["Tea", "Tea"], "an equal part may lie on another line"


def test_another_archive_asks_anew() -> None:
    @once
    def title(_: Process, held: Archive) -> str:
        return held.settings.title

    first, part = archive(), Process(id="tea", name="Tea")
    second = replace(first, settings=Settings(title="Dam"))
    assert (title(part, first), title(part, second), title(part, first)) == ("Mill", "Dam", "Mill")


def test_two_kinds_of_one_part_stay_apart_and_nothing_is_kept_without_end() -> None:
    @once
    def name(part: Process, _: Archive) -> str | None:
        return part.name

    @once
    def nothing(_: Process, __: Archive) -> str | None:
        return None

    mill = archive()
    for number in range(KEPT + 5):
        part = Process(id="p", name=f"P{number}")
        assert (nothing(part, mill), name(part, mill)) == (None, f"P{number}")
    assert {len(kept) for kept in mill.worked_out.values()} == {KEPT}
