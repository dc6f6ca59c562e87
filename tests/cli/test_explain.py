"""trayside proof --explain: each rule, sum and threshold, in 80 columns and as data."""

import json
from functools import partial

import pytest

from sitegen.labels.label import NOTICE
from tests.cli import terminal
from tests.cli.terminal import DEMO

run = partial(terminal.run, "proof", "--archive", DEMO)


def test_each_rule_is_told_with_its_sum_and_threshold() -> None:
    result = run("--explain", "salted-paper", "--mixture", "silver")
    told = " ".join(result.stdout.split())
    assert result.exit_code == 0
    assert "Acid silver solution (silver) classified: Danger (GHS05, GHS09)" in told
    assert "Σ (percent ÷ limit) for Skin Corr. 1: silver nitrate 12 % ÷ 5 %" in told
    assert "threshold ≥ 1; Skin Corr. 1 [CLP Annex I" in told
    assert "not known of silver nitrate: no M-factor" in told
    assert "How known: percent by weight are estimates" in told
    assert NOTICE in told


def test_no_line_is_longer_than_eighty_signs() -> None:
    lines = run("--explain", "iron-silver-brown").stdout.splitlines()
    assert max(map(len, lines)) <= 80
    assert sum(line.endswith(")") and not line.startswith(" ") for line in lines) >= 4


def test_the_three_answers_are_three_as_data() -> None:
    data = [json.loads(run("--explain", r, "--json").stdout) for r in ("salted-paper", "iron-blue")]
    mixtures = {m["id"]: m for one in data for m in one["mixtures"]}
    assert mixtures["silver"]["answer"] == "classified"
    assert mixtures["salting"]["answer"] == "not classified"
    assert mixtures["part-a"]["answer"] == "not enough data"
    skin = next(f for f in mixtures["silver"]["findings"] if f["family"] == "skin")
    assert skin["classes"] == ["Skin Corr. 1B"]
    assert (skin["reasons"][0]["threshold"], skin["reasons"][0]["value"]) == ("≥ 1", "2.4")


@pytest.mark.parametrize(
    ("words", "code"), [(["nope"], "unknown-recipe"), (["iron-blue", "--mixture", "x"], "unknown-mixture")]
)
def test_what_is_not_there_is_refused(words: list[str], code: str) -> None:
    result = run("--explain", *words)
    assert result.exit_code == 2
    assert f"error[{code}]" in result.stderr
