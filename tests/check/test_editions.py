"""Who may see a recipe and its parts: what the golden cases do not show."""

from datetime import date

import pytest

from sitegen.compute.publication import publication_passed
from sitegen.model.archive import Archive
from sitegen.problems import Problems
from tests.golden_cases import run, sound

RECIPE = "recipes/recipe.yaml"
SETTINGS = "archive.yaml"
EDITIONS = "editions: [public, supporters]"
SODA = "sodium-carbonate-anhydrous: 10 g"


def with_fields(*fields: str) -> dict[str, str]:
    text = sound()[RECIPE].replace("process: toning", "\n".join(("process: toning", *fields)))
    return sound() | {RECIPE: text}


def declared(editions: str) -> dict[str, str]:
    text = sound()[SETTINGS]
    assert EDITIONS in text
    return sound() | {SETTINGS: text.replace(EDITIONS, f"editions: {editions}")}


def codes(texts: dict[str, str]) -> list[tuple[str, str]]:
    return [(p.at.file, p.code) for p in run(texts)[1]]


def archive_of(texts: dict[str, str]) -> Archive:
    archive, problems = run(texts)
    assert problems == ()
    assert archive
    return archive


def test_editions_are_names_or_fields_with_names() -> None:
    settings = archive_of(
        declared("[public, in-between, {id: supporters, name: For supporters, sealed: yes}]")
    ).settings
    assert settings.editions == ("public", "in-between", "supporters")
    told = [(a.id, a.name, a.sealed) for a in map(settings.audience, settings.editions)]
    assert told == [
        ("public", "public", False),
        ("in-between", "in between", False),
        ("supporters", "For supporters", True),
    ]


@pytest.mark.parametrize(
    ("editions", "code"),
    [
        ("[public, {id: supporters, seald: yes}]", "unknown-field"),
        ("[public, {name: For supporters}]", "field-missing"),
        ("[public, {id: supporters, sealed: perhaps}]", "not-yes-or-no"),
        ("[public, {id: public}]", "duplicate-edition"),
        ("[public, {id: supporters}, {id: public, sealed: yes}]", "edition-circle"),
        ("[]", "list-empty"),
        ("[public, ]", None),
    ],
)
def test_a_wrong_declaration_is_told(editions: str, code: str | None) -> None:
    assert codes(declared(editions)) == ([(SETTINGS, code)] if code else [])


@pytest.mark.parametrize("day", ["1 December 2026", "2026-13-01", "2026-02-30", "tomorrow", "01.12.2026"])
def test_a_malformed_day_is_told(day: str) -> None:
    assert codes(with_fields("edition: supporters", f'publish from: "{day}"')) == [(RECIPE, "bad-date")]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("  - title: Tone", "  - title: Tone\n    edition: suporters"),
        ("  - symptom: Nothing happens", "  - symptom: Nothing happens\n    edition: suporters"),
        ("remedy: Mix it anew", "remedy: Mix it anew, edition: suporters"),
        ("    keeps:", "    note: {text: Stir., edition: suporters}\n    keeps:"),
    ],
)
def test_an_edition_that_does_not_exist_is_told_wherever_it_stands(old: str, new: str) -> None:
    text = sound()[RECIPE]
    assert old in text
    assert codes(sound() | {RECIPE: text.replace(old, new)}) == [(RECIPE, "unknown-edition")]


def test_a_part_may_be_for_the_very_readers_of_its_recipe() -> None:
    texts = with_fields("edition: supporters")
    texts[RECIPE] = texts[RECIPE].replace("  - title: Tone", "  - title: Tone\n    edition: supporters")
    assert codes(texts) == []


def test_a_teaser_beside_a_title_that_may_be_shown_is_sound() -> None:
    assert codes(with_fields("edition: supporters", "sealed title: no", "teaser: Come in.")) == []


def opening(here: str, there: str) -> list[tuple[str, str]]:
    """Codes for a recipe that opens on one day and draws on one that opens on another."""
    texts = with_fields("edition: supporters", here)
    other = texts[RECIPE].replace("IB-07", "IB-08").replace(here, there)
    texts[RECIPE] = texts[RECIPE].replace(SODA, "stock/bath: 10 ml")
    return codes(texts | {"recipes/stock.yaml": other})


@pytest.mark.parametrize(
    ("here", "there", "told"),
    [
        ("publish from: 2026-12-01", "publish from: 2026-12-01", False),
        ("publish from: 2026-12-01", "publish from: 2026-11-30", False),
        ("publish from: 2026-12-01", "publish from: 2026-12-02", True),
        ("publish from: 2026-12-01", "status: settled", True),
        ("status: settled", "publish from: 2026-12-02", False),
    ],
)
def test_what_a_recipe_draws_on_is_open_when_it_is(here: str, there: str, told: bool) -> None:
    assert opening(here, there) == ([(RECIPE, "publish-from-too-early")] if told else [])


def passed(today: date) -> list[tuple[str, str, int]]:
    archive = archive_of(with_fields("edition: supporters", "publish from: 2026-12-01"))
    problems = Problems()
    publication_passed(archive, today, problems)
    return [(p.code, p.level, p.at.line) for p in problems.found]


def test_a_day_that_has_come_is_a_warning_at_its_line() -> None:
    line = (
        with_fields("edition: supporters", "publish from: 2026-12-01")[RECIPE]
        .split("\n")
        .index("publish from: 2026-12-01")
    )
    assert passed(date(2026, 11, 30)) == []
    assert passed(date(2026, 12, 1)) == [("publish-from-passed", "warning", line)]
