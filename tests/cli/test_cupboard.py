"""trayside proof --cupboard: bottles on shelves, as text and as data."""

import json
from functools import partial

from tests.cli import terminal
from tests.cli.terminal import DEMO

run = partial(terminal.run, "proof", "--cupboard", "--archive", DEMO)


def test_shelves_reasons_and_the_foot_are_printed() -> None:
    result = run()
    assert result.exit_code == 0
    assert "Oxidisers" in result.stdout
    assert "Why they stand apart" in result.stdout
    assert "not a supplier's classification" in result.stdout


def test_as_data_silver_and_thiosulfate_stand_on_two_shelves() -> None:
    data = json.loads(run("--json").stdout)
    placed = {bottle["id"]: shelf["title"] for shelf in data["shelves"] for bottle in shelf["bottles"]}
    assert placed["silver-nitrate"] != placed["sodium-thiosulfate-pentahydrate"]
    assert data["apart"]
    assert "not a safe one" in data["notice"]
