"""The page and the program say the same: every number, unit and note, over random questions."""

import json
import random
from typing import Any

import pytest
from click.testing import CliRunner

from sitegen.cli import main
from sitegen.compute.whole import Computed
from tests.browser.asking import number, questions, ways
from tests.browser.conftest import CONTENT, Open
from tests.browser.desk import Asked, ask, expected, seen

SLUGS = sorted(path.stem for path in (CONTENT / "recipes").glob("*.yaml"))
SEED = 1842
LEAST = 500
"""Questions in all; there is one for every recipe, mixture, way of asking and system of measures."""


def asked_of(slug: str, computed: Computed) -> list[Asked]:
    dice = random.Random(f"{SEED} {slug}")
    return [asked for target in computed.targets[slug] for asked in questions(target, dice)]


def test_the_questions_are_many_and_of_every_kind(computed: Computed) -> None:
    every = [asked for slug in SLUGS for asked in asked_of(slug, computed)]
    assert len(every) >= LEAST
    assert {a.blanks["ask"] for a in every} == {"make", "factor", "tray", "sheets", "have", "base", "people"}


@pytest.mark.parametrize("slug", SLUGS)
def test_page_and_program_agree_on_every_amount(slug: str, computed: Computed, visit: Open) -> None:
    page = visit(f"recipes/{slug}/index.html")
    written = seen(page).mixtures
    questions = asked_of(slug, computed)
    for asked, shown in zip(questions, ask(page, *(q.blanks for q in questions)), strict=True):
        assert (shown.mixtures, shown.warnings, shown.totals) == expected([asked], written, computed), asked.blanks
        assert shown.refused == ""
        assert shown.asked.startswith("For ")
        assert asked.target.name in shown.asked


@pytest.mark.parametrize("slug", SLUGS)
def test_page_offers_the_ways_that_make_sense(slug: str, computed: Computed, visit: Open) -> None:
    page = visit(f"recipes/{slug}/index.html")
    for target in computed.targets[slug]:
        if len(computed.targets[slug]) > 1:
            page.select_option("[name=mix]", target.local)
        offered = page.eval_on_selector_all(
            "[data-choice]", "all => all.filter((one) => !one.hidden).map((one) => one.dataset.choice)"
        )
        assert sorted(offered) == sorted(ways(target)), target.local


@pytest.mark.parametrize("slug", SLUGS[::3])
def test_typing_on_the_keyboard_gives_what_the_command_answers(slug: str, computed: Computed, visit: Open) -> None:
    """Real keys and real lists, against `trayside scale --json`."""
    target = computed.targets[slug][0]
    amount, unit = number(random.Random(f"{SEED} command {slug}")), "g" if target.size != "volume" else "ml"
    page = visit(f"recipes/{slug}/index.html")
    way, field = ("base", "base") if target.size == "base" else ("make", "amount")
    page.get_by_label({"base": "weight", "make": "amount"}[way], exact=True).check()
    page.locator(f"#calculator [name={field}]").press_sequentially(amount)
    question = f"{target.base}={amount} {unit}" if way == "base" else f"{amount} {unit}"
    answer = command(slug, "--mixture", target.local, f"--{way}", question)
    shown = seen(page).mixtures
    assert {m["id"] for m in answer["mixtures"]} == {
        i.removeprefix(f"{slug}/") for i, mixture in shown.items() if mixture["needed"]
    }
    for mixture in answer["mixtures"]:
        lines = shown[mixture["id"] if "/" in mixture["id"] else f"{slug}/{mixture['id']}"]["lines"].values()
        for line, said in zip(lines, mixture["contains"], strict=True):
            if said["measure"]:
                assert (line["measure"], line["exact"]) == (text(said["measure"]), text(said["exact"], plain=True))
            assert line["notes"] == "; ".join(said["notes"])


def command(*words: str) -> Any:
    result = CliRunner().invoke(main, ["scale", *words, "--archive", str(CONTENT), "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def text(quantity: dict[str, str], *, plain: bool = False) -> str:
    """A quantity of the command's as a page writes it: one drop, not one drops."""
    low, high, unit = quantity["value"], quantity.get("to", quantity["value"]), quantity["unit"]
    if not plain and high == "1":
        unit = {"drops": "drop", "pieces": "piece"}.get(unit, unit)
    return f"{low if low == high else f'{low}–{high}'} {unit}"


@pytest.mark.parametrize("system", ["US", "imp"])
@pytest.mark.parametrize("slug", SLUGS)
def test_other_measures_show_the_metric_ones_beside_them_and_give_them_back(
    slug: str, system: str, visit: Open
) -> None:
    page = visit(f"recipes/{slug}/index.html")
    written = seen(page).mixtures
    page.locator(f"[name=measures][value={system}]").check()
    for mixture, amounts in seen(page).mixtures.items():
        for key, line in amounts["lines"].items():
            assert line["measure"].endswith(written[mixture]["lines"][key]["measure"])
            assert line["exact"] == written[mixture]["lines"][key]["exact"]
    page.locator("[name=measures][value=metric]").check()
    assert seen(page).mixtures == written


def test_reset_gives_back_what_was_written(visit: Open) -> None:
    page = visit("recipes/iron-blue/index.html")
    written = seen(page)
    ask(page, {"mix": "working", "ask": "people", "measures": "US", "people": "14", "each": "share"})
    assert seen(page) != written
    page.get_by_role("button", name="Back to as written", exact=True).click()
    assert seen(page) == written
    page.wait_for_url(lambda url: "#" not in url)
